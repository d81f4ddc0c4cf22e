// A rehearsal: a session that practises the race, at its rates or at the next step towards them.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/diary.hpp"
#include "tuck/event.hpp"
#include "tuck/plan.hpp"
#include "tuck/quantity.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck {

/// What is asked for. Times in minutes; absent lengths follow from the race, absent weather is the race's.
struct RehearsalAsk {
    std::optional<double> ride_min, run_min; // 0: none; not both
    std::optional<double> temperature_c, humidity_pct;
    std::optional<std::string> date;
    std::optional<int> start_min;       // minutes after midnight
    std::optional<double> carb_g_per_h; // of this session; absent: what the diary asks for
    bool as_race_day = false;           // the last one: the race's breakfast and clock
};

/// What one part of the session is asked to hold, and what its plan gives.
struct RehearsedPart {
    LegKind leg = LegKind::bike;
    double minutes = 0;
    double asked_carb_g_per_h = 0;
    Grams planned_carb_g = 0;
    Millilitres planned_fluid_ml = 0;
    double race_carb_g_per_h = 0; // what the race's plan gives there

    double carb_g_per_h() const { return minutes > 0 ? planned_carb_g.count() * 60 / minutes : 0; }
};

/// The session as the composer takes it, and why it takes these rates.
struct Rehearsal {
    Event race;  // at this session's rate: its plan is what is rehearsed
    Event event; // the session
    Athlete athlete;
    double ride_min = 0, run_min = 0;
    double race_carb_g_per_h = 0;    // on the bike (the run without one), once it is rehearsed
    double session_carb_g_per_h = 0; // asked of this session
    double planned_at_g_per_h = 0;   // at which the race's plan gives that; whole units may need more
    bool as_the_race = false;        // the race's own rate is reached
    bool as_race_day = false;        // the last one
    bool refused = false;            // a doctor first: see the warnings
    std::vector<RehearsedPart> parts;
    double drink_share = 1;         // of the race's swallows: its day may allow less
    int laid_out_bottles = 0;       // on the way: what the race hands up
    std::string falls_short;        // why the session delivers less than it asks; empty: it delivers
    std::vector<std::string> foods; // ids of what is taken
    std::vector<Reason> because;
    std::vector<std::string> before, during, after; // what to do, in order
    std::vector<Warning> warnings;
};

/// Hours of the day from which a session goes without caffeine (common practice, no source).
inline constexpr int late_from_min = 15 * 60;

/// Usual lengths of a session, in minutes (common practice, no source): sprint 45 + 15, standard 75 + 20,
/// middle 150 + 20, long 210 + 30. A race of other lengths goes by its likely total.
struct SessionLength {
    double ride_min = 0, run_min = 0;
};
SessionLength usual_session(const Event& race, double likely_total_s);

/// The rates of the session and its event, still without what is taken. Pure. `learned` is what the diary has
/// taught about this athlete; an empty diary gives the first step.
Rehearsal plan_rehearsal(const Athlete& athlete, const Event& race, const Learned& learned,
                         const RehearsalAsk& ask);

/// Lays the race's plan on the session: its foods, bottles, rhythm and rates. `race_plan` is the plan of
/// `rehearsal.race`.
void rehearse_plan(const Plan& race_plan, Rehearsal& rehearsal);

/// What the plan of the session gives against what was asked, into `rehearsal`; the plan loses what only an
/// athlete's own lines need.
void tell_what_it_gives(const Plan& race_plan, Rehearsal& rehearsal, Plan& session);

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

/// Days of the week, 0 Sunday to 6 Saturday.
using Weekdays = std::vector<unsigned>;

/// One session a week, or one on each of `days`, until 11 days before the race, so that no new step falls
/// into the last 10 days; the rate rises by the step rule, if each session goes well. Without `days`: the
/// weekend day that the race is on, else Saturday. `race_date` ISO 8601; weeks 2 to 26.
RehearsalSeries rehearsal_series(const Rehearsal& first, const Learned& learned, int weeks,
                                 const std::string& race_date, const Weekdays& days = {});

} // namespace tuck
