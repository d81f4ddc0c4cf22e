// The published guidance on carbohydrate by duration, and the rates of common practice, as data.
#pragma once

#include "tuck/figures.hpp"
#include "tuck/spread.hpp"

#include <vector>

namespace tuck::need {

/// Carbohydrate for events that last [from_min, to_min).
struct GuidanceBand {
    double from_min, to_min;
    double carb_g_per_h; // 'up to'
    bool two_sugars;     // needs glucose and fructose
    const char* text;
    const char* source;
    const char* disagreement; // where sources differ; may be empty
};
const std::vector<GuidanceBand>& guidance();
const GuidanceBand& guidance_for(double minutes);

/// Borders that other parts of the plan speak of, in minutes.
inline constexpr double rinse_from_min = figure("food.rinse_from_min");
inline constexpr double fuel_from_min = figure("food.fuel_from_min");
inline constexpr double two_sugars_from_min = figure("food.two_sugars_from_min");

/// Advice that changes at this duration would be other advice on a fast day than on a slow one.
inline bool turns_at(const Spread& time, double border_s) {
    return time.p10_s < border_s && time.p90_s >= border_s;
}

/// Most carbohydrate per hour before it has been rehearsed, by duration (common practice, no source).
double unrehearsed_carb_g_per_h(double minutes);

} // namespace tuck::need
