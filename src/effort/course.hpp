// From the points of a track to a road: equal steps, smoothed heights, climbing.
#pragma once

#include "tuck/course.hpp"

#include <vector>

namespace tuck::effort {

inline constexpr double step_m = 25;
inline constexpr double counted_rise_m = 3;    // barometer or terrain model; plain satellite heights need 10
inline constexpr double steepest_grade = 0.25; // steeper is taken for a fault of the heights
inline constexpr double most_unknown_heights = 0.5; // of the points; beyond it the course is taken as flat

/// Median over `reach` neighbours on each side, fewer near the ends, so that the ends stay.
std::vector<double> running_median(const std::vector<double>& values, int reach);
/// Mean over `reach` neighbours on each side, fewer near the ends.
std::vector<double> running_mean(const std::vector<double>& values, int reach);

/// Climbing and descending between turning points at least `counted_m` apart; up - down is last - first.
Climb climb_of(const std::vector<double>& heights_m, double counted_m);

} // namespace tuck::effort
