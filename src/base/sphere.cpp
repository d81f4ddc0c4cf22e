#include "base/sphere.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tuck {

namespace {

double radians(double degrees) {
    return degrees * std::numbers::pi / 180;
}

} // namespace

// The haversine keeps its digits for points a metre apart, where the plain cosine rule loses them.
double great_circle_m(double lat1_deg, double lon1_deg, double lat2_deg, double lon2_deg) {
    constexpr double radius_m = 6371008.8;
    const double up = std::sin(radians(lat2_deg - lat1_deg) / 2);
    const double across = std::sin(radians(lon2_deg - lon1_deg) / 2);
    const double h = up * up + std::cos(radians(lat1_deg)) * std::cos(radians(lat2_deg)) * across * across;
    return 2 * radius_m * std::asin(std::sqrt(std::min(1.0, h)));
}

double heading_deg(double lat1_deg, double lon1_deg, double lat2_deg, double lon2_deg) {
    const double lat1 = radians(lat1_deg), lat2 = radians(lat2_deg), apart = radians(lon2_deg - lon1_deg);
    const double east = std::sin(apart) * std::cos(lat2);
    const double north = std::cos(lat1) * std::sin(lat2) - std::sin(lat1) * std::cos(lat2) * std::cos(apart);
    const double degrees = std::atan2(east, north) * 180 / std::numbers::pi;
    return degrees < 0 ? degrees + 360 : degrees;
}

} // namespace tuck
