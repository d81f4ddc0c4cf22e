#include "outlook/order.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::outlook {

namespace {

constexpr std::size_t buckets = 1024;
constexpr std::uint8_t not_wanted = 255;

struct Extremes {
    float low, high;
};

/// In eight strands, so that one comparison need not wait for the one before.
Extremes extremes(const float* values, std::size_t n) {
    constexpr std::size_t strands = 8;
    float low[strands], high[strands];
    std::fill(low, low + strands, values[0]);
    std::fill(high, high + strands, values[0]);
    std::size_t i = 0;
    for (; i + strands <= n; i += strands)
        for (std::size_t k = 0; k < strands; ++k) {
            low[k] = values[i + k] < low[k] ? values[i + k] : low[k];
            high[k] = values[i + k] > high[k] ? values[i + k] : high[k];
        }
    for (; i < n; ++i) {
        low[0] = std::min(low[0], values[i]);
        high[0] = std::max(high[0], values[i]);
    }
    return {*std::min_element(low, low + strands), *std::max_element(high, high + strands)};
}

} // namespace

std::size_t rank_of(double p, std::size_t n) {
    return static_cast<std::size_t>(std::clamp(p, 0.0, 1.0) * static_cast<double>(n - 1));
}

/// Four tables side by side: neighbours often fall into the same bucket, and a count waits for the last.
void Picker::count(std::size_t n) {
    counts_.assign(4 * buckets, 0);
    std::size_t i = 0;
    for (; i + 4 <= n; i += 4)
        for (std::size_t k = 0; k < 4; ++k)
            ++counts_[k * buckets + bucket_[i + k]];
    for (; i < n; ++i)
        ++counts_[bucket_[i]];
    for (std::size_t k = 0; k < buckets; ++k)
        counts_[k] += counts_[buckets + k] + counts_[2 * buckets + k] + counts_[3 * buckets + k];
}

void Picker::pick(const float* values, std::size_t n, const std::vector<std::size_t>& ranks,
                  std::vector<float>& out) {
    // Equal steps between the extremes, then a search inside the few buckets that hold a rank.
    const auto [low, high] = extremes(values, n);
    const float from = low, scale = high > low ? (buckets - 1) / (high - low) : 0.0f;
    bucket_.resize(n);
    for (std::size_t i = 0; i < n; ++i) // apart from the counting, so that it runs in vectors
        bucket_[i] = static_cast<std::uint16_t>(static_cast<int>((values[i] - from) * scale));
    count(n);
    std::uint8_t slot_of[buckets];
    std::fill(slot_of, slot_of + buckets, not_wanted);
    std::vector<std::size_t> slot(ranks.size()), inside(ranks.size());
    wanted_.resize(std::max(wanted_.size(), ranks.size()));
    std::size_t b = 0, before = 0, slots = 0;
    for (std::size_t k = 0; k < ranks.size(); ++k) {
        while (before + counts_[b] <= ranks[k])
            before += counts_[b++];
        if (slot_of[b] == not_wanted) {
            wanted_[slots].clear();
            slot_of[b] = static_cast<std::uint8_t>(slots++);
        }
        slot[k] = slot_of[b];
        inside[k] = ranks[k] - before;
    }
    for (std::size_t i = 0; i < n; ++i)
        if (const auto to = slot_of[bucket_[i]]; to != not_wanted)
            wanted_[to].push_back(values[i]);
    out.resize(ranks.size());
    for (std::size_t k = 0; k < ranks.size(); ++k) {
        auto& few = wanted_[slot[k]];
        const auto at = few.begin() + static_cast<std::ptrdiff_t>(inside[k]);
        std::nth_element(few.begin(), at, few.end());
        out[k] = *at;
    }
}

} // namespace tuck::outlook
