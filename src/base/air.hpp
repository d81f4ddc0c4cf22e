// Water vapour in air; the lowest floor, because both the road and the body need it.
#pragma once

namespace tuck {

/// Saturation vapour pressure over water, kPa: 0.6105 exp(17.27 T / (T + 237.3)), T > -237.3 C.
/// ISO 7933:2004.
double saturation_vapour_pressure_kpa(double air_c);

} // namespace tuck
