#include "body/moist_air.hpp"

#include "body/heat.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::body {

double saturation_vapour_pressure_ashrae_kpa(double air_c) {
    const double t = air_c + 273.15;
    const double log_pa = -5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t * t -
                          1.4452093e-8 * t * t * t + 6.5459673 * std::log(t);
    return std::exp(log_pa) / 1000;
}

double saturation_vapour_pressure_hardy_kpa(double air_c) {
    const double t = air_c + 273.15;
    const double log_pa = -2.8365744e3 / (t * t) - 6.028076559e3 / t + 19.54263612 - 2.737830188e-2 * t +
                          1.6261698e-5 * t * t + 7.0229056e-10 * t * t * t - 1.8680009e-13 * t * t * t * t +
                          2.7150305 * std::log(t);
    return std::exp(log_pa) / 1000;
}

double wet_bulb_ashrae_c(double air_c, double humidity_pct) {
    constexpr double pressure_kpa = 101.325;
    const auto mixing_ratio = [](double vapour_kpa) {
        return 0.621945 * vapour_kpa / (pressure_kpa - vapour_kpa);
    };
    const double ratio = mixing_ratio(saturation_vapour_pressure_ashrae_kpa(air_c) * humidity_pct / 100);
    const auto ratio_at = [&](double wet_c) {
        return ((2501 - 2.326 * wet_c) * mixing_ratio(saturation_vapour_pressure_ashrae_kpa(wet_c)) -
                1.006 * (air_c - wet_c)) /
               (2501 + 1.86 * air_c - 4.186 * wet_c);
    };
    double low_c = -50, high_c = air_c;
    while (high_c - low_c > 1e-6) {
        const double middle_c = (low_c + high_c) / 2;
        (ratio_at(middle_c) < ratio ? low_c : high_c) = middle_c;
    }
    return (low_c + high_c) / 2;
}

double humidity_from_dew_point_pct(double air_c, double dew_point_c) {
    return 100 * saturation_vapour_pressure_kpa(dew_point_c) / saturation_vapour_pressure_kpa(air_c);
}

double wbgt_shade_c(double air_c, double humidity_pct) {
    return 0.567 * air_c + 0.216 * 10 * vapour_pressure_kpa(air_c, humidity_pct) + 3.38;
}

double mean_radiant_c(double globe_c, double air_c, double air_speed_m_s, double globe_diameter_m) {
    constexpr double emissivity = 0.95;
    constexpr double stefan_boltzmann = 5.67e-8;
    constexpr double kelvin = 273; // ISO 7726 prints 273
    const double natural = 1.4 * std::pow(std::abs(globe_c - air_c) / globe_diameter_m, 0.25);
    const double forced = 6.3 * std::pow(air_speed_m_s, 0.6) / std::pow(globe_diameter_m, 0.4);
    const double exchange = std::max(natural, forced) / (emissivity * stefan_boltzmann);
    return std::pow(std::pow(globe_c + kelvin, 4) + exchange * (globe_c - air_c), 0.25) - kelvin;
}

} // namespace tuck::body
