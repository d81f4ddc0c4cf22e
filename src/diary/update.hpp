// Bayes for normal beliefs with normal errors, one observation at a time.
#pragma once

#include <array>
#include <cstddef>

namespace tuck::diary {

/// A normal belief about N unknowns: mean and covariance.
template <std::size_t N>
struct Belief {
    std::array<double, N> mean{};
    std::array<std::array<double, N>, N> covariance{};

    /// Learns from value = weights . unknowns + error, the error normal with mean 0 and this variance (> 0).
    void observe(const std::array<double, N>& weights, double value, double variance) {
        std::array<double, N> shared{}; // covariance of the unknowns with the observed sum
        double predicted = 0, spread = variance;
        for (std::size_t i = 0; i < N; ++i) {
            predicted += weights[i] * mean[i];
            for (std::size_t k = 0; k < N; ++k)
                shared[i] += covariance[i][k] * weights[k];
            spread += weights[i] * shared[i];
        }
        for (std::size_t i = 0; i < N; ++i) {
            mean[i] += shared[i] / spread * (value - predicted);
            for (std::size_t k = 0; k < N; ++k)
                covariance[i][k] -= shared[i] * shared[k] / spread;
        }
    }
};

} // namespace tuck::diary
