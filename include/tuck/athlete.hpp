// The athlete, as plain data. Only the body mass is required; whatever is missing widens the spread.
#pragma once

#include "tuck/event.hpp"
#include "tuck/quantity.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace tuck {

/// Plain words for how fast somebody races, anchored on open results (see effort/levels.hpp).
enum class Level { unknown, beginner, steady, keen, fast };
enum class Sex { unspecified, female, male };
enum class Hands { none, bottle, bottle_and_food };
/// What the athlete reads; numbers are metric everywhere.
enum class Units { metric, imperial };
enum class Position { unspecified, upright, hoods, drops, aero };

const char* to_string(Level level);

/// A race or test result: distance in metres, time in seconds, and its day (ISO 8601).
struct RecentResult {
    Sport sport = Sport::run;
    double distance_m = 0;
    double time_s = 0;
    std::optional<std::string> date = std::nullopt;
};

/// A measured sweat rate and the conditions it was measured in (absent: as on race day, on the bike).
struct MeasuredSweat {
    double sweat_ml_per_h = 0;
    std::optional<Sport> sport;
    std::optional<double> temperature_c;
    std::optional<double> humidity_pct;
};

/// The same on foot, where there is one of the bike too; its sport is known.
struct SweatOnRun : MeasuredSweat {};

/// What sweat tests have taught (see tuck/diary.hpp): the athlete's sweat on a like day as a multiple of the
/// model's mean. The log of the multiple is normal; `log_sd` holds what is unknown and the change from day to
/// day. Outranks MeasuredSweat.
struct LearnedSweat {
    double factor = 1; // median
    double log_sd = 0.43;
    int tests = 0;
    std::optional<double> run_factor = std::nullopt; // on the run; absent: as on the bike
    double run_more_log_sd = 0;                      // beside `log_sd`
};

/// What has gone well in rehearsals at race effort. Zero: not rehearsed.
struct Rehearsed {
    double carb_g_per_h = 0;
    double fluid_ml_per_h = 0;
    bool gut_trained = false; // declared weeks of gut training: the only way above 90 g/h
    bool solids_on_run = false;
    bool strong_drink = false; // a drink above 8 % carbohydrate
    // A higher rate went badly; 0: none did.
    double at_most_g_per_h = 0, run_at_most_g_per_h = 0;
};

/// Optional. Changes the advice, and is never printed on a card or a list.
struct Health {
    bool glucose_lowering_medicine = false;
    bool heart_kidney_or_blood_pressure = false;
    bool pregnant_or_breastfeeding = false;
    bool coeliac = false;
    bool fructose_malabsorption = false;
    bool past_eating_disorder = false;
    bool recent_gut_illness = false;
};

struct Athlete {
    std::string name;
    std::string bib;
    double mass_kg = 70;
    std::optional<double> height_m;
    std::optional<double> age_y;
    Sex sex = Sex::unspecified;
    Level level = Level::unknown;
    Position position = Position::unspecified;
    std::optional<double> threshold_power_w;
    std::optional<double> threshold_run_s_per_km;
    std::optional<double> critical_swim_speed_m_s;
    std::vector<RecentResult> recent;
    std::optional<MeasuredSweat> sweat;
    std::optional<SweatOnRun> sweat_on_run; // beside one of another sport
    std::optional<LearnedSweat> learned_sweat;
    std::optional<double> sweat_sodium_mmol_per_l; // whole body
    std::optional<double> sweat_sodium_log_sd;     // of that value on a day; absent: as well as a test is
    Rehearsed rehearsed;
    bool caffeine = false;
    Milligrams morning_coffee_mg = 0;
    std::optional<Hands> hands;       // absent: bottle for a beginner, else bottle and food
    Millilitres swallow_ml = 30;      // 25..50
    std::vector<std::string> like;    // food ids or groups
    std::vector<std::string> avoid;   // food ids or groups
    std::vector<std::string> only;    // food ids or groups, and water; empty: all
    std::vector<std::string> allergy; // allergen names
    Health health;
    Units units = Units::metric; // on paper and screen
};

} // namespace tuck
