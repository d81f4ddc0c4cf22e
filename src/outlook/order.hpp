// Exact order statistics of many numbers, fast enough for every mark of a race.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace tuck::outlook {

/// Picks values by rank. Exact, so its result cannot depend on how it was found.
class Picker {
public:
    /// The values that would stand at `ranks` (rising, each < n) if `values` were sorted. n > 0, no NaN.
    void pick(const float* values, std::size_t n, const std::vector<std::size_t>& ranks,
              std::vector<float>& out);

private:
    void count(std::size_t n);
    std::vector<std::uint16_t> bucket_;
    std::vector<std::uint32_t> counts_;
    std::vector<std::vector<float>> wanted_;
};

/// Rank of a percentile, 0..1, among n sorted values.
std::size_t rank_of(double p, std::size_t n);

} // namespace tuck::outlook
