// An athlete file into the struct.
#pragma once

#include "io/json_reader.hpp"
#include "tuck/athlete.hpp"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tuck::io {

/// Expected leg times of one athlete for one race, s.
using LegTimes = std::map<LegKind, double>;

/// Reads the athlete at `node` and collects the faults there. The expected times go to `times`.
Athlete athlete_from(Node& node, LegTimes& times);

/// Reads an athlete file. Throws InputError with every fault of it.
Athlete read_athlete(const std::string& path);

inline constexpr double longest_event_s = 48 * 3600;
inline constexpr double longest_transition_s = 2 * 3600;

/// A time such as "52:30" under `key`, from 1 s up; faults are collected in `node`.
std::optional<double> time_in(Node& node, const std::string& key, double longest_s = longest_event_s);

inline constexpr std::size_t most_results = 20;
inline constexpr double shortest_result_m = 50;
/// The results of one sport alone in the list under `key`; faults are collected in `node`.
std::vector<RecentResult> results_in(Node& node, const std::string& key);

/// A day such as "2027-06-13" under `key`; faults are collected in `node`.
std::optional<std::string> day_in(Node& node, const std::string& key);

/// "swim", "bike" and "run", for Node::choice.
const std::vector<std::pair<std::string, Sport>>& sport_words();
/// The sport of a leg that is no transition.
Sport sport_of(LegKind leg);

inline constexpr std::size_t most_legs = 30;
inline constexpr double shortest_leg_m = 10;
/// Longest believable leg, m.
double longest_leg_m(Sport sport);
/// Empty, or why nobody covers this distance in this time. Catches "1:05" written for an hour and five
/// minutes.
std::string unbelievable(Sport sport, double distance_m, double time_s);

/// "about" and "schema", which both kinds of file may carry.
void read_heading(Node& node, const std::string& schema);

} // namespace tuck::io
