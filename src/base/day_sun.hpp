// The sun of the race day: what is given, what place and clock say, and what is assumed.
#pragma once

#include "tuck/event.hpp"

namespace tuck {

inline constexpr double usual_sun_share = 0.5;     // of a clear sky: between none and all of it
inline constexpr double hazy_sun_share = 0.25;     // what a full cover leaves (Kasten & Czeplak 1980)
inline constexpr double usual_sun_height_deg = 45; // where place, date or start are not known, our choice
inline constexpr double sun_highest_at_h = 13;     // local summer time, where the clock's offset is not known
/// One SD of the share where it is not given: even between none and a clear sky.
inline constexpr double usual_sun_share_sd = 0.2886751345948129;

struct Sun {
    double w_m2 = 0;        // global radiation on level ground
    double height_deg = 45; // over the horizon
};

/// Nothing was said about sun or cloud.
bool sun_assumed(const Weather& weather);
/// Share of a clear sky's sun, 0..1: given, or through the cloud, or half.
double sun_share(const Weather& weather);
/// Place, date and start are known.
bool sun_has_clock(const Event& event);
/// The sun moves along the day: it has its clock, and it shines.
bool sun_moves(const Event& event);

/// The sun at an hour of the local clock. Without place and clock it stands 45 degrees high, or as high as a
/// clear sky needs for the radiation given. `measured_w_m2`, that hour's own, outranks the day's.
Sun sun_at(const Event& event, double clock_hour, std::optional<double> measured_w_m2 = std::nullopt);

} // namespace tuck
