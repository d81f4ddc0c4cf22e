// What is usual for such a race: the plan of a neutral one, with round times, rates and ceilings. Leaving it
// has a price, so that a degree, a kilogram or a minute changes no food and no rhythm.
#pragma once

#include "schedule/frames.hpp"

namespace tuck::schedule {

/// Gives every leg that may feed its habit: the best plan of the neutral race with the same athlete, kit,
/// foods and stations. Returns the work that this took.
long long learn_habits(const Setting& now, Program& program, long long work);

} // namespace tuck::schedule
