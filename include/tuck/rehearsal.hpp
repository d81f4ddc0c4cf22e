// A rehearsal: a session that practises the race, at its rates or at the next step towards them.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/diary.hpp"
#include "tuck/event.hpp"
#include "tuck/plan.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck {

/// What is asked for. Times in minutes; absent weather is the race's.
struct RehearsalAsk {
    double ride_min = 150, run_min = 20; // at least one above 0
    std::optional<double> temperature_c, humidity_pct;
    std::optional<std::string> date;
    std::optional<int> start_min; // minutes after midnight; absent: the race's start
};

/// The session as the composer takes it, and why it takes these rates.
struct Rehearsal {
    Event event;
    Athlete athlete;
    double race_carb_g_per_h = 0;    // on the bike (the run without one), once it is rehearsed
    double session_carb_g_per_h = 0; // of this session
    bool as_the_race = false;        // the race's own rate is reached
    bool refused = false;            // a doctor first: see the warnings
    std::vector<Reason> because;
    std::vector<std::string> before, during, after; // what to do, in order
    std::vector<Warning> warnings;
};

/// Hours of the day from which a session goes without caffeine (common practice, no source).
inline constexpr int late_from_min = 15 * 60;

/// Pure. `learned` is what the diary has taught about this athlete; an empty diary gives the first step.
Rehearsal plan_rehearsal(const Athlete& athlete, const Event& race, const Learned& learned,
                         const RehearsalAsk& ask);

/// One rehearsal of a series.
struct RehearsalDay {
    std::string date; // ISO 8601
    double carb_g_per_h = 0;
    bool as_the_race = false; // the last one: clothes, food and hour of race day
    std::string text;
};
struct RehearsalSeries {
    std::vector<RehearsalDay> days; // oldest first; empty when the race is too near
    double reached_g_per_h = 0;
    std::vector<std::string> notes;
};

/// A week apart, the last one 11 days before the race, so that no new step falls into the last 10 days; the
/// rate rises by the step rule, if each session goes well. `race_date` ISO 8601; weeks 2 to 26.
RehearsalSeries rehearsal_series(const Rehearsal& first, const Learned& learned, int weeks,
                                 const std::string& race_date);

} // namespace tuck
