// The air and the sun of the day: one day's values, or a list of hours read by the clock. The road and the
// body breathe the same.
#pragma once

#include "tuck/event.hpp"

#include <vector>

namespace tuck {

struct Air {
    double temperature_c = 0, humidity_pct = 0, wind_m_s = 0;
    double sun_w_m2 = 0, sun_height_deg = 45;
};

/// The day along the clock, rising hours; one point where nothing changes. What is not given is as in
/// base/conditions.hpp and base/day_sun.hpp. Humidity not given at an hour: the day's vapour pressure is
/// kept, at most saturation. A sun that moves has a point every ten minutes from the start on.
struct AirPoint {
    double hour = 0;
    Air air;
};
std::vector<AirPoint> air_points(const Event& event);

/// Straight between points, level beyond the first and the last. `points` must not be empty.
Air air_at(const std::vector<AirPoint>& points, double hour);

/// Mean over a span of hours, `from_hour` <= `to_hour`.
Air mean_air(const std::vector<AirPoint>& points, double from_hour, double to_hour);

/// WBGT of this air and sun, C, the wind taken at the height of the body, at least 1 m/s (Liljegren et al.
/// 2008).
double wbgt_c(const Air& air);

/// Where one temperature is given it is the whole race's: no daily curve is invented. Hours need a start.
bool follows_hours(const Event& event);
/// Local clock of the start in hours, wave included; 0 where it is not known.
double start_hour(const Event& event);

} // namespace tuck
