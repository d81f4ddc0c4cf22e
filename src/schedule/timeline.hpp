// Doses on the clock of the whole race, and the rules that look at windows of it.
#pragma once

#include "tuck/need.hpp"

#include <vector>

namespace tuck::schedule {

/// What one feed brings, at `at_s` from the start of the race.
struct Dose {
    double at_s = 0;
    double carb_g = 0, glucose_g = 0, fructose_g = 0;
    double fluid_ml = 0, sodium_mg = 0, caffeine_mg = 0;
    double gel_water_ml = 0; // water that an item of this feed needs within 15 minutes
};

/// Hard rules, in the order in which they are tried; `none` is the last.
enum class Rule { carb, glucose, fructose, fluid_hour, fluid_sweat, gel_water, caffeine, supply, none };

/// Fluid ceilings and predicted sweat as running totals over the race.
class FluidCurves {
public:
    /// `day`: 0 the fast one (10th percentile of every leg), 1 the likely one, 2 the slow one (90th).
    FluidCurves(const Effort& effort, const Need& need, std::size_t day = 1);
    FluidCurves() = default;
    /// Fluid allowed by the ceilings in [from_s, from_s + 1 h); after the finish the last leg goes on.
    double ceiling_ml(double from_s) const;
    /// Median sweat from the start to `at_s`, ml.
    double sweat_ml(double at_s) const;
    /// No ceiling and no sweat to stay below: to see what they cost.
    void lift();

private:
    struct Stretch {
        double start_s, end_s, ceiling_ml_per_h, sweat_ml_per_h;
    };
    std::vector<Stretch> legs_;
};

} // namespace tuck::schedule
