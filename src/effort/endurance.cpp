#include "effort/endurance.hpp"

#include <cmath>

namespace tuck::effort {

double riegel_distance(double time_s, double distance, double new_time_s, double exponent) {
    return distance * std::pow(new_time_s / time_s, 1 / exponent);
}

double hyperbolic_time_s(double distance_m, double critical_speed_m_s, double critical_distance_m) {
    return (distance_m - critical_distance_m) / critical_speed_m_s;
}

double log_endurance_pct(double minutes, double endurance_pct, double map_minutes) {
    return 100 + endurance_pct * std::log(minutes / map_minutes);
}

} // namespace tuck::effort
