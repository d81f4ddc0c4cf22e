#include "body/warming.hpp"

#include <cmath>

namespace tuck::body {

double Warming::step_w(double target_c, double mass_kg, double seconds) {
    constexpr double minute_s = 60;
    static const double left_after_minute = std::exp(-minute_s / warming_s);
    const double left = seconds == minute_s ? left_after_minute : std::exp(-seconds / warming_s);
    const double rise_k = (target_c - core_c) * (1 - left);
    core_c += rise_k;
    return seconds > 0 ? heat_of_tissue_j_per_kg_k * mass_kg * rise_k / seconds : 0;
}

} // namespace tuck::body
