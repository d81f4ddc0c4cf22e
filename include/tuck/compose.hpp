// The composer: runs the stages in order and gathers their results into a Plan.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/event.hpp"
#include "tuck/food.hpp"
#include "tuck/plan.hpp"

#include <string>

namespace tuck {

/// The whole plan. Where the outlook shows that the plan itself would harm (over-drinking, low sodium from
/// drinking), the stream runs once more with stricter limits; a second breach sets `refused`. Pure: the same
/// input gives the same plan. Throws Error for what no person and no day can be: a mass of -5, no legs.
Plan compose_plan(const Athlete& athlete, const Event& event, const Pantry& pantry);

/// The same plan and, where `with_lp`, the scheduling problem that it solves, in the CPLEX LP format. Empty
/// where nothing is scheduled. Solved once for both. Without `with_help` nothing is said of what is missing
/// and what would help: sooner answered.
struct Composed {
    Plan plan;
    std::string lp;
};
Composed compose(const Athlete& athlete, const Event& event, const Pantry& pantry, bool with_lp,
                 bool with_help = true);

} // namespace tuck
