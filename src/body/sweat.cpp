#include "body/sweat.hpp"

#include "body/energy.hpp"
#include "body/heat.hpp"
#include "body/land_heat.hpp"

#include <algorithm>

namespace tuck::body {
namespace {

// S = (k M - D A) / 675, fitted to the 24 remembered cells of Sawka 2007, Table 3: the share of heat that
// sweat must carry, and the dry loss per area at two air temperatures.
constexpr double sweat_share = 0.777;
constexpr double dry_loss_18_w_per_m2 = 92;
constexpr double dry_loss_28_w_per_m2 = 54;

} // namespace

double run_sweat_l_per_h(double mass_kg, double height_m, double speed_km_per_h, double air_c) {
    const double vo2_l_per_min = run_vo2_ml_per_kg_min(speed_km_per_h * 1000 / 60, 0) * mass_kg / 1000;
    const double metabolic_w = vo2_l_per_min * joule_per_l_o2 / 60;
    const double dry_w_per_m2 =
        dry_loss_18_w_per_m2 + (dry_loss_28_w_per_m2 - dry_loss_18_w_per_m2) * (air_c - 18) / (28 - 18);
    const double to_evaporate_w =
        sweat_share * metabolic_w - dry_w_per_m2 * body_surface_m2(mass_kg, height_m);
    return std::max(0.0, to_evaporate_w / watt_per_l_per_h);
}

double land_sweat_l_per_h(const LandHeat& heat) {
    const LandLoad load{heat.metabolic_w, heat.mechanical_w, body_surface_m2(heat.mass_kg, heat.height_m),
                        heat.air_c,       heat.humidity_pct, heat.air_speed_m_s,
                        heat.sun_w_m2};
    return land_heat_balance(load).sweat_w / watt_per_l_per_h;
}

double swim_sweat_l_per_h(double mass_kg, double water_c) {
    constexpr double swimmers_kg = 72.7;
    constexpr double at_23_c = 0.48, at_27_c = 0.76, at_32_c = 1.25;
    constexpr double rise_23_27 = (at_27_c - at_23_c) / (27 - 23),
                     rise_27_32 = (at_32_c - at_27_c) / (32 - 27);
    constexpr double bend = (rise_27_32 - rise_23_27) / (32 - 23);
    constexpr double lowest_c = (23 + 27 - rise_23_27 / bend) / 2;
    const double c = std::max(water_c, lowest_c);
    return (at_23_c + (c - 23) * (rise_23_27 + bend * (c - 27))) * mass_kg / swimmers_kg;
}

} // namespace tuck::body
