// Schedule: which food, how much, at which minute or kilometre.
#pragma once

#include "tuck/food.hpp"
#include "tuck/need.hpp"
#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck {

/// A wish that is not in the plan. `danger`: it would have harmed, as an allergen does.
struct KeptOut {
    std::string said; // as it was asked for
    std::string why;
    bool danger = false;
};

/// A rule that feeds break, with its numbers.
struct Breach {
    std::string rule;       // "carb_hour"
    int leg_index = -1;     // -1: of the day as a whole
    double at_s = 0;        // from the start of its leg, on the likely day
    double value = 0, allowed = 0;
    std::string unit;       // of both; empty where nothing is counted
    std::string text;       // a sentence without its full stop
};

struct Schedule {
    std::vector<PlanFeed> feeds; // in time order
    std::vector<PlanLine> lines; // their expansion, merged by moment, is exactly the feeds
    std::vector<Unmet> unmet;
    std::vector<CarryItem> carry;
    std::vector<Mix> mix;
    bool bike_stations = false; // something is handed up on the bike
    std::vector<BagStop> special_needs;
    std::string refill_note;
    std::vector<Warning> warnings;
    std::vector<std::string> assumptions;
    std::vector<KeptOut> kept_out; // pinned feeds that a rule forbids, and which
    std::vector<Reason> because; // of the schedule as a whole
};

/// The lines, of all that obey every hard rule on a fast, a likely and a slow day, that follow the need best and
/// are easiest to keep: the optimum of the program in src/schedule/program.hpp, proven, or with the gap named in
/// `because`. Pure; the search stops after a fixed amount of work, not of time.
Schedule make_schedule(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                       const Need& need, const Pantry& pantry);

/// The same program, and what `make_schedule` found, in the CPLEX LP format, for other solvers to check. Empty
/// where nothing is scheduled.
std::string schedule_as_lp(const Athlete& athlete, const Event& event, const Effort& effort, const Need& need,
                           const Pantry& pantry);

} // namespace tuck
