#include "base/outdoor_wbgt.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace tuck {
namespace {

// Constants of Liljegren et al. 2008; temperatures in K, pressures in hPa.
constexpr double kelvin = 273.15;
constexpr double stefan_boltzmann = 5.6696e-8;
constexpr double heat_capacity = 1003.5; // of dry air, J/(kg K)
constexpr double air_mass = 28.97;       // g/mol
constexpr double water_mass = 18.015;
constexpr double air_constant = 8314.34 / air_mass;
constexpr double prandtl = heat_capacity / (heat_capacity + 1.25 * air_constant);
constexpr double wick_emissivity = 0.95, wick_albedo = 0.4, wick_diameter_m = 0.007, wick_length_m = 0.0254;
constexpr double globe_emissivity = 0.95, globe_albedo = 0.05, globe_diameter_m = 0.0508;
constexpr double ground_emissivity = 0.999, ground_albedo = 0.45;
constexpr double sun_down = 0.00873; // cosine of 89.5 degrees
constexpr double least_speed_m_s = 0.13;
constexpr double solar_constant = 1367, most_of_it = 0.85; // W/m2; share of it that the ground can see

struct Parcel {
    double k = 0;      // temperature
    double vapour = 0; // hPa
    double hpa = 0;
    double speed = 0;
    double solar = 0, direct = 0, cos_zenith = 1;
};

double saturation_hpa(double k) {
    return 1.004 * 6.1121 * std::exp(17.502 * (k - kelvin) / (k - 32.18));
}

double dew_point_k(double vapour_hpa) {
    const double z = std::log(vapour_hpa / (6.1121 * 1.004));
    return kelvin + 240.97 * z / (17.502 - z);
}

double viscosity(double k) {
    const double collision = (k / 97 - 2.9) / 0.4 * -0.034 + 1.048;
    return 2.6693e-6 * std::sqrt(air_mass * k) / (3.617 * 3.617 * collision);
}

double conductivity(double k) {
    return (heat_capacity + 1.25 * air_constant) * viscosity(k);
}

double density(double k, double hpa) {
    return hpa * 100 / (air_constant * k);
}

double diffusivity(double k, double hpa) {
    const double pressures = std::cbrt(36.4 * 218.0);
    const double temperatures = std::pow(132.0 * 647.3, 5.0 / 12);
    const double masses = std::sqrt(1 / air_mass + 1 / water_mass);
    return 3.640e-4 * std::pow(k / std::sqrt(132.0 * 647.3), 2.334) * pressures * temperatures * masses /
           (hpa / 1013.25) * 1e-4;
}

double latent_heat(double k) {
    return (313.15 - k) / 30 * -71100 + 2.4073e6;
}

// Long-wave radiation from sky and ground, K^4; the ground is as warm as the air.
double surroundings_k4(const Parcel& air) {
    const double sky_emissivity = 0.575 * std::pow(air.vapour, 0.143);
    return 0.5 * (sky_emissivity + ground_emissivity) * std::pow(air.k, 4);
}

double reynolds(const Parcel& air, double k, double diameter_m) {
    return std::max(air.speed, least_speed_m_s) * density(k, air.hpa) * diameter_m / viscosity(k);
}

// The next guess of a temperature until two follow each other within 0.02 K; each step goes a tenth of the
// way. Strong wind in the cold swings beyond it: then smaller steps.
template <typename Balance>
double settle(double start_k, const Balance& balance) {
    for (const double step : {0.1, 0.02}) {
        double now = start_k;
        for (int round = 0; round < 500; ++round) {
            const double next = balance(now);
            if (std::abs(next - now) < 0.02)
                return next;
            now = (1 - step) * now + step * next;
        }
    }
    throw std::invalid_argument("outdoor WBGT: a heat balance does not settle in these conditions");
}

double globe_k(const Parcel& air) {
    const double beam = air.direct > 0 ? air.direct * (1 / (2 * air.cos_zenith) - 1) : 0;
    const double sun = air.solar / (2 * stefan_boltzmann * globe_emissivity) * (1 - globe_albedo) *
                       (beam + 1 + ground_albedo);
    return settle(air.k, [&](double globe) {
        const double film = 0.5 * (globe + air.k);
        const double nusselt =
            2 + 0.6 * std::sqrt(reynolds(air, film, globe_diameter_m)) * std::pow(prandtl, 0.3333);
        const double exchange = nusselt * conductivity(film) / globe_diameter_m;
        return std::pow(surroundings_k4(air) -
                            exchange / (stefan_boltzmann * globe_emissivity) * (globe - air.k) + sun,
                        0.25);
    });
}

double natural_wet_bulb_k(const Parcel& air) {
    const double end_area = 0.25 * wick_diameter_m / wick_length_m;
    const double zenith = std::acos(std::clamp(air.cos_zenith, -1.0, 1.0));
    const double sun = (1 - wick_albedo) * air.solar *
                       ((1 - air.direct) * (1 + end_area) +
                        air.direct * (std::tan(zenith) / std::numbers::pi + end_area) + ground_albedo);
    return settle(dew_point_k(air.vapour), [&](double wick) {
        const double film = 0.5 * (wick + air.k);
        const double nusselt =
            0.281 * std::pow(reynolds(air, film, wick_diameter_m), 1 - 0.4) * std::pow(prandtl, 1 - 0.56);
        const double exchange = nusselt * conductivity(film) / wick_diameter_m;
        const double radiation =
            stefan_boltzmann * wick_emissivity * (surroundings_k4(air) - std::pow(wick, 4)) + sun;
        const double schmidt = viscosity(film) / (density(film, air.hpa) * diffusivity(film, air.hpa));
        const double wet = saturation_hpa(wick);
        const double evaporation = latent_heat(film) / (heat_capacity * air_mass / water_mass) *
                                   (wet - air.vapour) / (air.hpa - wet) * std::pow(prandtl / schmidt, 0.56);
        return air.k - evaporation + radiation / exchange;
    });
}

// Row by wind, column by sun of the daytime table of stability classes; the night has its own row.
int stability_class(double wind_m_s, bool day, double solar_w_per_m2) {
    constexpr int by_day[5][4] = {{1, 1, 2, 4}, {1, 2, 3, 4}, {2, 2, 3, 4}, {3, 3, 4, 4}, {3, 4, 4, 4}};
    if (!day) {
        return wind_m_s >= 2.5 ? 4 : 5;
    }
    const int row = wind_m_s >= 6 ? 4 : wind_m_s >= 5 ? 3 : wind_m_s >= 3 ? 2 : wind_m_s >= 2 ? 1 : 0;
    const int column = solar_w_per_m2 >= 925 ? 0 : solar_w_per_m2 >= 675 ? 1 : solar_w_per_m2 >= 175 ? 2 : 3;
    return by_day[row][column];
}

} // namespace

