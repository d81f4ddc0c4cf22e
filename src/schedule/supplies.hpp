// What goes into the bottles, pockets and belt for a schedule.
#pragma once

#include "schedule/lines.hpp"
#include "tuck/schedule.hpp"

#include <vector>

namespace tuck::schedule {

/// What goes into one bottle.
Mix mix_bottle(const Setting& setting, const Drink& drink, const std::string& name, double volume_ml,
               double fill_ml, double added_sodium_mg_per_ml);
/// What is eaten, by the place where it waits; to p90, and one gel to spare.
void pack_food(const Setting& setting, const std::vector<Decided>& legs, Schedule& out);
/// Where bottles are handed up, and how many.
void note_refill(const Setting& setting, const std::vector<Decided>& legs, Schedule& out);

/// Bottles to mix (grams of each powder, salt included) and things to carry, to p90 and one gel to spare.
void pack(const Setting& setting, const std::vector<Decided>& legs, Schedule& out);

} // namespace tuck::schedule
