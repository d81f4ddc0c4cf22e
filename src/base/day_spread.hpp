// How far the day may be from what was expected of it.
#pragma once

namespace tuck {

/// One SD of the air on the day from a forecast some days ahead (size from memory).
inline constexpr double forecast_error_c = 2.5;

} // namespace tuck
