// Sweat rates by sport, for racing.
#pragma once

#include "body/land_heat.hpp"

namespace tuck::body {

/// Mean sweat rate of running, L/h, by heat balance fitted to the 24 remembered cells of Sawka 2007 Table 3
/// (largest error 0.012 L/h). 8.5-15 km/h, 18-28 C, 50-90 kg; outside extrapolated along the same lines.
double run_sweat_l_per_h(double mass_kg, double height_m, double speed_km_per_h, double air_c);

/// Conditions of a leg on land.
struct LandHeat {
    double metabolic_w = 0;  // all energy used
    double mechanical_w = 0; // external work (0 for level running)
    double mass_kg = 0, height_m = 0;
    double air_c = 0, humidity_pct = 0;
    double air_speed_m_s = 0;  // over the body: own speed and wind
    double solar_w_per_m2 = 0; // taken up from the sun per m2 of skin (body/sun.hpp)
    double minutes = 0;        // mean over the first so many minutes from rest; 0: once the body is warm
    double shell_m2_k_per_w = runners_shell_m2_k_per_w;
};

/// The balance of any land leg (body/land_heat.hpp), L/h, never negative.
double land_sweat_l_per_h(const LandHeat& heat);

/// Sweat rate of swimming, L/h: the parabola through 0.48 L/h at 23 C, 0.76 at 27 and 1.25 at 32 C (Macaluso
/// 2011: nine trained men of 72.7 kg, 5 km at the speed of their lactate threshold); below its lowest point,
/// 0.21 L/h at 13.8 C, level (our choice). In proportion to the energy used, theirs taken at 1.1 m/s (the
/// speed is not in the abstract: our choice), 1018 W. Water 10-35 C; no wetsuit.
double swim_sweat_l_per_h(double metabolic_w, double water_c);

} // namespace tuck::body
