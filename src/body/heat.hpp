// Air, radiation and the body's surface.
#pragma once

#include "base/air.hpp" // saturation vapour pressure

#include <cmath>

namespace tuck::body {

using tuck::saturation_vapour_pressure_kpa;
double vapour_pressure_kpa(double air_c, double humidity_pct);
/// Dew point, C (WMO form, 17.62 and 243.12).
double dew_point_c(double air_c, double humidity_pct);
/// Wet-bulb temperature, C, at sea level. Humidity 5-99 %, -20..50 C. Stull 2011.
double wet_bulb_stull_c(double air_c, double humidity_pct);
/// WBGT from its parts, C (ISO 7243): with sun 0.7 Tnw + 0.2 Tg + 0.1 Ta, without 0.7 Tnw + 0.3 Tg.
double wbgt_from_parts_c(double natural_wet_bulb_c, double globe_c, double air_c, bool sun);
/// WBGT without measured sun or wind, C: 0.567 Ta + 0.393 e + 3.94, e in hPa (Australian Bureau of
/// Meteorology form, as in a public weather-centre library).
double wbgt_simple_c(double air_c, double humidity_pct);
/// Body surface area, m2, DuBois: 0.202 m^0.425 h^0.725.
double body_surface_m2(double mass_kg, double height_m);
/// Convective coefficient, W/(m2 K): 8.3 v^0.6, 3.1 below 0.2 m/s (ASHRAE list, seated). No measured law
/// above 5 m/s: extrapolated there. Also from the square of the speed, which two winds at right angles give.
inline double convection_of_square_w_per_m2_k(double air_m2_s2) {
    constexpr double still_air_m2_s2 = 0.2 * 0.2;
    constexpr double still_air_w_per_m2_k = 3.1;
    return air_m2_s2 < still_air_m2_s2 ? still_air_w_per_m2_k : 8.3 * std::pow(air_m2_s2, 0.3);
}
inline double convection_w_per_m2_k(double air_speed_m_s) {
    return convection_of_square_w_per_m2_k(air_speed_m_s * air_speed_m_s);
}

} // namespace tuck::body
