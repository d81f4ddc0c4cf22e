#include "effort/power_terms.hpp"

#include <cmath>
#include <numbers>

namespace tuck::effort {
namespace {

double radians(double degrees) {
    return degrees * std::numbers::pi / 180;
}

} // namespace

double aerodynamic_power_w(double air_density, double drag_area_m2, double air_speed_m_s, double speed_m_s) {
    return 0.5 * air_density * drag_area_m2 * air_speed_m_s * std::abs(air_speed_m_s) * speed_m_s;
}

double rolling_power_w(double mass_kg, double crr, double grade, double speed_m_s) {
    return speed_m_s * std::cos(std::atan(grade)) * crr * mass_kg * gravity_m_s2;
}

double bearing_power_w(double speed_m_s) {
    return speed_m_s * (bearing_n + bearing_n_per_m_s * speed_m_s);
}

double potential_power_w(double mass_kg, double grade, double speed_m_s) {
    return speed_m_s * mass_kg * gravity_m_s2 * std::sin(std::atan(grade));
}

double kinetic_power_w(double mass_kg, double wheel_inertia_kg_m2, double wheel_radius_m, double start_m_s,
                       double end_m_s, double seconds) {
    const double moving_kg = mass_kg + wheel_inertia_kg_m2 / (wheel_radius_m * wheel_radius_m);
    return 0.5 * moving_kg * (end_m_s * end_m_s - start_m_s * start_m_s) / seconds;
}

double air_speed_along_m_s(double speed_m_s, double wind_m_s, double wind_from_deg, double travel_deg) {
    return speed_m_s + wind_m_s * std::cos(radians(wind_from_deg - travel_deg));
}

double yaw_deg(double speed_m_s, double wind_m_s, double wind_from_deg, double travel_deg) {
    const double across = wind_m_s * std::sin(radians(wind_from_deg - travel_deg));
    const double along = air_speed_along_m_s(speed_m_s, wind_m_s, wind_from_deg, travel_deg);
    return std::abs(std::atan2(across, along)) * 180 / std::numbers::pi;
}

double saturation_vapour_pressure_cipm_pa(double air_c) {
    const double kelvin = air_c + 273.15;
    return std::exp(1.2378847e-5 * kelvin * kelvin - 1.9121316e-2 * kelvin + 33.93711047 -
                    6.3431645e3 / kelvin);
}

double air_density_cipm_kg_per_m3(double air_c, double pressure_pa, double humidity_pct) {
    constexpr double gas_constant = 8.314472;
    constexpr double dry_kg_per_mol = 28.96546e-3;
    constexpr double water_kg_per_mol = 18.01528e-3;
    const double kelvin = air_c + 273.15;
    const double enhancement = 1.00062 + 3.14e-8 * pressure_pa + 5.6e-7 * air_c * air_c;
    const double vapour =
        humidity_pct / 100 * enhancement * saturation_vapour_pressure_cipm_pa(air_c) / pressure_pa;
    const double p_over_t = pressure_pa / kelvin;
    const double first = 1.58123e-6 - 2.9331e-8 * air_c + 1.1043e-10 * air_c * air_c +
                         (5.707e-6 - 2.051e-8 * air_c) * vapour +
                         (1.9898e-4 - 2.376e-6 * air_c) * vapour * vapour;
    const double compressibility =
        1 - p_over_t * first + p_over_t * p_over_t * (1.83e-11 - 0.765e-8 * vapour * vapour);
    return pressure_pa * dry_kg_per_mol / (compressibility * gas_constant * kelvin) *
           (1 - vapour * (1 - water_kg_per_mol / dry_kg_per_mol));
}

} // namespace tuck::effort
