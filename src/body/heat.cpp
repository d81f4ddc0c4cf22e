#include "body/heat.hpp"

#include "base/air.hpp"

#include <cmath>

namespace tuck::body {

double vapour_pressure_kpa(double air_c, double humidity_pct) {
    return saturation_vapour_pressure_kpa(air_c) * humidity_pct / 100;
}

double dew_point_c(double air_c, double humidity_pct) {
    constexpr double b = 17.62, c = 243.12; // WMO guide
    const double gamma = std::log(humidity_pct / 100) + b * air_c / (c + air_c);
    return c * gamma / (b - gamma);
}

double wet_bulb_stull_c(double air_c, double humidity_pct) {
    return air_c * std::atan(0.151977 * std::sqrt(humidity_pct + 8.313659)) +
           std::atan(air_c + humidity_pct) - std::atan(humidity_pct - 1.676331) +
           0.00391838 * std::pow(humidity_pct, 1.5) * std::atan(0.023101 * humidity_pct) - 4.686035;
}

double wbgt_from_parts_c(double natural_wet_bulb_c, double globe_c, double air_c, bool sun) {
    return sun ? 0.7 * natural_wet_bulb_c + 0.2 * globe_c + 0.1 * air_c
               : 0.7 * natural_wet_bulb_c + 0.3 * globe_c;
}

double wbgt_simple_c(double air_c, double humidity_pct) {
    return tuck::wbgt_simple_c(air_c, humidity_pct);
}

double body_surface_m2(double mass_kg, double height_m) {
    return 0.202 * std::pow(mass_kg, 0.425) * std::pow(height_m, 0.725);
}

} // namespace tuck::body
