// An athlete file into the struct.
#pragma once

#include "io/json_reader.hpp"
#include "tuck/athlete.hpp"

#include <map>
#include <string>

namespace tuck::io {

/// Expected leg times of one athlete for one race, s.
using LegTimes = std::map<LegKind, double>;

/// Reads the athlete at `node` and collects the faults there. Times go to `times`.
Athlete athlete_from(Node& node, LegTimes& times);

/// Reads an athlete file. Throws InputError with every fault of it.
Athlete read_athlete(const std::string& path);

/// A time such as "52:30" under `key`, 1 s to 48 h; faults are collected in `node`.
std::optional<double> time_at(Node& node, const std::string& key);

/// Slowest and fastest believable mean speed, m/s. Catches "1:05" written for an hour and five minutes.
struct SpeedBounds {
    double low, high;
};
SpeedBounds believable_speed(Sport sport);
/// Longest believable leg, m.
double longest_leg_m(Sport sport);

} // namespace tuck::io
