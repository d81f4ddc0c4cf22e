// A simulated day as one would write it plainly: one day after the other, double, libm, no vectors. The judge
// and the yardstick of src/outlook/day_lanes.inc; it shares the inputs and the draws, and no arithmetic.
#pragma once

#include "outlook/race_grid.hpp"

#include <cstdint>
#include <vector>

namespace tuck::reference {

struct Day {
    double water_ml = 0, urine_ml = 0, mass_g = 0, sodium_mg = 0, sweat_ml = 0, drunk_ml = 0;
    double muscle_g = 0, liver_g = 0, absorbed_g = 0;
    double missed_feeds = 0, late_feeds = 0, missed_stations = 0;
    double fullest_ml = -1e6; // above comfort
    double stomach_ml = 0, gut_ml = 0;
    double lapsed_min = 0, serum_sodium = 0, comfort_ml = 0;
};

/// Deviations of a day from the expected one, for running a day whose grid already holds them.
struct Known {
    bool weather = false, pace = false;
};

Day simulate_day(const outlook::RaceGrid& grid, std::uint32_t day, Known known = {});

/// What the weather and the legs of a day are: C, % beyond the vapour's share, and ln(time over median time)
/// by leg.
struct Drawn {
    double air_c = 0, humidity_pct = 0;
    std::vector<double> log_time;
};
Drawn drawn_for(const outlook::RaceGrid& grid, std::uint32_t day);

} // namespace tuck::reference
