#include "paper/legibility.hpp"

#include <cmath>
#include <numbers>

namespace tuck::faces {
namespace {

constexpr double rad_per_deg = std::numbers::pi / 180;
constexpr double rad_per_arcmin = rad_per_deg / 60;

} // namespace

double cap_mm_for(double arcmin, double distance_mm, double tilt_deg) {
    return 2 * distance_mm * std::tan(arcmin * rad_per_arcmin / 2) / std::cos(tilt_deg * rad_per_deg);
}

double arcmin_of(double cap_mm, double distance_mm, double tilt_deg) {
    return 2 * std::atan(cap_mm * std::cos(tilt_deg * rad_per_deg) / (2 * distance_mm)) / rad_per_arcmin;
}

} // namespace tuck::faces
