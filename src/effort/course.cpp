#include "effort/course.hpp"

#include <algorithm>
#include <utility>

namespace tuck::effort {

namespace {

constexpr double usual_slope = 0.05;
constexpr double fastest_descent_m_s = 15;

double section_time_s(const Ride& ride, double power_w, double length_m) {
    if (length_m <= 0)
        return 0;
    double speed = ride_speed_m_s(ride, power_w);
    if (ride.grade < 0)
        speed = std::min(speed, fastest_descent_m_s);
    return length_m / speed;
}

} // namespace

double course_time_s(const Course& course, Ride ride, double power_w) {
    const double slope = std::max(usual_slope, 2 * course.ascent_m / std::max(course.distance_m, 1.0));
    const double climb_m = course.ascent_m / slope;
    const double flat_m = course.distance_m - 2 * climb_m;
    double time_s = 0;
    for (const double wind : {course.wind_m_s, -course.wind_m_s}) {
        ride.wind_m_s = wind;
        for (const auto& [grade, length] : {std::pair{0.0, flat_m}, {slope, climb_m}, {-slope, climb_m}}) {
            ride.grade = grade;
            time_s += section_time_s(ride, power_w, length / 2);
        }
    }
    return time_s;
}

double course_power_w(const Course& course, const Ride& ride, double time_s) {
    double low = 0, high = 2000;
    while (high - low > 0.01) {
        const double middle = (low + high) / 2;
        (course_time_s(course, ride, middle) > time_s ? low : high) = middle;
    }
    return low < 0.01 ? 0 : (low + high) / 2;
}

} // namespace tuck::effort
