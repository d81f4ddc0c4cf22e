#include "base/sun.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numbers>

namespace tuck {

namespace {

constexpr double per_degree = std::numbers::pi / 180;

double sine(double degrees) {
    return std::sin(degrees * per_degree);
}
double cosine(double degrees) {
    return std::cos(degrees * per_degree);
}

} // namespace

double days_since_2000(int year, int month, int day, double hour_utc) {
    using namespace std::chrono;
    const sys_days at = std::chrono::year(year) / std::chrono::month(static_cast<unsigned>(month)) /
                        std::chrono::day(static_cast<unsigned>(day));
    constexpr sys_days epoch = std::chrono::year(2000) / January / 1;
    return static_cast<double>((at - epoch).count()) + (hour_utc - 12) / 24;
}

double sun_altitude_deg(double days, double latitude_deg, double longitude_deg) {
    const double mean_longitude = 280.460 + 0.9856474 * days;
    const double anomaly = 357.528 + 0.9856003 * days;
    const double ecliptic = mean_longitude + 1.915 * sine(anomaly) + 0.020 * sine(2 * anomaly);
    const double tilt = 23.439 - 0.0000004 * days;
    const double right_ascension = std::atan2(cosine(tilt) * sine(ecliptic), cosine(ecliptic)) / per_degree;
    const double sine_declination = sine(tilt) * sine(ecliptic);
    const double hour_utc = std::fmod(std::fmod(days + 0.5, 1) + 1, 1) * 24;
    const double sidereal_h = 6.697375 + 0.0657098242 * days + hour_utc;
    const double hour_angle = 15 * sidereal_h + longitude_deg - right_ascension;
    const double sine_altitude =
        sine_declination * sine(latitude_deg) +
        std::sqrt(1 - sine_declination * sine_declination) * cosine(latitude_deg) * cosine(hour_angle);
    return std::asin(std::clamp(sine_altitude, -1.0, 1.0)) / per_degree;
}

double clear_sky_w_m2(double altitude_deg) {
    const double height = sine(altitude_deg);
    return height > 0 ? 1098 * height * std::exp(-0.059 / height) : 0;
}

double share_through_cloud(double cloud_pct) {
    return 1 - 0.75 * std::pow(cloud_pct / 100, 3.4);
}

} // namespace tuck
