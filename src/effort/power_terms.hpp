// The single terms of the road-cycling power balance, Martin et al. 1998, and the wind seen by the rider.
// Speeds in m/s, powers in W at the wheel (before the loss in the drive).
#pragma once

namespace tuck::effort {

inline constexpr double wheel_drag_area_m2 = 0.0044;                   // turning spokes, Martin 1998
inline constexpr double bearing_n = 0.091, bearing_n_per_m_s = 0.0087; // Martin 1998
inline constexpr double gravity_m_s2 = 9.80665;

/// 0.5 rho (CdA + Fw) Va |Va| Vg: the sign form, so that a tail wind faster than the rider pushes.
double aerodynamic_power_w(double air_density, double drag_area_m2, double air_speed_m_s, double speed_m_s);
/// Vg cos(atan G) Crr m g.
double rolling_power_w(double mass_kg, double crr, double grade, double speed_m_s);
/// Vg (0.091 + 0.0087 Vg), wheel bearings.
double bearing_power_w(double speed_m_s);
/// Vg m g sin(atan G).
double potential_power_w(double mass_kg, double grade, double speed_m_s);
/// 0.5 (m + I / r^2) (Vf^2 - Vi^2) / dt; I of both wheels in kg m2, r in m.
double kinetic_power_w(double mass_kg, double wheel_inertia_kg_m2, double wheel_radius_m, double start_m_s,
                       double end_m_s, double seconds);
/// Air speed along the direction of travel; directions in degrees, the wind's where it comes from.
double air_speed_along_m_s(double speed_m_s, double wind_m_s, double wind_from_deg, double travel_deg);
/// Angle between travel and the air met, degrees, 0..180.
double yaw_deg(double speed_m_s, double wind_m_s, double wind_from_deg, double travel_deg);

/// Moist-air density, kg/m3, CIPM-2007 (Picard et al. 2008) at 400 ppm of carbon dioxide.
/// 600-1100 hPa, 15-27 C.
double air_density_cipm_kg_per_m3(double air_c, double pressure_pa, double humidity_pct);
/// Saturation vapour pressure of the same formula, Pa.
double saturation_vapour_pressure_cipm_pa(double air_c);

} // namespace tuck::effort
