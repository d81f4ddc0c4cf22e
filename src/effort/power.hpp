// The road-cycling power balance (Martin et al. 1998) and its inverse; air density.
#pragma once

namespace tuck::effort {

/// Moist-air density, kg/m3 (ideal gas; 0.02-0.06 % below CIPM-2007 over 0-35 C).
double air_density_kg_per_m3(double air_c, double pressure_pa, double humidity_pct);
/// Standard-atmosphere pressure, Pa.
double pressure_at_altitude_pa(double altitude_m);

/// Bicycle, rider and road. wind_m_s > 0 blows against the rider.
struct Ride {
    double mass_kg = 0; // rider and bicycle
    double cda_m2 = 0.35;
    double crr = 0.005;
    double grade = 0; // rise over run
    double wind_m_s = 0;
    double air_density = 1.2;
    double drive_efficiency = 0.976;
    double fastest_descent_m_s = 15; // where the rider brakes
    double stop_every_m = 0;         // way between two stops or bends that eat the speed; 0: none
};
/// Rider's power at a steady ground speed, W (may be negative downhill). Martin et al. 1998, sign form of
/// the air term so that a tail wind faster than the rider pushes.
double ride_power_w(const Ride& ride, double speed_m_s);

/// The same balance with the constants of one ride gathered, for many speeds: the power at the pedals is
/// v [air (v + wind) |v + wind| + stops v^2 + bearing v + force] / efficiency.
struct Resistance {
    double air = 0;     // N per (m/s)^2
    double wind = 0;    // m/s, against the rider
    double stops = 0;   // N per (m/s)^2: what it takes to come back to speed, spread over the way
    double bearing = 0; // N per m/s
    double force = 0;   // N: rolling, slope and the fixed part of the bearings
    double efficiency = 1;
    double power_w(double speed_m_s) const;
    /// Change of the power with speed, W per m/s.
    double slope_w_per_m_s(double speed_m_s) const;
};
Resistance resistance_of(const Ride& ride);

/// Steady ground speed, m/s, at a power >= 0 W, to 1e-9: Newton steps from `guess_m_s` > 0 inside a bracket.
/// 0 where no power is given and the road does not pull.
double speed_m_s(const Resistance& resistance, double power_w, double guess_m_s);
/// The same for a ride.
double ride_speed_m_s(const Ride& ride, double power_w);

} // namespace tuck::effort
