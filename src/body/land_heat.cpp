#include "body/land_heat.hpp"

#include "body/heat.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::body {
namespace {

// Warm skin: it meets the air at 35 C and moves by a sixth of what the air does (ISO 7933:2004: 0.064 for the
// air and 0.061 for what surrounds it, 0.2 for the vapour that comes along).
constexpr double warm_skin_c = 35;
constexpr double skin_per_air = 1.0 / 6;
constexpr double skin_kpa_per_c = 0.3107;           // slope of the saturation pressure at 35 C
constexpr double radiation_w_per_m2_k = 4.5;        // de Dear 1997
constexpr double evaporation_per_convection = 16.5; // K/kPa, Lewis relation
// Where kit and cool skin stop to stand in the way, so that the rate has no corner (our choice).
constexpr double shell_whole_c = 30, shell_gone_c = 40;

// Sun falls on the surface of skin and kit, and warms it; the air then takes a part of it away again. How far
// the surface gives way says ISO 7933:2004: skin warms by 0.061 C per C of mean radiant temperature, which is
// 6 times 0.725 W/m2 of radiation per C (ASHRAE 55), in the light air that it was measured in (some 0.5 m/s).
// So a W/m2 warms it by 1 / (exchange with the air + 61 W/(m2 K)): 61 is what blood and evaporation hold it
// with.
constexpr double skin_per_radiant = 0.061;
constexpr double radiant_w_per_m2_k = 6 * 0.725;
constexpr double light_air_m_s = 0.5;

constexpr double heat_from_c = 18, heat_whole_c = 34;
constexpr double near_the_most = 0.2; // bends towards it within this share (our choice)

const double held_w_per_m2_k =
    radiant_w_per_m2_k / skin_per_radiant - convection_w_per_m2_k(light_air_m_s) - radiation_w_per_m2_k;
const double warm_skin_vapour_kpa = saturation_vapour_pressure_kpa(warm_skin_c);

// The lesser of two, rounded where they are within `band` of each other: never above either.
double lesser(double a, double b, double band, double per_band) {
    const double near = std::max(0.0, 1 - std::abs(a - b) * per_band);
    return std::min(a, b) - near * near * (0.25 * band);
}

/// From 0 at `from` to 1 at `to`, level at both ends.
double smooth_way(double x, double from, double per_span) {
    const double way = std::min(std::max((x - from) * per_span, 0.0), 1.0);
    return way * way * (3 - 2 * way);
}

/// To the air, without sun.
double air_loss_w_per_m2(double air_c, double exchange_w_per_m2_k, double shell_m2_k_per_w) {
    const double through_shell = exchange_w_per_m2_k / (1 + shell_m2_k_per_w * exchange_w_per_m2_k);
    const double from_skin = exchange_w_per_m2_k * (1 - skin_per_air);
    const double bare = smooth_way(air_c, shell_whole_c, 1 / (shell_gone_c - shell_whole_c));
    return (through_shell + bare * (from_skin - through_shell)) * (warm_skin_c - air_c);
}

// Share of the sweat that evaporates, 1 - w^2/2 (ISO 7933:2004), w the wetted share of the skin. Beyond w =
// sqrt(2/3) what evaporates would fall with more sweat.
double efficiency(double sweat_w, double capacity_w) {
    constexpr double no_capacity_w = 1e-9, wettest = 0.81649658;
    const double wetted = std::min(wettest, sweat_w / std::max(capacity_w, no_capacity_w));
    return 1 - 0.5 * wetted * wetted;
}

// Breath, ISO 7933:2004; in hot humid air the terms would turn and are held at nothing.
void breathe(double air_c, double vapour_kpa, HeatBalance& heat) {
    const double warming = 0.001516 * (28.56 + 0.115 * air_c + 0.641 * vapour_kpa - air_c);
    const double wetting = 0.00127 * (59.34 + 0.53 * air_c - 11.63 * vapour_kpa);
    heat.respiratory_evaporation_w = heat.metabolic_w * std::max(0.0, wetting);
    heat.respiratory_w = std::max(0.0, heat.respiratory_evaporation_w + heat.metabolic_w * warming);
}

} // namespace

double share_of_heat(double air_c) {
    return smooth_way(air_c, heat_from_c, 1 / (heat_whole_c - heat_from_c));
}

