// Days simulated for tests of the outlook, and what lies in the middle of them.
#pragma once

#include "outlook/engine.hpp"
#include "outlook/order.hpp"

#include <algorithm>
#include <vector>

namespace tuck::example {

inline outlook::DayColumns simulated(const outlook::RaceGrid& grid, std::size_t n) {
    outlook::DayColumns days(n);
    outlook::simulate(grid, days, outlook::best_target());
    return days;
}

inline double middle(const outlook::DayColumns& days, outlook::Column column, double p = 0.5) {
    std::vector<float> sorted(days[column], days[column] + days.days());
    std::sort(sorted.begin(), sorted.end());
    return static_cast<double>(sorted[outlook::rank_of(p, sorted.size())]);
}

} // namespace tuck::example
