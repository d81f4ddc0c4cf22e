// What goes into the bottles, pockets and belt for a schedule.
#pragma once

#include "schedule/lines.hpp"
#include "tuck/schedule.hpp"

#include <vector>

namespace tuck::schedule {

/// Bottles to mix (grams of each powder, salt included) and things to carry, to p90 and one gel to spare.
void pack(const Setting& setting, const std::vector<Decided>& legs, Schedule& out);

} // namespace tuck::schedule
