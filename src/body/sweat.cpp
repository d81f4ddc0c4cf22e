#include "body/sweat.hpp"

#include "body/energy.hpp"
#include "body/heat.hpp"

#include "body/warming.hpp"

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
    LandLoad load;
    load.metabolic_w = heat.metabolic_w;
    load.mechanical_w = heat.mechanical_w;
    load.area_m2 = body_surface_m2(heat.mass_kg, heat.height_m);
    load.air_c = heat.air_c;
    load.humidity_pct = heat.humidity_pct;
    load.air_speed_m_s = heat.air_speed_m_s;
    load.solar_w_per_m2 = heat.solar_w_per_m2;
    load.shell_m2_k_per_w = heat.shell_m2_k_per_w;
    if (heat.minutes <= 0)
        return land_heat_balance(load).sweat_w / watt_per_l_per_h;
    Warming warming;
    const double warm_c = working_core_c(load.metabolic_w, load.area_m2);
    double sweat_w_min = 0;
    for (double at = 0; at < heat.minutes; ++at) {
        const double part = std::min(1.0, heat.minutes - at);
        load.storing_w = warming.step_w(warm_c, heat.mass_kg, 60 * part);
        sweat_w_min += part * land_heat_balance(load).sweat_w;
    }
    return sweat_w_min / heat.minutes / watt_per_l_per_h;
}

double swim_sweat_l_per_h(double metabolic_w, double water_c) {
    static const double swimmers_w = swim_metabolic_power_w(1.1, 72.7);
    constexpr double at_23_c = 0.48, at_27_c = 0.76, at_32_c = 1.25;
    constexpr double rise_23_27 = (at_27_c - at_23_c) / (27 - 23),
                     rise_27_32 = (at_32_c - at_27_c) / (32 - 27);
    constexpr double bend = (rise_27_32 - rise_23_27) / (32 - 23);
    constexpr double lowest_c = (23 + 27 - rise_23_27 / bend) / 2;
    const double c = std::max(water_c, lowest_c);
    return (at_23_c + (c - 23) * (rise_23_27 + bend * (c - 27))) * metabolic_w / swimmers_w;
}

} // namespace tuck::body
