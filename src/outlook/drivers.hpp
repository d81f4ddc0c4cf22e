// Which inputs drive the spread of the days.
#pragma once

#include "outlook/day_columns.hpp"
#include "tuck/outlook.hpp"

#include <vector>

namespace tuck::outlook {

/// First-order variance shares, Var(E[result | input]) / Var(result) (Sobol 1993), of body mass, serum sodium
/// and glycogen at the finish: days are put into 24 equal steps of the input and the variance of their means
/// is corrected for what chance alone would give (the correlation ratio; also sees bent relations). Inputs
/// that share a cause (air and humidity, water and sodium at the start) share what they explain, so the sum
/// may pass 1. Largest mean of the three first; none below 0.
std::vector<OutlookDriver> drivers(const DayColumns& days);

} // namespace tuck::outlook
