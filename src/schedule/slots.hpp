// Slots of one leg: when it can feed, on three days.
#pragma once

#include "schedule/frames.hpp"

namespace tuck::schedule {

/// Start of a leg on the three days, and its length.
DayTimes start_of(const Effort& effort, size_t leg);
DayTimes length_of(const Effort& effort, size_t leg);

/// Which foods of the leg can be taken at a moment: `solid` foods only where chewing is fine.
struct FoodBits {
    std::uint32_t soft = 0, solid = 0;
};

/// A rhythm on the clock of the bike, moved before or after busy stretches, with its extra slots of the slow
/// day.
Grid clock_grid(const Setting& setting, size_t leg, double every_s, const FoodBits& foods);
/// A rhythm by kilometres on the run: where it would be on the likely day.
Grid paced_grid(const Setting& setting, size_t leg, double every_s, const FoodBits& foods);
/// Aid stations of a run; `served[i]`: foods that station i hands out.
Grid station_grid(const Setting& setting, size_t leg, const std::vector<Station>& stations,
                  const FoodBits& foods, const std::vector<FoodBits>& served);
/// A moment of a leg on the three days: by the bike's clock, by the kilometre of the run.
DayTimes clock_of(const Setting& setting, size_t leg, double at_s);
/// What speaks against taking something there, in words; empty: nothing.
std::string why_not_at(const Setting& setting, size_t leg, double at_s, bool solid);
/// The middle of a transition.
Grid transition_grid(const Setting& setting, size_t leg, std::uint32_t foods);

} // namespace tuck::schedule
