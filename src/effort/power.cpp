#include "effort/power.hpp"

#include "base/air.hpp"
#include "effort/power_terms.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>

namespace tuck::effort {

double air_density_kg_per_m3(double air_c, double pressure_pa, double humidity_pct) {
    constexpr double dry_air = 287.05; // gas constants, J/(kg K)
    constexpr double vapour = 461.495;
    const double vapour_pa = saturation_vapour_pressure_kpa(air_c) * 1000 * humidity_pct / 100;
    const double kelvin = air_c + 273.15;
    return (pressure_pa - vapour_pa) / (dry_air * kelvin) + vapour_pa / (vapour * kelvin);
}

double pressure_at_altitude_pa(double altitude_m) {
    constexpr double sea_level_pa = 101325; // standard atmosphere, from memory
    return sea_level_pa * std::pow(1 - 0.0065 * altitude_m / 288.15, 5.25588);
}

double ride_power_w(const Ride& ride, double speed_m_s) {
    const double at_wheel_w = aerodynamic_power_w(ride.air_density, ride.cda_m2 + wheel_drag_area_m2,
                                                  speed_m_s + ride.wind_m_s, speed_m_s) +
                              rolling_power_w(ride.mass_kg, ride.crr, ride.grade, speed_m_s) +
                              bearing_power_w(speed_m_s) +
                              potential_power_w(ride.mass_kg, ride.grade, speed_m_s);
    return at_wheel_w / ride.drive_efficiency;
}

double Resistance::power_w(double v) const {
    const double met = v + wind;
    return v * (air * met * std::abs(met) + stops * v * v + bearing * v + force) / efficiency;
}

double Resistance::slope_w_per_m_s(double v) const {
    const double met = v + wind;
    return (air * std::abs(met) * (met + 2 * v) + 3 * stops * v * v + 2 * bearing * v + force) / efficiency;
}

Resistance resistance_of(const Ride& ride) {
    const double cosine = 1 / std::sqrt(1 + ride.grade * ride.grade);
    Resistance out;
    out.air = 0.5 * ride.air_density * (ride.cda_m2 + wheel_drag_area_m2);
    out.wind = ride.wind_m_s;
    out.stops = ride.stop_every_m > 0 ? 0.5 * ride.mass_kg / ride.stop_every_m : 0;
    out.bearing = bearing_n_per_m_s;
    out.force = bearing_n + ride.mass_kg * gravity_m_s2 * cosine * (ride.crr + ride.grade);
    out.efficiency = ride.drive_efficiency;
    return out;
}

// Resistance rises with speed, so power, resistance times speed, is negative up to the coasting speed and
// rises beyond it: for a power of 0 or more there is one root beyond 0. The bracket keeps Newton off the
// other one, and its halving answers where the curve is bent against it.
double speed_m_s(const Resistance& resistance, double power_w, double guess_m_s) {
    constexpr double close_enough = 1e-7; // a Newton step this small squares to less than 1e-13
    constexpr int patience = 12;
    if (power_w <= 0 && resistance.power_w(1e-9) >= 0)
        return 0;
    double low = 0, high = std::numeric_limits<double>::infinity(), v = guess_m_s;
    for (int i = 0;; ++i) {
        const double excess = resistance.power_w(v) - power_w;
        if (excess == 0)
            return v;
        (excess < 0 ? low : high) = v;
        double next = v - excess / resistance.slope_w_per_m_s(v);
        const bool inside = next > low && next < high;
        if (inside && std::abs(next - v) <= close_enough * v)
            return next;
        if (!inside || i > patience)
            next = std::isinf(high) ? 2 * v + 1 : 0.5 * (low + high);
        if (next <= low || next >= high)
            return v; // no number lies between
        v = next;
    }
}

double ride_speed_m_s(const Ride& ride, double power_w) {
    if (!(power_w >= 0))
        throw std::invalid_argument("ride speed: the power must be 0 W or more");
    constexpr double usual_m_s = 8;
    return speed_m_s(resistance_of(ride), power_w, usual_m_s);
}

} // namespace tuck::effort
