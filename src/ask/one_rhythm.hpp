// One rhythm for a whole squad: a coach shouts it once.
#pragma once

#include "tuck/plan.hpp"

namespace tuck {

struct Athlete;
struct Event;
struct Pantry;

namespace ask {

/// The athlete's plan on the squad's rhythm, every 15 minutes, or 10 on a ride of up to 25 km, where that
/// costs no more than 5 % of the carbohydrate of their own best plan; else that one. An event that asks for a
/// rhythm keeps it.
Plan on_one_rhythm(const Athlete& athlete, const Event& event, const Pantry& pantry);

} // namespace ask
} // namespace tuck
