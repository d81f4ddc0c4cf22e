#include "effort/scaling.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace tuck::effort {

double riegel_time_s(double time_s, double distance, double new_distance, double exponent) {
    return time_s * std::pow(new_distance / distance, exponent);
}

double critical_speed_m_s(double d1_m, double t1_s, double d2_m, double t2_s) {
    if (t1_s == t2_s) {
        throw std::invalid_argument("critical speed: the two trials must differ in time");
    }
    return (d2_m - d1_m) / (t2_s - t1_s);
}

double critical_distance_m(double d1_m, double t1_s, double d2_m, double t2_s) {
    return d1_m - critical_speed_m_s(d1_m, t1_s, d2_m, t2_s) * t1_s;
}

double heat_factor(double wbgt_c, double k) {
    constexpr double unhurt_c = 15;
    return 1 + k * std::max(0.0, wbgt_c - unhurt_c);
}

double aerobic_share_at_altitude(double altitude_m) {
    return 1 - 0.063 * std::max(0.0, altitude_m - 300) / 1000;
}

} // namespace tuck::effort
