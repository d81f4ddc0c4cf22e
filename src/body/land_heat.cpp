#include "body/land_heat.hpp"

#include "body/heat.hpp"

#include <algorithm>

namespace tuck::body {
namespace {

// S = (k M - D A) / 675, fitted to the 24 remembered cells of Sawka 2007, Table 3: the share of heat that
// sweat and air must carry, and the dry loss per area, 3.8 W/(m2 K) times (42.2 C - air) at running speed.
// The share left out, 22 %, is what ISO 7933 gives to breath (8-10 %) and to an hour's storage (13 %).
constexpr double carried_share = 0.777;
constexpr double fitted_loss_w_per_m2_k = 3.8;
constexpr double no_dry_loss_c = 42.2;
constexpr double fitted_speed_m_s = 3.2;   // the middle of the table's running speeds
constexpr double fitted_humidity_pct = 30; // of the sister paper, Cheuvront 2007

// The fit loses so little per kelvin because cool skin follows the air. Warm skin no longer does: it stays
// near 35 C, and air above that heats it through the air's resistance alone.
constexpr double warm_skin_c = 35;
constexpr double radiation_w_per_m2_k = 4.5;        // de Dear 1997
constexpr double evaporation_per_convection = 16.5; // K/kPa, Lewis relation

// Absorbed by the whole surface per W/m2 on level ground: absorptance 0.7, effective area 0.725, sun 45
// degrees up, a fifth of it diffuse, a fifth reflected (method of ASHRAE 55, from memory).
constexpr double absorbed_share_of_sun = 0.24;

const double fitted_exchange_w_per_m2_k = convection_w_per_m2_k(fitted_speed_m_s) + radiation_w_per_m2_k;
const double skin_resistance = 1 / fitted_loss_w_per_m2_k - 1 / fitted_exchange_w_per_m2_k;
const double warm_skin_vapour_kpa = saturation_vapour_pressure_kpa(warm_skin_c);

double dry_loss_w_per_m2(double felt_air_c, double exchange_w_per_m2_k) {
    const double following_skin = (no_dry_loss_c - felt_air_c) / (skin_resistance + 1 / exchange_w_per_m2_k);
    const double warm_skin = exchange_w_per_m2_k * (warm_skin_c - felt_air_c);
    return std::min(following_skin, warm_skin);
}

// Share of the sweat that evaporates, 1 - w^2/2 (ISO 7933:2004), w the wetted share of the skin.
double efficiency(double sweat_w_per_m2, double capacity_w_per_m2) {
    const double wetted = sweat_w_per_m2 < capacity_w_per_m2 ? sweat_w_per_m2 / capacity_w_per_m2 : 1.0;
    return 1 - wetted * wetted / 2;
}

// Breath, ISO 7933:2004; in hot humid air the terms would turn and are held at nothing.
void breathe(double air_c, double vapour_kpa, HeatBalance& heat) {
    const double warming = 0.001516 * (28.56 + 0.115 * air_c + 0.641 * vapour_kpa - air_c);
    const double wetting = 0.00127 * (59.34 + 0.53 * air_c - 11.63 * vapour_kpa);
    heat.respiratory_evaporation_w = heat.metabolic_w * std::max(0.0, wetting);
    heat.respiratory_w = std::max(0.0, heat.respiratory_evaporation_w + heat.metabolic_w * warming);
}

} // namespace

HeatBalance land_heat_balance(const LandLoad& load) {
    HeatBalance heat;
    heat.metabolic_w = load.metabolic_w;
    heat.mechanical_w = load.mechanical_w;
    const double saturated_kpa = saturation_vapour_pressure_kpa(load.air_c);
    const double vapour_kpa = saturated_kpa * load.humidity_pct / 100;
    breathe(load.air_c, vapour_kpa, heat);

    const double convection = convection_w_per_m2_k(load.air_speed_m_s);
    const double exchange = convection + radiation_w_per_m2_k;
    const double carried = carried_share * (load.metabolic_w - load.mechanical_w) / load.area_m2;
    const double felt_air_c = load.air_c + absorbed_share_of_sun * load.sun_w_m2 / exchange;
    const double dry = std::min(carried, dry_loss_w_per_m2(felt_air_c, exchange)); // cold: clothes hold it
    const double fitted_sweat = carried - dry;
    const double per_kpa = evaporation_per_convection * convection;
    const double fitted_capacity =
        per_kpa * (warm_skin_vapour_kpa - saturated_kpa * fitted_humidity_pct / 100);
    const double capacity = per_kpa * (warm_skin_vapour_kpa - vapour_kpa);

    const double required = fitted_sweat * efficiency(fitted_sweat, fitted_capacity);
    heat.dry_w = dry * load.area_m2;
    heat.required_w = required * load.area_m2;
    heat.evaporated_w = std::clamp(capacity, 0.0, required) * load.area_m2;
    heat.sweat_w = heat.required_w / efficiency(fitted_sweat, capacity);
    heat.other_w = heat.metabolic_w - heat.mechanical_w - heat.respiratory_w - heat.dry_w - heat.evaporated_w;
    return heat;
}

HeatBalance water_heat_balance(double metabolic_w, double sweat_ml_per_h, double air_c, double humidity_pct) {
    HeatBalance heat;
    heat.metabolic_w = metabolic_w;
    breathe(air_c, vapour_pressure_kpa(air_c, humidity_pct), heat);
    heat.dry_w = heat.metabolic_w - heat.respiratory_w;
    heat.sweat_w = sweat_ml_per_h / 1000 * watt_per_l_per_h;
    return heat;
}

} // namespace tuck::body
