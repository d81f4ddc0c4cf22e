// The athlete's own lines as a schedule: taken as they stand.
#pragma once

#include "schedule/lines.hpp"

#include <deque>
#include <vector>

namespace tuck::schedule {

/// What was typed, resolved: what happens when, and what must be packed for it. Not movable: its parts point
/// at each other.
struct OwnPlan {
    OwnPlan() = default;
    OwnPlan(const OwnPlan&) = delete;
    OwnPlan& operator=(const OwnPlan&) = delete;

    std::deque<Portion> portions;
    std::deque<LegProgram> programs;
    std::vector<Decided> legs;   // those with a line of their own; one entry of `taken` for each thing
    std::vector<PlanFeed> feeds; // merged by moment
    std::vector<Line> lines;
    std::vector<Mix> mix; // of the bottles that are drunk from
    std::vector<CarryItem> bottles;
    bool has(size_t leg) const;
};

/// Reads the event's own lines against pantry, bottles, stations and clock. No rule is looked at: the judge
/// does that. On the bike a drink by its own name comes from own bottles; where other lines name bottles
/// ("B1"), it is what stations hand up. Throws Error with the line: an unknown food, leg, bottle or station.
void read_own_plan(const Setting& setting, OwnPlan& out);

} // namespace tuck::schedule
