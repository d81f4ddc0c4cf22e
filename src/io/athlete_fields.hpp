// The fields of an athlete.
#pragma once

#include "io/athlete_file.hpp"
#include "io/fields.hpp"
#include "io/units.hpp"
#include "tuck/athlete.hpp"
#include "tuck/food.hpp"

namespace tuck::io {

/// An athlete with the times that belong to the legs of the coming event.
struct AthleteInput {
    Athlete athlete;
    LegTimes times;
};

inline const Words<Level>& level_words() {
    static const Words<Level> words{{"beginner", Level::beginner},
                                    {"steady", Level::steady},
                                    {"keen", Level::keen},
                                    {"fast", Level::fast}};
    return words;
}

inline const Words<Position>& position_words() {
    static const Words<Position> words{{"upright", Position::upright},
                                       {"hoods", Position::hoods},
                                       {"drops", Position::drops},
                                       {"aero", Position::aero}};
    return words;
}

inline const Words<Units>& units_words() {
    static const Words<Units> words{{"metric", Units::metric}, {"imperial", Units::imperial}};
    return words;
}

inline const Words<Sex>& sex_words() {
    static const Words<Sex> words{{"female", Sex::female}, {"male", Sex::male}};
    return words;
}

inline const Words<Hands>& hands_words() {
    static const Words<Hands> words{
        {"none", Hands::none}, {"bottle", Hands::bottle}, {"bottle and food", Hands::bottle_and_food}};
    return words;
}

inline double age_in_years(const std::string& text) {
    return plain_number(text, "an age in years");
}

template <class V>
void visit_fields(LegTimes& times, V& v) {
    struct Row {
        LegKind leg;
        Field field;
    };
    static constexpr Row rows[] = {
        {LegKind::swim, {"swim", "--swim-time", "expected", "18:30", "TIME", "swim_time"}},
        {LegKind::t1, {"t1", "--t1-time", "expected", "3:00", "TIME", "t1_time"}},
        {LegKind::bike, {"bike", "--bike-time", "expected", "1:05:00", "TIME", "bike_time"}},
        {LegKind::t2, {"t2", "--t2-time", "expected", "2:00", "TIME", "t2_time"}},
        {LegKind::run, {"run", "--run-time", "expected", "52:30", "TIME", "run_time"}}};
    for (const auto& row : rows) {
        std::optional<double> time_s;
        v.time(row.field, time_s, is_transition(row.leg) ? longest_transition_s : longest_event_s);
        if (time_s)
            times[row.leg] = *time_s;
    }
}

template <class V>
void visit_fields(MeasuredSweat& sweat, V& v) {
    v.number({"sweat_ml_per_h", "--sweat-rate", "sweat rate, measured", "0.9L/h, 900ml/h", "RATE",
              "sweat_ml_per_h"},
             sweat.sweat_ml_per_h, rate_ml_per_h, {100, 4000, "ml/h"}, Need::required);
    v.choice({"sport", nullptr, "in which it was measured; absent: on the bike"}, sweat.sport, sport_words());
    v.number({"temperature_c", nullptr, "of the air; absent: as on the day"}, sweat.temperature_c,
             temperature_c, any_air_c);
    v.number({"humidity_pct", nullptr, "of the air; absent: as on the day"}, sweat.humidity_pct, humidity_pct,
             any_percent);
}

template <class V>
void visit_fields(SweatOnRun& sweat, V& v) {
    v.number({"sweat_ml_per_h", nullptr, "sweat rate, measured"}, sweat.sweat_ml_per_h, rate_ml_per_h,
             {100, 4000, "ml/h"}, Need::required);
    v.number({"temperature_c", nullptr, "of the air; absent: as on the day"}, sweat.temperature_c,
             temperature_c, any_air_c);
    v.number({"humidity_pct", nullptr, "of the air; absent: as on the day"}, sweat.humidity_pct, humidity_pct,
             any_percent);
}

template <class V>
void visit_fields(Rehearsed& r, V& v) {
    v.number({"carb_g_per_h", "--rehearsed-carb", "highest rate that went well at race effort", "60g/h",
              "RATE", "carb_g_per_h"},
             r.carb_g_per_h, rate_g_per_h, {0, 150, "g/h"}, Need::optional);
    v.number({"fluid_ml_per_h", "--rehearsed-fluid", "highest rate that went well at race effort", "500ml/h",
              "RATE", "fluid_ml_per_h"},
             r.fluid_ml_per_h, rate_ml_per_h, {0, 2000, "ml/h"}, Need::optional);
    v.flag({"gut_trained", nullptr, "weeks of training the gut to high rates", "", "", "gut_trained"},
           r.gut_trained);
    v.flag({"solids_on_run", nullptr, "solid food on the run has gone well", "", "", "solids_on_run"},
           r.solids_on_run);
    v.flag({"strong_drink", nullptr, "a drink above 8 % carbohydrate has gone well", "", "", "strong_drink"},
           r.strong_drink);
}

template <class V>
void visit_fields(Health& h, V& v) {
    v.flag({"glucose_lowering_medicine"}, h.glucose_lowering_medicine);
    v.flag({"heart_kidney_or_blood_pressure"}, h.heart_kidney_or_blood_pressure);
    v.flag({"pregnant_or_breastfeeding"}, h.pregnant_or_breastfeeding);
    v.flag({"coeliac"}, h.coeliac);
    v.flag({"fructose_malabsorption"}, h.fructose_malabsorption);
    v.flag({"past_eating_disorder"}, h.past_eating_disorder);
    v.flag({"recent_gut_illness"}, h.recent_gut_illness);
}

template <class V>
void visit_fields(AthleteInput& input, V& v) {
    Athlete& a = input.athlete;
    v.words({"name", "--name", "name on the card", "", "TEXT", "name"}, a.name, 60);
    v.words({"bib", nullptr, "race number", "", "", "bib"}, a.bib, 12);
    v.number({"mass_kg", "--mass", "body mass before the race", "68kg, 150lb, 11st 4lb", "MASS", "mass_kg"},
             a.mass_kg, mass_kg, body_kg, Need::required);
    v.number({"height_m", "--height", "height", "178cm, 1.78m, 70in, 5'9\"", "LENGTH", "height_m"},
             a.height_m, length_m, {1.0, 2.3, "m"});
    v.number({"age_y", "--age", "age in years", "34", "NUMBER", "age_y"}, a.age_y, age_in_years,
             {8, 100, "years"});
    v.choice({"sex", "--sex", "sex", "", "WORD", "sex"}, a.sex, sex_words());
    v.choice({"units", "--units", "of what is printed", "", "WORD", "units"}, a.units, units_words());
    v.choice({"level", "--level", "how fast, where no result or threshold is known", "", "WORD", "level"},
             a.level, level_words());
    v.choice({"position", "--position", "usual position on the bicycle", "", "WORD", "position"}, a.position,
             position_words());
    v.number({"threshold_power_w", "--threshold-power", "power held for about an hour", "220W", "POWER",
              "threshold_power_w"},
             a.threshold_power_w, power_w, {40, 600, "W"});
    v.number({"threshold_run_s_per_km", "--threshold-pace", "pace of a run held for about an hour",
              "4:45/km, 7:40/mi", "PACE", "threshold_run_s_per_km"},
             a.threshold_run_s_per_km, pace_s_per_km, {140, 900, "s/km"});
    v.number({"critical_swim_speed_m_s", "--swim-pace", "critical swim speed, from trials of 200 and 400 m",
              "1:50/100m", "PACE", "critical_swim_speed_m_s"},
             a.critical_swim_speed_m_s, swim_speed_m_s, {0.3, 2.2, "m/s"});
    v.results({"recent", nullptr, "recent results of one sport alone"}, a.recent);
    v.object({"times", nullptr, "expected times in the coming event; they outrank every estimate"},
             input.times);
    v.object({"sweat", nullptr, "a measured sweat rate and its conditions"}, a.sweat);
    v.object({"sweat_on_run", nullptr, "the same on the run, beside one of the bike"}, a.sweat_on_run);
    v.number({"sweat_sodium_mmol_per_l", "--sweat-sodium", "sodium of sweat, whole body",
              "45mmol/L, 1000mg/L", "SODIUM", "sweat_sodium_mmol_per_l"},
             a.sweat_sodium_mmol_per_l, sodium_mmol_per_l, {5, 150, "mmol/L"});
    v.object({"rehearsed", nullptr, "what has gone well in rehearsals"}, a.rehearsed);
    v.flag({"caffeine", "--caffeine", "caffeine is wanted; off unless said", "yes, no", "WORD", "caffeine"},
           a.caffeine);
    v.number({"morning_coffee_mg", nullptr, "caffeine drunk on the morning of the race", "", "",
              "morning_coffee_mg"},
             a.morning_coffee_mg, milligrams, {0, 1000, "mg of caffeine"}, Need::optional);
    v.choice({"hands", "--hands", "what the athlete handles safely while riding", "", "WORDS", "hands"},
             a.hands, hands_words());
    v.number({"swallow_ml", nullptr, "one swallow", "", "", "swallow_ml"}, a.swallow_ml, volume_ml,
             {25, 50, "ml"}, Need::optional);
    v.list({"like", "--like", "food ids or groups, parted by commas", "", "FOODS", "like"}, a.like, {});
    v.list({"avoid", "--avoid", "food ids or groups, parted by commas", "", "FOODS", "avoid"}, a.avoid, {});
    v.list({"allergy", "--allergy", "allergens of Annex II of Regulation (EU) 1169/2011, parted by commas",
            "", "WORDS", "allergy"},
           a.allergy, allergen_names());
    v.object(
        {"health", nullptr, "changes the advice, and is never printed on a card or a list", "", "", "health"},
        a.health);
}

} // namespace tuck::io
