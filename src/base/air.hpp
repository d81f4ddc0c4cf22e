// Water vapour in air; the lowest floor, because both the road and the body need it.
#pragma once

#include <cmath>

namespace tuck {

/// Saturation vapour pressure over water, kPa: 0.6105 exp(17.27 T / (T + 237.3)), T > -237.3 C.
/// ISO 7933:2004.
inline double saturation_vapour_pressure_kpa(double air_c) {
    return 0.6105 * std::exp(17.27 * air_c / (air_c + 237.3));
}

/// WBGT without measured sun or wind, C: 0.567 Ta + 0.393 e + 3.94, e in hPa (Australian Bureau of
/// Meteorology form, as quoted in a secondary source): moderate sun and light wind are built in.
double wbgt_simple_c(double air_c, double humidity_pct);

} // namespace tuck
