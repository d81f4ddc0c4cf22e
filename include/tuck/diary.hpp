// The diary: what happened, and what it teaches about the athlete.
#pragma once

#include "tuck/quantity.hpp"
#include "tuck/sweat_test.hpp"

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace tuck {

/// Symptoms 0 (none) to 10 (worst), by the words of gut_symptoms().
using Symptoms = std::map<std::string, int>;
/// "nausea", "fullness", "reflux", "cramps", "urge".
const std::vector<std::string>& gut_symptoms();

/// What was eaten and drunk in one part of a session, and how the gut took it.
struct FedLeg {
    double minutes = 0; // 0: this part did not take place
    Grams carb_g = 0;
    Millilitres fluid_ml = 0;
    Milligrams sodium_mg = 0;
    Symptoms symptoms = {};
    // What was asked of it; 0: not known.
    double asked_carb_g_per_h = 0;
    Grams planned_carb_g = 0;
    Millilitres planned_fluid_ml = 0;

    double carb_g_per_h() const { return minutes > 0 ? carb_g.count() * 60 / minutes : 0; }
    double fluid_ml_per_h() const { return minutes > 0 ? fluid_ml.count() * 60 / minutes : 0; }
    int worst() const;
};

/// A session that rehearsed the race.
struct RehearsalRecord {
    FedLeg bike, run;
    double temperature_c = 20;
    std::optional<double> humidity_pct;
    bool race_effort = true;
    double feeds_planned = 0, feeds_taken = 0; // a half counts a half; planned 0: not counted
    bool vomited = false, blood = false;
    bool strong_drink = false, solids_on_run = false; // were part of it
    std::optional<double> meal_hours, sleep_hours, power_w, heart_rate;
    std::optional<Milligrams> caffeine_mg;
    std::optional<int> effort_rpe, thirst; // 0..10
    bool slump = false;
    int stops = 0;
    std::string foods;                                               // ids, parted by commas
    std::string symptoms_later, change_next, skipped_why, medicines; // in the athlete's words

    /// 1 where the feeds were not counted.
    double taken_share() const { return feeds_planned > 0 ? feeds_taken / feeds_planned : 1; }
    int worst() const;
};

/// One leg of a race: what was planned and what happened. Zero: not known.
struct RacedLeg {
    Sport sport = Sport::bike;
    double distance_m = 0, time_s = 0, planned_s = 0;
    double ascent_m = 0;
};

struct RaceRecord {
    std::string event_name;
    std::vector<RacedLeg> legs;
    FedLeg bike, run;
    Grams planned_carb_g = 0; // of bike and run
    Millilitres planned_fluid_ml = 0;
    double temperature_c = 20;
    std::optional<double> planned_temperature_c, humidity_pct;
    bool vomited = false, blood = false, slump = false;
    std::optional<int> thirst;
    std::optional<double> before_kg, after_kg; // both: the race is a sweat test too
    Millilitres urine_ml = 0;                  // passed between the two weighings
    std::string foods;                         // ids, parted by commas
};

enum class EntryKind { sweat_test, rehearsal, race };
const char* to_string(EntryKind kind);

/// One line of the diary. A line is never changed: a correction is a later line that names it.
struct DiaryEntry {
    int id = 0;                  // 1, 2, 3 ... in the order of the file
    std::string date;            // "2027-05-30"
    std::optional<int> corrects; // id of the line that this one replaces
    bool withdrawn = false;      // the line that it names does not count, and neither does this one
    std::string note;
    std::variant<SweatTest, RehearsalRecord, RaceRecord> what;

    EntryKind kind() const { return static_cast<EntryKind>(what.index()); }
};

/// The entries that count, by date: each with the last correction of it, without those withdrawn.
std::vector<DiaryEntry> standing_entries(const std::vector<DiaryEntry>& entries);

/// What the knowledge is wanted for. Absent: the weather and sport of the tests themselves.
struct LearnFor {
    std::optional<double> temperature_c;
    std::optional<Sport> sport;
};

/// A quantity with its 90 % interval.
struct Known {
    double median = 0, low = 0, high = 0;
    double log_sd = 0;
    int tests = 0;
};

/// Gut tolerance of one sport, and the next step of gut training. A rate is the one that was asked for: whole
/// units may give a tenth less.
struct GutTolerance {
    double carb_g_per_h = 0;    // highest rate that went well at race effort; 0: none yet
    double fluid_ml_per_h = 0;  // drunk in such a session
    double at_most_g_per_h = 0; // since a higher rate went badly; 0: none did
    int good_at_this_rate = 0;  // sessions in a row
    bool strong_drink = false, solids_on_run = false;
    double next_carb_g_per_h = 0; // 0: no step (see why)
    bool stop = false;            // vomiting or blood: a doctor first
    std::string why;
};

/// What one more test would do to the spread of what it measures.
struct NextTest {
    std::string text;
    double log_sd_now = 0, log_sd_then = 0;
    double more_bike_ml_per_h = 0, more_run_ml_per_h = 0; // of the ceiling on drink, over four hours
};

struct Learned {
    double temperature_c = 20; // that it holds for
    Sport sport = Sport::bike;
    Known sweat_factor; // the athlete's sweat per model's mean, at that weather
    double sweat_day_log_sd = 0;
    Known sweat_factor_on_run; // the same on the run, if `sport` is another
    Known sodium_mmol_per_l;
    GutTolerance bike, run;
    std::vector<RecentResult> paces;
    std::vector<std::string> foods;     // ids of what went well, the latest first
    std::vector<std::string> sentences; // what is known and how well, one fact each
    std::vector<std::string> signs;     // what the last session shows beside the gut
    std::vector<NextTest> next;         // most useful first
    std::vector<Warning> warnings;
};

/// What the entries teach about this athlete. Sweat: a Bayesian update of log(measured / modelled) from the
/// field's spread (CV 45 %, Barnes 2019), with the error of each test, the change from day to day (0.15 L/h,
/// Smith 2021), and room for the model's error between weathers, so that a test in unlike weather counts
/// less. Sodium likewise. Gut: the highest rates that went well and the step rules of common practice. Pure.
Learned learn(const std::vector<DiaryEntry>& entries, const Athlete& athlete, const LearnFor& wanted = {});

/// Weather and main sport of an event.
LearnFor wanted_for(const Event& event);

/// The athlete with what is learned in the place of what was said.
Athlete with_learned(Athlete athlete, const Learned& learned);

/// The numbers of a plan that are the athlete's own, for its list of assumptions: "From the diary: ...".
std::vector<std::string> own_numbers(const Learned& learned);

/// A race in three sentences: what was planned, what was taken, how it felt.
std::vector<std::string> race_in_short(const RaceRecord& race);

/// What a race changed, from what was known before it and after it.
std::vector<std::string> changes_after(const RaceRecord& race, const Learned& before, const Learned& after);

} // namespace tuck
