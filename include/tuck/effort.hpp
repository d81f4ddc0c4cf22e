// Effort: how long, how fast and how hard each leg is, with its spread.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/event.hpp"
#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck {

struct LegEffort {
    int leg_index = 0;
    LegKind kind = LegKind::bike;
    double distance_m = 0;
    Spread time;
    double log_sd = 0;      // of the duration; ln(p90/p50) / 1.2816
    double speed_m_s = 0;   // at the median; 0 in transitions
    double power_w = 0;     // mechanical, bike only
    double intensity = 0.5; // fraction of VO2max
    std::vector<Reason> because;
};

struct Effort {
    std::vector<LegEffort> legs;
    Spread total;
    double total_log_sd = 0;
    std::vector<std::string> assumptions;
    std::vector<Warning> warnings;
};

/// Durations of all legs, by the most trusted input there is: a given time; a recent result (Riegel 1981); a
/// threshold; a level in plain words anchored on open results. Legs are correlated 0.5.
/// Pure; the event must have at least one leg and every sport leg a distance or a time.
Effort estimate_effort(const Athlete& athlete, const Event& event);

} // namespace tuck
