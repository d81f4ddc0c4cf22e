// Why the body stage says what it says, and the heat balance as rows.
#pragma once

#include "body/race_drive.hpp"

namespace tuck::body {

/// Whether the leg's sweat is held to the most that was seen (most_sweat_w_per_m2). `area_m2` is the body's.
bool beyond_sweat_model(const LegBody& leg, double area_m2);

/// What of a leg on land lies outside of what the sweat model was made from and held against: "bike: 250 W
/// used (300 to 1600)"; empty where nothing does.
std::string out_of_range(const LegBody& leg, double air_speed_m_s);

std::vector<Reason> sweat_reasons(const LegEffort& effort, const LegBody& leg, const Event& event,
                                  const SweatFactor& own, double area_m2);

/// Where the heat goes, a row each, at minute 10, 60 and 180 of the leg and on average. The rows of the leg
/// are [first, last) of `minutes`.
std::vector<Reason> heat_rows(const LegEffort& effort, const LegBody& leg, const LegDrive& drive,
                              const BodyMinutes& minutes, std::size_t first, std::size_t last);

} // namespace tuck::body
