#include "body/exchange.hpp"

#include <cmath>

namespace tuck::body {
namespace {

double power_law(double factor, double mass_kg, double mass_power, double height_m, double height_power) {
    return factor * std::pow(mass_kg, mass_power) * std::pow(height_m, height_power);
}

} // namespace

double body_surface_takahira_m2(double mass_kg, double height_m) {
    return power_law(0.2042, mass_kg, 0.425, height_m, 0.725);
}

double body_surface_fujimoto_m2(double mass_kg, double height_m) {
    return power_law(0.1882, mass_kg, 0.444, height_m, 0.663);
}

double body_surface_kurazumi_m2(double mass_kg, double height_m) {
    return power_law(0.2440, mass_kg, 0.383, height_m, 0.693);
}

double convection_walking_still_air(double speed_m_s) {
    return 8.6 * std::pow(speed_m_s, 0.53);
}
double convection_treadmill(double speed_m_s) {
    return 6.5 * std::pow(speed_m_s, 0.39);
}
double convection_standing(double air_speed_m_s) {
    return air_speed_m_s < 0.15 ? 4.0 : 14.8 * std::pow(air_speed_m_s, 0.69);
}
double convection_manikin(double air_speed_m_s) {
    return 10.3 * std::pow(air_speed_m_s, 0.6);
}
double convection_iso(double air_speed_m_s) {
    return air_speed_m_s <= 1 ? 3.5 + 5.2 * air_speed_m_s : 8.7 * std::pow(air_speed_m_s, 0.6);
}

double work_sweat_shapiro(double required_w_per_m2, double capacity_w_per_m2) {
    return 27.9 * required_w_per_m2 * std::pow(capacity_w_per_m2, -0.455);
}

double work_sweat_corrected(double required_w_per_m2, double capacity_w_per_m2) {
    return 147 * std::exp(0.0012 * work_sweat_shapiro(required_w_per_m2, capacity_w_per_m2));
}

double work_sweat_line(double required_w_per_m2, double capacity_w_per_m2) {
    return 147 + 1.527 * required_w_per_m2 - 0.87 * capacity_w_per_m2;
}

double work_sweat_line_cool(double required_w_per_m2, double capacity_w_per_m2) {
    return 350 + 1.527 * required_w_per_m2 - 0.87 * capacity_w_per_m2;
}

double work_sweat_line_sun(double required_w_per_m2, double capacity_w_per_m2) {
    return 0.72 * work_sweat_line(required_w_per_m2, capacity_w_per_m2) + 135;
}

double respiratory_water_g_per_min(double vo2_l_per_min, double vapour_mmhg) {
    return 0.019 * vo2_l_per_min * (44 - vapour_mmhg);
}

} // namespace tuck::body
