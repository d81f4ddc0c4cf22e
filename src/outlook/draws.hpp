// Random numbers that are a pure function of seed, day and variable.
#pragma once

#include <cstdint>

namespace tuck::outlook {

/// Uniform in (0, 1); the same for the same three numbers, in any order of asking.
double uniform(std::uint64_t seed, std::uint64_t day, std::uint64_t variable);
/// Standard normal by inversion (Wichura 1988, AS 241: relative error about 1e-16).
double normal(std::uint64_t seed, std::uint64_t day, std::uint64_t variable);
double normal_quantile(double probability);

} // namespace tuck::outlook
