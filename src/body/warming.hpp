// The heat that warms the body itself at the start of work.
#pragma once

namespace tuck::body {

inline constexpr double resting_core_c = 36.8;            // ISO 7933:2004, at the start
inline constexpr double warming_s = 600;                  // time constant, ISO 7933:2004: exp(-0.1) a minute
inline constexpr double heat_of_tissue_j_per_kg_k = 3470; // 57.83 W min, ISO 7933:2004

/// Core temperature that a rate of work settles at, C: 36.6 + 0.0036 M, M in W per m2 of skin. ISO 7933:2004;
/// to 450 W/m2, beyond it extrapolated (37.5 to 39 C over the range of racing).
inline double working_core_c(double metabolic_w, double area_m2) {
    return 36.6 + 0.0036 * metabolic_w / area_m2;
}

/// One step of warming towards `target_c` and the heat that it takes, W; below 0 where the body cools after
/// harder work. The skin is taken to follow the core (ISO 7933 lets it rise by half of the core's rise and
/// 0.0053 C per W/m2 of work): whole-body temperature rises with it.
struct Warming {
    double core_c = resting_core_c;
    double step_w(double target_c, double mass_kg, double seconds);
};

} // namespace tuck::body