double wind_at_2m_m_s(double wind_10m_m_s, double cos_zenith, double solar_w_per_m2) {
    constexpr double urban_exponent[] = {0.15, 0.15, 0.20, 0.25, 0.30, 0.30};
    const int stability = stability_class(wind_10m_m_s, cos_zenith > 0, solar_w_per_m2);
    return std::max(least_speed_m_s, wind_10m_m_s * std::pow(2.0 / 10, urban_exponent[stability - 1]));
}

double direct_fraction(double solar_w_per_m2, double cos_zenith) {
    if (solar_w_per_m2 <= 0 || cos_zenith <= sun_down)
        return 0;
    const double clearness = std::min(most_of_it, solar_w_per_m2 / (solar_constant * cos_zenith));
    return std::clamp(std::exp(3 - 1.34 * clearness - 1.65 / clearness), 0.0, 0.9);
}

OutdoorWbgt outdoor_wbgt(const OutdoorAir& w) {
    Parcel air;
    air.k = w.air_c + kelvin;
    air.vapour = w.humidity_pct / 100 * saturation_hpa(air.k);
    air.hpa = w.pressure_hpa;
    air.speed = w.wind_2m_m_s;
    const bool up = w.cos_zenith > sun_down;
    air.solar = up ? std::min(w.solar_w_per_m2, most_of_it * solar_constant * w.cos_zenith) : 0;
    air.direct = up ? std::clamp(w.direct_fraction, 0.0, 0.9) : 0;
    air.cos_zenith = up ? w.cos_zenith : 1;
    OutdoorWbgt result;
    result.globe_c = globe_k(air) - kelvin;
    result.natural_wet_bulb_c = natural_wet_bulb_k(air) - kelvin;
    result.wbgt_c = 0.7 * result.natural_wet_bulb_c + 0.2 * result.globe_c + 0.1 * w.air_c;
    return result;
}

} // namespace tuck
