#include "effort/power.hpp"

#include "base/air.hpp"

#include <cmath>
#include <stdexcept>

namespace tuck::effort {
namespace {

// Martin et al. 1998: drag area of turning wheels, and wheel bearings as force = a + b v.
constexpr double wheel_drag_m2 = 0.0044;
constexpr double bearing_n = 0.091;
constexpr double bearing_n_per_m_s = 0.0087;
constexpr double gravity_m_s2 = 9.80665;

constexpr double slowest_m_s = 0.01;
constexpr double fastest_m_s = 40;

double resistance_n(const Ride& ride, double speed_m_s) {
    const double air_speed = speed_m_s + ride.wind_m_s;
    const double slope_length = std::hypot(1.0, ride.grade);
    const double weight_n = ride.mass_kg * gravity_m_s2;
    return 0.5 * ride.air_density * (ride.cda_m2 + wheel_drag_m2) * air_speed * std::abs(air_speed) +
           weight_n * (ride.crr + ride.grade) / slope_length + bearing_n + bearing_n_per_m_s * speed_m_s;
}

// Where a function that rises from below to above zero crosses it, to 1e-9 m/s or better.
template <typename Function>
double rising_root(const Function& function, double low, double high) {
    if (function(low) >= 0) {
        return low;
    }
    if (function(high) <= 0) {
        return high;
    }
    while (high - low > 1e-10) {
        const double middle = 0.5 * (low + high);
        (function(middle) < 0 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

} // namespace

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
    return resistance_n(ride, speed_m_s) * speed_m_s / ride.drive_efficiency;
}

// The resistance rises with speed, so power rises with speed wherever resistance is positive: downhill or
// before the wind the search starts at the coasting speed, and exactly one root lies beyond it.
double ride_speed_m_s(const Ride& ride, double power_w) {
    if (!(power_w >= 0)) {
        throw std::invalid_argument("ride speed: power must be 0 W or more");
    }
    const double coasting =
        rising_root([&](double v) { return resistance_n(ride, v); }, slowest_m_s, fastest_m_s);
    return rising_root([&](double v) { return ride_power_w(ride, v) - power_w; }, coasting, fastest_m_s);
}

} // namespace tuck::effort
