#include "base/air.hpp"

#include <cmath>

namespace tuck {

double saturation_vapour_pressure_kpa(double air_c) {
    return 0.6105 * std::exp(17.27 * air_c / (air_c + 237.3));
}

} // namespace tuck
