// Schedule: which food, how much, at which minute or kilometre.
#pragma once

#include "tuck/food.hpp"
#include "tuck/need.hpp"
#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck {

struct Schedule {
    std::vector<PlanFeed> feeds; // in time order
    std::vector<PlanLine> lines; // their expansion, merged by moment, is exactly the feeds
    std::vector<Unmet> unmet;
    std::vector<CarryItem> carry;
    std::vector<Mix> mix;
    std::string refill_note;
    std::vector<Warning> warnings;
    std::vector<std::string> assumptions;
    std::vector<Reason> because; // of the schedule as a whole
};

/// Lays feeds on the bike and the run that follow the need and obey every hard rule: rolling-hour limits,
/// cumulative fluid below median sweat, water with gels that need it, no solids early, late or on the run
/// unless shown, hands, what fits in bottles, allergens and dislikes, whole units. Each leg is searched over
/// every rhythm, amount and food of a small menu and the cheapest legal pattern is taken (not a proven
/// optimum of the whole day). Pure.
Schedule make_schedule(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                       const Need& need, const Pantry& pantry);

} // namespace tuck
