// Wetsuits and short swims: what the water's temperature allows age-group athletes.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/reason.hpp"

#include <vector>

namespace tuck::effort {

/// Water temperature, C, above which a wetsuit is forbidden: 22 up to 1500 m, 24.6 beyond. International
/// federation, age group, current table as quoted in a secondary source; the tables of 2010-2013 said 22, 23
/// and 24 C for up to 1500, 3000 and 4000 m.
double wetsuit_limit_c(double swim_m);
/// Below this a wetsuit must be worn, C (same source; 14-16 C in the older tables).
inline constexpr double wetsuit_needed_below_c = 15.9;
/// Longest swim, m, that the water's temperature allows: none below 12 C, 750 m below 13, 1500 m below 14,
/// 3000 m below 15; infinite above (same source). Cold air shortens further (table not seen).
double longest_swim_m(double water_c);

/// Gain of speed by a wetsuit: 3 % for good swimmers to 7 % for weak ones (judgement in the 3.2-12.9 % of Gay
/// 2022; Cordain 1991: 3.2 % over 1500 m).
double wetsuit_gain(Level level);

/// What the temperature means for a swim of this length.
std::vector<Warning> water_warnings(double water_c, double swim_m);

} // namespace tuck::effort