namespace {

// The air, and what of it takes an exponential and a power to work out: apart, so that loops do it first.
struct Surroundings {
    double air_c = 0, humidity_pct = 0, solar_w_per_m2 = 0, storing_w = 0;
    double saturated_kpa = 0, convection_w_per_m2_k = 0;
};

// Without a branch or a call, so that the compiler takes several minutes at once.
inline HeatBalance balance(const LandLoad& load, const Surroundings& around) {
    HeatBalance heat;
    heat.metabolic_w = load.metabolic_w;
    heat.mechanical_w = load.mechanical_w;
    const double vapour_kpa = around.saturated_kpa * 0.01 * around.humidity_pct;
    breathe(around.air_c, vapour_kpa, heat);

    const double convection = around.convection_w_per_m2_k;
    const double exchange = convection + radiation_w_per_m2_k;
    heat.sun_w = load.area_m2 * around.solar_w_per_m2;
    heat.sun_shed_w = heat.sun_w * exchange / (exchange + held_w_per_m2_k);
    const double offered_w = load.area_m2 * air_loss_w_per_m2(around.air_c, exchange, load.shell_m2_k_per_w) -
                             heat.sun_w + heat.sun_shed_w;
    const double to_lose_w = load.metabolic_w - load.mechanical_w - heat.respiratory_w;
    const double carried_w = to_lose_w - std::min(around.storing_w, to_lose_w);
    heat.dry_w = std::min(carried_w, offered_w); // in the cold clothes hold it
    heat.required_w = carried_w - heat.dry_w;

    const double w_per_kpa = evaporation_per_convection * convection * load.area_m2;

    const double skin_kpa =
        warm_skin_vapour_kpa + skin_kpa_per_c * skin_per_air * (around.air_c - warm_skin_c);

    const double capacity_w = w_per_kpa * (skin_kpa - vapour_kpa);
    const double waste = 1 / efficiency(heat.required_w, capacity_w);
    const double asked_w = heat.required_w * waste * (1 + more_in_heat * share_of_heat(around.air_c));
    const double most_w = most_sweat_w_per_m2 * load.area_m2;
    heat.sweat_w = lesser(asked_w, most_w, near_the_most * most_w, 1 / (near_the_most * most_w));
    heat.evaporated_w = std::min(std::min(std::max(capacity_w, 0.0), heat.required_w), heat.sweat_w);
    heat.stored_w = to_lose_w - heat.dry_w - heat.evaporated_w;
    return heat;
}

} // namespace

double sun_shed_share(double air_speed_m_s) {
    const double exchange = convection_w_per_m2_k(air_speed_m_s) + radiation_w_per_m2_k;
    return exchange / (exchange + held_w_per_m2_k);
}

HeatBalance land_heat_balance(const LandLoad& load) {
    return balance(load,
                   {load.air_c, load.humidity_pct, load.solar_w_per_m2, load.storing_w,
                    saturation_vapour_pressure_kpa(load.air_c), convection_w_per_m2_k(load.air_speed_m_s)});
}

// Twice compiled; the bytes are the same (no fused multiply-adds, see CMakeLists.txt).
#if defined(__x86_64__) && defined(__GNUC__)
__attribute__((target_clones("avx2", "default")))
#endif
void land_heat_minutes(const LandLoad& load, const double* own_speed_m_s, std::size_t first, std::size_t last,
                       BodyMinutes& m) {
    constexpr std::size_t block = 64; // stays in the nearest cache
    double saturated_kpa[block], convection[block];
    for (std::size_t from = first; from < last; from += block) {
        const std::size_t count = std::min(block, last - from);
        const double* own = own_speed_m_s + (from - first);
        const double *air_c = &m.air_c[from], *humidity = &m.humidity_pct[from],
                     *solar = &m.solar_w_per_m2[from], *wind = &m.wind_m_s[from];
        double *respiratory = &m.respiratory_w[from], *dry = &m.dry_w[from], *stored = &m.stored_w[from],
               *required = &m.required_w[from], *evaporated = &m.evaporated_w[from],
               *sweat = &m.sweat_ml_per_h[from], *breath = &m.breath_ml_per_h[from];
        for (std::size_t i = 0; i < count; ++i) {
            saturated_kpa[i] = saturation_vapour_pressure_kpa(air_c[i]);
            convection[i] = convection_of_square_w_per_m2_k(own[i] * own[i] + wind[i] * wind[i]);
        }
#ifndef __clang__
#pragma GCC ivdep // no column overlaps another
#endif
        for (std::size_t i = 0; i < count; ++i) {
            const HeatBalance heat =
                balance(load, {air_c[i], humidity[i], solar[i], stored[i], saturated_kpa[i], convection[i]});
            respiratory[i] = heat.respiratory_w;
            dry[i] = heat.dry_w;
            stored[i] = heat.stored_w;
            required[i] = heat.required_w;
            evaporated[i] = heat.evaporated_w;
            sweat[i] = heat.sweat_w * (1000 / watt_per_l_per_h);
            breath[i] = heat.respiratory_evaporation_w * (1000 / watt_per_l_per_h);
        }
    }
}

HeatBalance water_heat_balance(double metabolic_w, double sweat_ml_per_h, double air_c, double humidity_pct,
                               double storing_w) {
    HeatBalance heat;
    heat.metabolic_w = metabolic_w;
    breathe(air_c, vapour_pressure_kpa(air_c, humidity_pct), heat);
    heat.stored_w = std::min(storing_w, heat.metabolic_w - heat.respiratory_w);
    heat.dry_w = heat.metabolic_w - heat.respiratory_w - heat.stored_w;
    heat.sweat_w = sweat_ml_per_h / 1000 * watt_per_l_per_h;
    return heat;
}

} // namespace tuck::body
