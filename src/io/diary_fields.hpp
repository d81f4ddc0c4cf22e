// The fields of every kind of entry, described once: for the file, the options and the table.
//
// Beside the members told in fields.hpp a visitor has
//   symptoms(Symptoms&), legs(std::vector<RacedLeg>&), sodium(std::optional<SodiumTest>&).
#pragma once

#include "io/athlete_file.hpp"
#include "io/fields.hpp"
#include "io/units.hpp"
#include "tuck/diary.hpp"

namespace tuck::io {

inline constexpr Range volume{0, 20000, "ml"}, eaten_g{0, 5000, "g"}, marks{0, 10, ""};

/// "9.5": a number of feeds.
inline double count(const std::string& text) {
    return plain_number(text, "a number of feeds");
}

/// A test knows the sky, not its radiation.
inline double sun_share(const std::string& text) {
    const auto sun = sun_light(text);
    if (!sun.share)
        throw std::invalid_argument("\"" + text + "\" is no sky; allowed: none, hazy, half, full");
    return *sun.share;
}

template <class V>
void visit_weather(std::optional<double>& humidity, V& v) {
    v.number({"humidity_pct", "--humidity", "of the air: 60%"}, humidity, humidity_pct, any_percent);
}

template <class V>
void visit_fields(SweatTest& t, V& v) {
    v.number({"before_kg", "--before", "body mass before: 71.42kg"}, t.before_kg, mass_kg, body_kg,
             Need::required);
    v.number({"after_kg", "--after", "body mass after: 70.31kg"}, t.after_kg, mass_kg, body_kg,
             Need::required);
    v.number({"minutes", "--minutes", "length of the session: 90, 1:30:00"}, t.minutes, minutes,
             {10, 2880, "min"}, Need::required);
    v.number({"temperature_c", "--temperature", "of the air: 24C, 75F"}, t.temperature_c, temperature_c,
             any_air_c, Need::required);
    v.number({"drank_ml", "--drank", "between the two weighings: 750ml"}, t.drank_ml, volume_ml, volume,
             Need::optional);
    v.number({"food_g", "--food", "eaten between them: 60g"}, t.food_g, grams, eaten_g, Need::optional);
    v.number({"urine_ml", "--urine", "passed between them: 200ml"}, t.urine_ml, volume_ml, volume,
             Need::optional);
    v.number({"stool_g", "--stool", "passed between them: 100g"}, t.stool_g, grams, eaten_g, Need::optional);
    v.number({"clothes_g", "--clothes", "sweat in the clothes, if weighed in them: 80g"}, t.clothes_g, grams,
             {0, 3000, "g"}, Need::optional);
    v.number({"scale_kg", "--scale", "smallest step of the scale: 50g (100g if not given)"}, t.scale_kg,
             mass_kg, {0.001, 1, "kg"}, Need::optional);
    v.choice({"sport", "--sport", "swim, bike, run (bike if not given)"}, t.sport, sport_words());
    v.flag({"race_effort", "--race-effort", "yes: as hard as in the race"}, t.race_effort);
    visit_weather(t.humidity_pct, v);
    v.number({"wind_m_s", "--wind", "3m/s, 12km/h"}, t.wind_m_s, wind_m_s, {0, 25, "m/s"});
    v.number({"water_temperature_c", "--water", "of a swim: 18C"}, t.water_temperature_c, temperature_c,
             {0, 35, "C"});
    v.number({"sun_share", "--sun", "of a clear sky: none, hazy, half, full"}, t.sun_share, sun_share,
             {0, 1, ""});
    v.flag({"indoors", "--indoors", "in still air"}, t.indoors);
    v.flag({"fan", "--fan", "indoors: was there a fan? yes, no"}, t.fan);
    v.number({"power_w", "--power", "mean, cycling: 180W"}, t.power_w, power_w, {20, 600, "W"});
    v.number({"distance_m", "--distance", "covered: 40km"}, t.distance_m, distance_m, {50, 1e6, "m"});
    v.number({"energy_kcal", "--energy", "used: 900kcal (else from power, distance or level)"}, t.energy_kcal,
             energy_kcal, {0, 20000, "kcal"});
    v.sodium(t.sodium);
}

/// Keys and options of one part of a session.
struct FedNames {
    Field minutes, carb, fluid, sodium, asked, planned_carb, planned_fluid, symptoms;
};
inline constexpr FedNames bike_names{
    {"bike_min", "--bike", "time on the bike: 150min"},
    {"bike_carb_g", "--bike-carb", "carbohydrate taken there: 140g"},
    {"bike_fluid_ml", "--bike-fluid", "drunk there: 1200ml"},
    {"bike_sodium_mg", "--bike-sodium", "taken there: 900mg"},
    {"bike_asked_carb_g_per_h", "--bike-asked", "what the session was to hold there: 70g/h"},
    {"bike_planned_carb_g", "--bike-planned", "carbohydrate that was planned there: 165g"},
    {"bike_planned_fluid_ml", "--bike-drink-planned", "drink that was planned there: 1200ml"},
    {"bike_symptoms", "--bike-gut", "0 to 10: nausea=2,fullness=3,reflux=0,cramps=0,urge=1"}};
inline constexpr FedNames run_names{
    {"run_min", "--run", "time of the run: 20min"},
    {"run_carb_g", "--run-carb", "carbohydrate taken there: 15g"},
    {"run_fluid_ml", "--run-fluid", "drunk there: 150ml"},
    {"run_sodium_mg", "--run-sodium", "taken there: 90mg"},
    {"run_asked_carb_g_per_h", "--run-asked", "what the session was to hold there: 40g/h"},
    {"run_planned_carb_g", "--run-planned", "carbohydrate that was planned there: 25g"},
    {"run_planned_fluid_ml", "--run-drink-planned", "drink that was planned there: 160ml"},
    {"run_symptoms", "--run-gut", "0 to 10: nausea=2,fullness=3,reflux=0,cramps=0,urge=1"}};

template <class V>
void visit_fed(FedLeg& leg, const FedNames& names, V& v) {
    v.number(names.minutes, leg.minutes, minutes, {0, 2880, "min"}, Need::optional);
    v.number(names.carb, leg.carb_g, grams, {0, 3000, "g"}, Need::optional);
    v.number(names.fluid, leg.fluid_ml, volume_ml, volume, Need::optional);
    v.number(names.sodium, leg.sodium_mg, milligrams, {0, 30000, "mg"}, Need::optional);
    v.number(names.asked, leg.asked_carb_g_per_h, rate_g_per_h, {0, 150, "g/h"}, Need::optional);
    v.number(names.planned_carb, leg.planned_carb_g, grams, {0, 3000, "g"}, Need::optional);
    v.number(names.planned_fluid, leg.planned_fluid_ml, volume_ml, volume, Need::optional);
    v.symptoms(names.symptoms, leg.symptoms);
}

template <class V>
void visit_fields(RehearsalRecord& r, V& v) {
    visit_fed(r.bike, bike_names, v);
    visit_fed(r.run, run_names, v);
    v.number({"temperature_c", "--temperature", "of the air: 18C"}, r.temperature_c, temperature_c, any_air_c,
             Need::required);
    visit_weather(r.humidity_pct, v);
    v.flag({"race_effort", "--race-effort", "as hard as in the race: yes, no (yes if not given)"},
           r.race_effort);
    v.number({"feeds_planned", "--feeds", "number of feeds planned: 10"}, r.feeds_planned, count,
             {0, 500, ""}, Need::optional);
    v.number({"feeds_taken", "--taken", "number of feeds taken, halves count half: 9.5"}, r.feeds_taken,
             count, {0, 500, ""}, Need::optional);
    v.flag({"vomited", "--vomited", "yes, no"}, r.vomited);
    v.flag({"blood", "--blood", "in vomit or stool: yes, no"}, r.blood);
    v.flag({"strong_drink", "--strong-drink", "a drink above 8 % carbohydrate was part of it"},
           r.strong_drink);
    v.flag({"solids_on_run", "--solids-on-run", "solid food on the run was part of it"}, r.solids_on_run);
    v.number({"meal_hours", "--meal", "last meal before the start: 3h"}, r.meal_hours, hours, {0, 24, "h"});
    v.number({"sleep_hours", "--sleep", "the night before: 7h"}, r.sleep_hours, hours, {0, 24, "h"});
    v.number({"caffeine_mg", "--caffeine", "that day: 90mg"}, r.caffeine_mg, milligrams, {0, 2000, "mg"});
    v.number({"power_w", "--power", "mean, cycling: 180W"}, r.power_w, power_w, {20, 600, "W"});
    v.number({"heart_rate", "--heart-rate", "mean: 148bpm"}, r.heart_rate, beats_per_min, {30, 240, "bpm"});
    v.whole({"effort_rpe", "--rpe", "how hard, 0 to 10"}, r.effort_rpe, marks);
    v.whole({"thirst", "--thirst", "0 to 10"}, r.thirst, marks);
    v.flag({"slump", "--slump", "a sudden loss of power: yes, no"}, r.slump);
    v.whole({"stops", "--stops", "number of stops for the gut"}, r.stops, {0, 50, ""});
    v.words({"foods", "--foods", "what was eaten, ids parted by commas: gel_25,energy_bar"}, r.foods);
    v.words({"skipped_why", "--why", "why feeds were skipped"}, r.skipped_why);
    v.words({"medicines", "--medicines", "taken that day"}, r.medicines);
    v.words({"symptoms_later", "--later", "symptoms to 24 hours after"}, r.symptoms_later);
    v.words({"change_next", "--change", "the one thing to change next time"}, r.change_next);
}

template <class V>
void visit_fields(RaceRecord& r, V& v) {
    v.words({"event_name", nullptr, ""}, r.event_name);
    v.legs({"legs", nullptr, ""}, r.legs);
    v.number({"planned_carb_g", nullptr, ""}, r.planned_carb_g, grams, {0, 6000, "g"}, Need::optional);
    v.number({"planned_fluid_ml", nullptr, ""}, r.planned_fluid_ml, volume_ml, {0, 40000, "ml"},
             Need::optional);
    v.number({"planned_temperature_c", nullptr, ""}, r.planned_temperature_c, temperature_c, any_air_c);
    FedNames bike = bike_names, run = run_names;
    bike.minutes.option = run.minutes.option = nullptr; // from the times of the legs
    for (auto* names : {&bike, &run})
        names->asked.option = names->planned_carb.option = names->planned_fluid.option =
            nullptr; // from the plan
    visit_fed(r.bike, bike, v);
    visit_fed(r.run, run, v);
    v.number({"temperature_c", "--was", "temperature of the air on the day: 26C"}, r.temperature_c,
             temperature_c, any_air_c, Need::required);
    v.flag({"vomited", "--vomited", "yes, no"}, r.vomited);
    v.flag({"blood", "--blood", "in vomit or stool: yes, no"}, r.blood);
    v.flag({"slump", "--slump", "a sudden loss of power: yes, no"}, r.slump);
    v.whole({"thirst", "--thirst", "0 to 10"}, r.thirst, marks);
    v.number({"humidity_pct", "--humidity-was", "of the air on the day: 60%"}, r.humidity_pct, humidity_pct,
             any_percent);
    v.number({"before_kg", "--before", "body mass before: 71.4kg; with --after the race is a sweat test too"},
             r.before_kg, mass_kg, body_kg);
    v.number({"after_kg", "--after", "body mass after: 69.6kg"}, r.after_kg, mass_kg, body_kg);
    v.number({"urine_ml", "--urine", "passed between the two weighings: 200ml"}, r.urine_ml, volume_ml,
             volume, Need::optional);
    v.words({"foods", nullptr, ""}, r.foods);
}

} // namespace tuck::io
