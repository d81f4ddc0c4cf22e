// The ceiling on drink: so low that what is not known of an athlete's sweat cannot add up to harm.
#pragma once

#include "tuck/figures.hpp"
#include "tuck/need.hpp"

#include <vector>

namespace tuck::need {

/// Most that is drunk in an hour, whatever was rehearsed (US Army: 1.5 quarts); from where it is a caution.
inline constexpr double most_fluid_ml_per_h = figure("drink.most_ml_per_h");
inline constexpr double much_fluid_ml_per_h = figure("drink.much_ml_per_h");

/// All drink of a day: at most the 5th percentile of its sweat and 1 % of body mass. Drunk whole, body water
/// then ends more than 1 % of body mass above the start for 5 athletes in 100. Urine is not counted: it is
/// the margin.
///
///     day_ml = careful_share * sweat_ml + 0.01 m,    careful_share = exp(-1.645 sd)
///
/// `sd` is what is known of the logarithm of this athlete's sweat (0.43 without a test), taken leg by leg,
/// with what the forecast and the pace of the day leave open. The limits are our choice, after the chance of
/// low blood sodium by change of mass (Noakes 2005).
struct DayFluid {
    double sweat_ml = 0;      // median, all legs
    double careful_share = 1; // of the sweat: what is reached on 95 days in 100
    double margin_ml = 0;     // 1 % of body mass
    double day_ml = 0;        // most drink of the day
    double of_sweat = 0;      // that, over the sweat of the legs that drink; at most 1
};
DayFluid day_fluid(double mass_kg, const Effort& effort, const Body& body);

struct FluidCeiling {
    double ml_per_h = 0; // 'up to'
    std::vector<Reason> because;
};
/// The share of one bike or run leg in it: by its sweat and never above its median sweat; at most 0.8 L/h
/// unless more was rehearsed, at most 1.42 L/h ever. Who has a health word against much drink, or weighs
/// under 45 kg in a race over four hours, stays below the 20th percentile of the leg's sweat as well.
FluidCeiling fluid_ceiling(const Athlete& athlete, const Effort& effort, const Body& body, const LegBody& leg,
                           const Limits& limits);

} // namespace tuck::need
