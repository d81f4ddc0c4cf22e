// Other published forms of what is known about moist air, for checks against their sources.
#pragma once

namespace tuck::body {

/// Saturation vapour pressure over water, kPa, 0-200 C: ASHRAE Fundamentals after Hyland & Wexler 1983.
double saturation_vapour_pressure_ashrae_kpa(double air_c);
/// The same on the temperature scale of 1990, kPa, 0-100 C: Hardy 1998.
double saturation_vapour_pressure_hardy_kpa(double air_c);
/// Thermodynamic wet bulb at sea level, C, above freezing: adiabatic saturation as in ASHRAE Fundamentals,
/// solved to 1e-6 K. A result below 0 C is not one (ice is not in it).
double wet_bulb_ashrae_c(double air_c, double humidity_pct);
/// Relative humidity, %, from the dew point (form of ISO 7933:2004).
double humidity_from_dew_point_pct(double air_c, double dew_point_c);
/// WBGT in shade without measured wind, C: 0.567 Ta + 0.216 e + 3.38, e in hPa. It lies up to 7 C below
/// the form for outdoors; the two must never be mixed.
double wbgt_shade_c(double air_c, double humidity_pct);
/// Mean radiant temperature from a black globe, C (ISO 7726): larger of natural and forced convection.
double mean_radiant_c(double globe_c, double air_c, double air_speed_m_s, double globe_diameter_m);

} // namespace tuck::body
