// Sweat rates by sport, for racing.
#pragma once

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
    double air_speed_m_s = 0; // over the body: own speed and wind
    double sun_w_m2 = 0;      // global radiation on level ground
};

/// The balance of any land leg (body/land_heat.hpp), L/h, never negative. At running speeds, 30 % humidity
/// and 18 C equal to run_sweat_l_per_h within 0.02 L/h; at 28 C a sixth more, where that table (from memory)
/// says less than all measurements. Measured beside it: 375 runners at 8-12 C sweated 1.08 (men) and 0.68 L/h
/// (women) where it says 1.01 and 0.69 (Bongers 2020); trained cyclists at 30-40 C 1.03 times what it says
/// (median of nine trials, Junge 2016 Table 1); runners at WBGT 24 C on a hard course 1.80 (men) and 1.16 L/h
/// (women) where it says about 1.4 and 1.0 (O'Neal 2012).
double land_sweat_l_per_h(const LandHeat& heat);

/// Sweat rate of swimming, L/h: the parabola through 0.48 L/h at 23 C, 0.76 at 27 and 1.25 at 32 C (Macaluso
/// 2011, 72.7 kg, race pace), scaled with mass; below its lowest point, 0.21 L/h at 13.8 C, level (our
/// choice). Race effort; water 10-35 C.
double swim_sweat_l_per_h(double mass_kg, double water_c);

} // namespace tuck::body
