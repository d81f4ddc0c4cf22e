#include "body/sweat.hpp"

#include "body/energy.hpp"
#include "body/heat.hpp"

#include <algorithm>

namespace tuck::body {
namespace {

// One balance for every land leg: S = (k M - D A) / 675. Fitted to the 24 remembered cells of Sawka 2007,
// Table 3: the share of heat that sweat must carry, and the dry loss per area at two air temperatures.
constexpr double sweat_share = 0.777;
constexpr double watt_per_l_per_h = 675; // 2.43 kJ/g, IOM 2005
constexpr double dry_loss_18_w_per_m2 = 92;
constexpr double dry_loss_28_w_per_m2 = 54;

// The rest is our extension of that fit to other speeds and humidities. The fit's dry loss is 3.8 W/(m2 K)
// times (42.2 C - air) at running speed; a skin resistance in series with the air's spreads it over speeds.
constexpr double fitted_loss_w_per_m2_k = 3.8;
constexpr double no_dry_loss_c = 42.2;
constexpr double fitted_speed_m_s = 3.2;     // the middle of the table's running speeds
constexpr double radiation_w_per_m2_k = 4.5; // de Dear 1997
constexpr double wet_skin_c = 35;
constexpr double evaporation_per_convection = 16.5; // K/kPa, Lewis relation
constexpr double fitted_humidity_pct = 30;          // of the sister paper, Cheuvront 2007

double air_exchange_w_per_m2_k(double air_speed_m_s) {
    return convection_w_per_m2_k(air_speed_m_s) + radiation_w_per_m2_k;
}

double dry_loss_w_per_m2(double air_c, double air_speed_m_s) {
    const double skin_resistance = 1 / fitted_loss_w_per_m2_k - 1 / air_exchange_w_per_m2_k(fitted_speed_m_s);
    const double loss_w_per_m2_k = 1 / (skin_resistance + 1 / air_exchange_w_per_m2_k(air_speed_m_s));
    return loss_w_per_m2_k * (no_dry_loss_c - air_c);
}

// Share of the sweat that evaporates, 1 - w^2/2 (ISO 7933:2004), w the wetted share of the skin.
double evaporative_efficiency(double required_w_per_m2, double air_c, double humidity_pct,
                              double air_speed_m_s) {
    const double drive_kpa =
        saturation_vapour_pressure_kpa(wet_skin_c) - vapour_pressure_kpa(air_c, humidity_pct);
    const double most_w_per_m2 =
        evaporation_per_convection * convection_w_per_m2_k(air_speed_m_s) * drive_kpa;
    const double wetted = most_w_per_m2 <= 0 ? 1.0 : std::clamp(required_w_per_m2 / most_w_per_m2, 0.0, 1.0);
    return 1 - wetted * wetted / 2;
}

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
    const double area_m2 = body_surface_m2(heat.mass_kg, heat.height_m);
    const double to_evaporate_w = sweat_share * (heat.metabolic_w - heat.mechanical_w) -
                                  dry_loss_w_per_m2(heat.air_c, heat.air_speed_m_s) * area_m2;
    if (to_evaporate_w <= 0) {
        return 0;
    }
    const auto efficiency = [&](double humidity_pct) {
        return evaporative_efficiency(to_evaporate_w / area_m2, heat.air_c, humidity_pct, heat.air_speed_m_s);
    };
    const double wasted = efficiency(fitted_humidity_pct) / efficiency(heat.humidity_pct);
    return to_evaporate_w / watt_per_l_per_h * wasted;
}

double swim_sweat_l_per_h(double mass_kg, double water_c) {
    constexpr double swimmers_kg = 72.7;
    constexpr double at_23_c = 0.48;
    constexpr double at_32_c = 1.25;
    constexpr double least_l_per_h = 0.10;
    const double mean = at_23_c + (at_32_c - at_23_c) * (water_c - 23) / (32 - 23);
    return std::max(least_l_per_h, mean * mass_kg / swimmers_kg);
}

} // namespace tuck::body
