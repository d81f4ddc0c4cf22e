// The athlete's place in the field of the open results, and a sport foretold from the others.
#pragma once

#include "effort/estimate.hpp"

namespace tuck::effort {

/// Correlation of log splits in the open results: swim-bike 0.52, swim-run 0.56, bike-run 0.61.
double split_correlation(Sport a, Sport b);

/// A place in the field: SDs of log time from the middle (below 0: faster), and how sure it is against the
/// whole field (1: nothing known).
struct Place {
    double z = 0;
    double spread = 1;
};
/// The place expected in a sport from the known places in the others: regression on correlated normals.
Place expected_place(Sport sport, const std::vector<std::pair<Sport, double>>& known);

/// Time over a distance for an athlete of whom this sport shows nothing: the stated level, else the place
/// that the other sports suggest, else the middle of the field. Runs alone, not off the bike.
Estimate from_field(const Situation& now, Sport sport, double distance_m);

} // namespace tuck::effort
