#include "body/heat_strain.hpp"

#include "body/heat.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

// Names follow the symbols of ISO 7933. The numbers are the standard's own.
namespace tuck::body {
namespace {

const double core_decay = std::exp(-1.0 / 10); // time constants of 10 and 3 min
const double sweat_decay = std::exp(-1.0 / 10);
const double skin_decay = std::exp(-1.0 / 3);

struct Clothing {
    double area_factor = 1;
    double dynamic_insulation = 0; // skin to clothing surface, m2 K/W
    double vapour_resistance = 0;  // m2 kPa/W
    double relative_air_m_s = 0;
};

struct Limits {
    double most_sweat_w_per_m2 = 0;
    double most_wettedness = 1;
    double heat_capacity = 0; // W min/(m2 K)
};

struct State {
    double core_c = 36.8, rectal_c = 36.8, core_equilibrium_c = 36.8, skin_c = 34.1;
    double skin_share = 0.3;
    double sweat_w_per_m2 = 0;
    double water_loss_g = 0;
};

bool newer(const HeatStrainConditions& c) {
    return c.edition == StrainEdition::iso_2023;
}

double walking_speed(const HeatStrainConditions& c) {
    return c.walk_m_s.value_or(std::min(0.0052 * (c.metabolic_w_per_m2 - 58), 0.7));
}

double relative_air_speed(const HeatStrainConditions& c) {
    if (!c.walk_m_s) {
        return c.air_speed_m_s;
    }
    if (c.walk_angle_deg) {
        return std::abs(c.air_speed_m_s - *c.walk_m_s * std::cos(*c.walk_angle_deg * std::numbers::pi / 180));
    }
    return std::max(c.air_speed_m_s, *c.walk_m_s);
}

Clothing clothing_of(const HeatStrainConditions& c) {
    constexpr double m2k_per_w_per_clo = 0.155;
    constexpr double still_air = 0.111;
    const double clo = c.clothing_clo;
    Clothing result;
    result.relative_air_m_s = relative_air_speed(c);
    result.area_factor = 1 + (newer(c) ? 0.28 : 0.3) * clo;
    const double v = std::min(result.relative_air_m_s, 3.0);
    const double w = std::min(walking_speed(c), 1.5);
    const double clothed = std::min(1.0, 1.044 * std::exp((0.066 * v - 0.398) * v + (0.094 * w - 0.378) * w));
    const double free_v = result.relative_air_m_s; // the standard's program caps the clothed term alone
    const double bare = std::min(1.0, std::exp((0.047 * free_v - 0.472) * free_v + (0.117 * w - 0.342) * w));
    const double total = clo <= 0.6 ? ((0.6 - clo) * bare + clo * clothed) / 0.6 : clothed;
    const double static_total = m2k_per_w_per_clo * clo + still_air / result.area_factor;
    const double dynamic_total = static_total * total;
    result.dynamic_insulation = dynamic_total - still_air * bare / result.area_factor;
    const double permeability = std::min(0.9, 0.38 * ((2.6 * total - 6.5) * total + 4.9));
    result.vapour_resistance = dynamic_total / permeability / 16.7;
    return result;
}

Limits limits_of(const HeatStrainConditions& c, double area_m2) {
    Limits limits;
    limits.heat_capacity = (newer(c) ? 58.15 : 57.83) * c.mass_kg / area_m2;
    limits.most_wettedness = c.acclimatised ? 1 : 0.85;
    limits.most_sweat_w_per_m2 =
        (newer(c) ? 400.0 : std::clamp((c.metabolic_w_per_m2 - 32) * area_m2, 250.0, 400.0)) *
        (c.acclimatised ? 1.25 : 1);
    return limits;
}

double skin_equilibrium_c(const HeatStrainConditions& c, double rectal_c) {
    const double nude = 7.191 + 0.064 * c.air_c + 0.061 * c.radiant_c + 0.198 * c.vapour_kpa -
                        0.348 * c.air_speed_m_s + 0.616 * rectal_c;
    const double clothed = 12.165 + 0.02017 * c.air_c + 0.04361 * c.radiant_c + 0.19354 * c.vapour_kpa -
                           0.25315 * c.air_speed_m_s + 0.005346 * c.metabolic_w_per_m2 + 0.51274 * rectal_c;
    return nude + std::clamp((c.clothing_clo - 0.2) / 0.4, 0.0, 1.0) * (clothed - nude);
}

double radiating_share(Posture posture) {
    return posture == Posture::standing ? 0.77 : posture == Posture::sitting ? 0.70 : 0.67;
}

// Heat lost by convection and radiation, W/m2, with the clothing surface found by iteration.
double dry_loss_w_per_m2(const HeatStrainConditions& c, const Clothing& clothing, double skin_c) {
    constexpr double stefan_boltzmann = 5.67e-8;
    constexpr double skin_emissivity = 0.97;
    const double emissivity = (1 - c.reflecting_share) * skin_emissivity +
                              c.reflecting_share * (newer(c) ? 1 - c.reflection : c.reflection);
    const double v = clothing.relative_air_m_s;
    const double forced = v <= 1 ? 3.5 + 5.2 * v : 8.7 * std::pow(v, 0.6);
    double surface_c = c.radiant_c + 0.1;
    const double rising_from_c =
        newer(c) ? surface_c : skin_c; // 2023: held at the first guess of the clothes
    const double convection = std::max(2.38 * std::pow(std::abs(rising_from_c - c.air_c), 0.25), forced);
    for (int round = 0; round < 200; ++round) {
        const double radiation = emissivity * stefan_boltzmann * radiating_share(c.posture) *
                                 (std::pow(surface_c + 273, 4) - std::pow(c.radiant_c + 273, 4)) /
                                 (surface_c - c.radiant_c);
        const double next_c =
            (clothing.area_factor * (convection * c.air_c + radiation * c.radiant_c) +
             skin_c / clothing.dynamic_insulation) /
            (clothing.area_factor * (convection + radiation) + 1 / clothing.dynamic_insulation);
        if (std::abs(next_c - surface_c) <= 0.001) {
            return clothing.area_factor *
                   (convection * (surface_c - c.air_c) + radiation * (surface_c - c.radiant_c));
        }
        surface_c = 0.5 * (surface_c + next_c);
        if (surface_c == c.radiant_c) {
            surface_c += 1e-6; // the radiative coefficient divides by this difference
        }
    }
    throw std::invalid_argument("heat strain: the clothing temperature cannot be found in these conditions");
}

double required_sweat(double required_evaporation, double most_evaporation, double most_sweat) {
    if (required_evaporation <= 0) {
        return 0;
    }
    if (most_evaporation <= 0) {
        return most_sweat;
    }
    const double wettedness = required_evaporation / most_evaporation;
    if (wettedness >= 1.7) {
        return most_sweat;
    }
    const double efficiency =
        wettedness <= 1 ? 1 - wettedness * wettedness / 2 : (2 - wettedness) * (2 - wettedness) / 2;
    return std::min(most_sweat, required_evaporation / efficiency);
}

double predicted_evaporation(double sweat, double most_evaporation, double most_wettedness) {
    if (sweat <= 0) {
        return 0;
    }
    const double k = most_evaporation / sweat;
    const double wettedness = k < 0.5 ? 1 : -k + std::sqrt(k * k + 2);
    return std::min(wettedness, most_wettedness) * most_evaporation;
}

double skin_share_at(double core_c) {
    return std::clamp(0.3 - 0.09 * (core_c - 36.8), 0.1, 0.3);
}

// The share of skin in the mean body temperature depends on the core temperature sought.
void store(State& s, double stored_k, double skin_before_c) {
    const double share_before = s.skin_share;
    const double core_before_c = s.core_c;
    double guess_c = core_before_c;
    for (int round = 0; round < 200; ++round) {
        const double share = skin_share_at(guess_c);
        const double core_c = (stored_k + skin_before_c * share_before / 2 - s.skin_c * share / 2 +
                               core_before_c * (1 - share_before / 2)) /
                              (1 - share / 2);
        s.core_c = core_c;
        s.skin_share = share;
        if (std::abs(core_c - guess_c) <= 0.001) {
            return;
        }
        guess_c = 0.5 * (guess_c + core_c);
    }
}

void minute(State& s, int now, const HeatStrainConditions& c, const Clothing& clothing, const Limits& limits,
            double area_m2) {
    const double m = c.metabolic_w_per_m2;
    const double equilibrium_before_c = s.core_equilibrium_c;
    const double skin_before_c = s.skin_c;
    s.core_equilibrium_c = s.core_equilibrium_c * core_decay + (36.6 + 0.0036 * m) * (1 - core_decay);
    const double warming =
        limits.heat_capacity * (s.core_equilibrium_c - equilibrium_before_c) * (1 - s.skin_share);
    const bool at_once = newer(c) && now == 1; // 2023: the first minute starts from the skin's equilibrium
    s.skin_c = skin_equilibrium_c(c, s.rectal_c) * (at_once ? 1 : 1 - skin_decay) +
               (at_once ? 0 : s.skin_c * skin_decay);
    const double breath_dry = 0.001516 * m * (28.56 + 0.115 * c.air_c + 0.641 * c.vapour_kpa - c.air_c);
    const double breath_wet = 0.00127 * m * (59.34 + 0.53 * c.air_c - 11.63 * c.vapour_kpa);
    const double most =
        std::max(0.0, (saturation_vapour_pressure_kpa(s.skin_c) - c.vapour_kpa) / clothing.vapour_resistance);
    const double balance = m - c.mechanical_w_per_m2 - warming - breath_dry - breath_wet -
                           dry_loss_w_per_m2(c, clothing, s.skin_c);
    const double required = std::max(0.0, balance); // as in the standard: no storage below zero
    s.sweat_w_per_m2 = s.sweat_w_per_m2 * sweat_decay +
                       required_sweat(required, most, limits.most_sweat_w_per_m2) * (1 - sweat_decay);
    const double evaporated = predicted_evaporation(s.sweat_w_per_m2, most, limits.most_wettedness);
    store(s, (required - evaporated + warming) / limits.heat_capacity, skin_before_c);
    s.rectal_c += (2 * s.core_c - 1.962 * s.rectal_c - 1.31) / 9;
    s.water_loss_g += (s.sweat_w_per_m2 + breath_wet) * 2.67 * area_m2 / (1.8 * 60);
}

} // namespace

HeatStrain predicted_heat_strain(const HeatStrainConditions& c) {
    if (c.minutes < 1 || !(c.mass_kg > 0) || !(c.height_m > 0) || !(c.metabolic_w_per_m2 > 0)) {
        throw std::invalid_argument("heat strain: time, mass, height and metabolic rate must be above 0");
    }
    const double area_m2 = body_surface_m2(c.mass_kg, c.height_m);
    const Clothing clothing = clothing_of(c);
    const Limits limits = limits_of(c, area_m2);
    State state;
    HeatStrain result;
    result.minutes_to_38_c = result.minutes_to_7_5_pct = result.minutes_to_5_pct = c.minutes;
    const auto first = [&](int& when, int now, bool reached) {
        if (reached && when == c.minutes) {
            when = now;
        }
    };
    for (int now = 1; now <= c.minutes; ++now) {
        minute(state, now, c, clothing, limits, area_m2);
        first(result.minutes_to_38_c, now, state.rectal_c >= 38);
        first(result.minutes_to_7_5_pct, now, state.water_loss_g >= 75 * c.mass_kg);
        first(result.minutes_to_5_pct, now, state.water_loss_g >= 50 * c.mass_kg);
    }
    result.rectal_c = state.rectal_c;
    result.core_c = state.core_c;
    result.skin_c = state.skin_c;
    result.sweat_w_per_m2 = state.sweat_w_per_m2;
    result.water_loss_g = state.water_loss_g;
    return result;
}

} // namespace tuck::body
