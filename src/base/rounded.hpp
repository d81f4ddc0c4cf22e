// Numbers as documents show them.
#pragma once

#include <cmath>

namespace tuck {

/// Never a negative zero.
inline double rounded(double value, int decimals) {
    const double scale = std::pow(10, decimals);
    return std::round(value * scale) / scale + 0.0;
}

inline double tenth(double value) {
    return std::round(value * 10) / 10 + 0.0;
}

} // namespace tuck
