#include "base/air.hpp"

namespace tuck {

double wbgt_simple_c(double air_c, double humidity_pct) {
    const double vapour_hpa = 10 * saturation_vapour_pressure_kpa(air_c) * humidity_pct / 100;
    return 0.567 * air_c + 0.393 * vapour_hpa + 3.94;
}

} // namespace tuck
