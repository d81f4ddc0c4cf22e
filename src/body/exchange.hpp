// The body's surface and what it exchanges with the air: published variants beside the one in use.
#pragma once

namespace tuck::body {

/// Body surface area, m2, by formulas for Japanese adults (from memory): Takahira 1925, Fujimoto 1968,
/// Kurazumi 1994. Mass in kg, height in m.
double body_surface_takahira_m2(double mass_kg, double height_m);
double body_surface_fujimoto_m2(double mass_kg, double height_m);
double body_surface_kurazumi_m2(double mass_kg, double height_m);

/// Convective coefficients, W/(m2 K), from air speed in m/s.
double convection_walking_still_air(double speed_m_s); // 8.6 v^0.53, 0.5-2 m/s, ASHRAE list
double convection_treadmill(double speed_m_s);         // 6.5 v^0.39, 0.5-2 m/s, ASHRAE list
double convection_standing(double air_speed_m_s);      // 14.8 v^0.69, 0.15-1.5 m/s, 4.0 below, ASHRAE list
double convection_manikin(double air_speed_m_s);       // 10.3 v^0.6, to 5 m/s, de Dear 1997
double convection_iso(double air_speed_m_s);           // 3.5 + 5.2 v to 1 m/s, 8.7 v^0.6 above, ISO 7933:2004

/// Sweat rates of people at work in the heat, g/(m2 h), from required evaporation and evaporative capacity,
/// W/m2. Shapiro 1982; its correction, the line in two variables, the same line below 20 C, and its
/// correction for sun (Gonzalez 2009 and 2012). Not race models: rest to 450 W/m2, wind to 2.5 m/s. May be
/// below zero when the capacity is large.
double work_sweat_shapiro(double required_w_per_m2, double capacity_w_per_m2);
double work_sweat_corrected(double required_w_per_m2, double capacity_w_per_m2);
double work_sweat_line(double required_w_per_m2, double capacity_w_per_m2);
double work_sweat_line_cool(double required_w_per_m2, double capacity_w_per_m2);
double work_sweat_line_sun(double required_w_per_m2, double capacity_w_per_m2);

/// Water lost with breath, g/min: 0.019 VO2 (44 - Pa), VO2 in L/min, Pa in mmHg. Mitchell 1972.
double respiratory_water_g_per_min(double vo2_l_per_min, double vapour_mmhg);

} // namespace tuck::body
