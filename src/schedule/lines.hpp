// A chosen pattern, said as lines for a tired person and as the feeds that they expand to.
#pragma once

#include "schedule/frames.hpp"
#include "tuck/plan.hpp"

#include <vector>

namespace tuck::schedule {

struct LegLines {
    std::vector<PlanLine> lines;
    std::vector<PlanFeed> feeds;
    double own_ml = 0;    // own drink, all swallows
    double handed_ml = 0; // from stations
    int items = 0;
};

LegLines lines_of(const LegFrame& frame, const LegChoice& choice, const KitInUse& kit, double speed_m_s);

/// Name of the bottle that waits in a transition.
std::string transition_bottle(LegKind kind);

/// "0:45" from 2700.
std::string clock_text(double seconds);

} // namespace tuck::schedule
