// The composer: runs the stages in order and gathers their results into a Plan.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/event.hpp"
#include "tuck/food.hpp"
#include "tuck/plan.hpp"

namespace tuck {

/// The whole plan. Where the outlook shows that the plan itself would harm (over-drinking, low sodium from
/// drinking), the stream runs once more with stricter limits; a second breach sets `refused`. Pure: the same
/// input gives the same plan. The event needs at least one leg.
Plan compose_plan(const Athlete& athlete, const Event& event, const Pantry& pantry);

/// The scheduling program of that plan in the CPLEX LP format (see schedule_as_lp).
std::string compose_lp(const Athlete& athlete, const Event& event, const Pantry& pantry);

} // namespace tuck
