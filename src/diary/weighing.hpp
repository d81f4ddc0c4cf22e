// The sum of a weighing and how far it may be off.
#pragma once

#include "tuck/figures.hpp"
#include "tuck/sweat_test.hpp"

namespace tuck::diary {

/// Mass that left without sweating, g: 0.20 g/kcal, half breath, half carbon dioxide less oxygen
/// (Cheuvront & Montain 2017).
double not_sweat_g(double energy_kcal);

/// Sweat of the session, ml (1 g = 1 ml).
double sweat_ml(const SweatTest& test, double energy_kcal);

/// One SD of that sum per hour, ml/h: two readings of the scale, the bottles, what is no sweat, the minutes.
double sweat_sd_ml_per_h(const SweatTest& test, double energy_kcal);

/// Whole-body sweat sodium, mmol/L, and one SD of it: repeats differ by 12 %, and a patch adds its limits.
struct SodiumReading {
    double mmol_per_l = 0, sd_mmol_per_l = 0;
    std::string source;
};
SodiumReading read_sodium(const SodiumTest& test);

inline constexpr double repeat_sodium_cv = figure("day.sweat_sodium_cv_tested");

inline constexpr double z95 = 1.6448536269514722; // half width of a 90 % interval, in SD

} // namespace tuck::diary
