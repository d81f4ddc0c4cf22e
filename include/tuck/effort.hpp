// Effort: how long, how fast and how hard each leg is, with its spread.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/course.hpp"
#include "tuck/event.hpp"
#include "tuck/quantity.hpp"
#include "tuck/reason.hpp"
#include "tuck/spread.hpp"

#include <string>
#include <vector>

namespace tuck {

struct LegEffort {
    int leg_index = 0;
    LegKind kind = LegKind::bike;
    double distance_m = 0;
    Spread time;
    Seconds starts_s = 0;   // after the start of the day, at the median
    double log_sd = 0;      // of the duration; ln(p90/p50) / 1.2816
    double speed_m_s = 0;   // at the median; 0 in transitions
    double power_w = 0;     // mechanical, bike only
    double intensity = 0.5; // fraction of VO2max
    // Along a course with a track; empty where the road is not known. Times at the median duration.
    std::vector<Section> sections; // about 1 km each, from start to end
    std::vector<Stretch> busy;     // hands stay on the bar: steep climbs, fast descents, sharp bends
    std::vector<Reason> because;
};

/// Kilometre of a leg at a time of its median duration, and the time at a kilometre: along its sections where
/// the road is known, else at the mean speed. Held at the ends.
double km_at(const LegEffort& leg, double at_s);
double time_at_s(const LegEffort& leg, double km);

struct Effort {
    std::vector<LegEffort> legs;
    Spread total;
    double total_log_sd = 0;
    std::vector<std::string> assumptions;
    std::vector<Warning> warnings;
};

/// Durations of all legs, by the most trusted input there is: a given time; recent results (power law, newer
/// and nearer ones count more); a threshold; a level in plain words anchored on open results. A sport of
/// which nothing is known follows the athlete's other sports gently. Legs are correlated 0.5. Warnings tell
/// where the water's temperature or an organiser's cut-off touches the plan. Pure; the event must have at
/// least one leg and every sport leg a distance, a time or a track.
Effort estimate_effort(const Athlete& athlete, const Event& event);

namespace effort {

/// Fraction of VO2max held over a race of this length, h (judgement, wide; Aoyagi 2021 for the standard).
double race_intensity(double total_h, Level level);

} // namespace effort

/// The road under a track, in equal steps of about 25 m: heights by straight lines between the points, median
/// of 5, moving mean over 100 m (bike) or 50 m (run).
Course course_of(const Track& track, Sport sport);

/// A ride over the course at an effort, W, > 0 (the fourth-power mean of its power), by the road-cycling
/// power balance (Martin 1998). The wind's direction may be absent: then it blows against on half of the way
/// and behind on the other.
CourseRide ride_course(const Course& course, const Athlete& athlete, const Weather& weather, double effort_w,
                       double section_m = 1000);
/// A run over the course at the effort of this pace on the level, s/km, > 0 (Minetti 2002, downhill capped).
CourseRide run_course(const Course& course, double level_s_per_km, double section_m = 1000);

} // namespace tuck
