// What goes into the bottles, pockets and belt for a schedule.
#pragma once

#include "schedule/frames.hpp"
#include "schedule/lines.hpp"
#include "tuck/schedule.hpp"

#include <vector>

namespace tuck::schedule {

/// One leg as it was decided.
struct Decided {
    LegFrame frame;
    LegChoice choice;
    LegLines lines;
};

/// Salt to add to the own drink of the bike, mg of sodium per ml: what the bike's need misses, at most 300
/// mg/h and 800 mg/L in all.
double added_sodium_mg_per_ml(const Setting& setting, const std::vector<Decided>& legs);

/// Bottles to mix (grams of each powder, salt included) and things to carry, to p90 and one gel to spare.
void pack(const Setting& setting, const std::vector<Decided>& legs, double added_sodium_mg_per_ml,
          Schedule& out);

} // namespace tuck::schedule
