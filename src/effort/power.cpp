#include "effort/power.hpp"

#include "base/air.hpp"
#include "effort/power_terms.hpp"

#include <cmath>
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

// Resistance rises with speed, so power, resistance times speed, is negative up to the coasting speed and
// rises beyond it: for a power of 0 or more there is one root, and plain bisection cannot take another.
double ride_speed_m_s(const Ride& ride, double power_w) {
    if (!(power_w >= 0)) {
        throw std::invalid_argument("ride speed: the power must be 0 W or more");
    }
    constexpr double close_enough_m_s = 1e-10;
    double low = 0.01;
    double high = 40;
    if (ride_power_w(ride, low) >= power_w) {
        return low;
    }
    while (high - low > close_enough_m_s) {
        const double middle = 0.5 * (low + high);
        (ride_power_w(ride, middle) < power_w ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

} // namespace tuck::effort
