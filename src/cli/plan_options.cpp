#include "cli/plan_options.hpp"

#include <CLI/CLI.hpp>

namespace tuck::cli {

namespace {

void add_athlete(CLI::App& app, io::PlanOptions& o) {
    const char* group = "The athlete";
    const auto add = [&](const char* name, auto& text, const char* help) {
        // One value for each use, so that a list never swallows the event's file name.
        app.add_option(name, text, help)->group(group)->allow_extra_args(false);
    };
    add("--athlete", o.athlete_file, "athlete file (JSON)");
    add("--name", o.name, "name on the card");
    add("--mass", o.mass, "body mass: 68kg, 150lb");
    add("--height", o.height, "178cm, 1.78m, 70in");
    add("--age", o.age, "years");
    add("--sex", o.sex, "female, male");
    add("--level", o.level, "beginner, steady, keen, fast");
    add("--position", o.position, "upright, hoods, drops, aero");
    add("--threshold-power", o.threshold_power, "220W");
    add("--threshold-pace", o.threshold_pace, "run: 4:45/km, 7:40/mi");
    add("--swim-pace", o.swim_pace, "critical: 1:50/100m");
    add("--recent-swim", o.recent_swim, "a result: 400m=7:20");
    add("--recent-bike", o.recent_bike, "a result: 40km=1:12:00");
    add("--recent-run", o.recent_run, "a result: 10km=52:30 or 10km=52:30@2026-09-01");
    add("--sweat-rate", o.sweat_rate, "measured: 0.9L/h, 900ml/h");
    add("--sweat-sodium", o.sweat_sodium, "45mmol/L, 1000mg/L");
    add("--rehearsed-carb", o.rehearsed_carb, "went well so far: 60g/h");
    add("--rehearsed-fluid", o.rehearsed_fluid, "went well so far: 500ml/h");
    add("--caffeine", o.caffeine, "yes, no (the default)");
    add("--hands", o.hands, "off the bar: none, bottle, bottle and food");
    add("--like", o.like, "foods or groups, parted by commas");
    add("--avoid", o.avoid, "foods or groups, parted by commas");
    add("--allergy", o.allergy, "allergens, parted by commas");
}

void add_event(CLI::App& app, io::PlanOptions& o) {
    const char* group = "The event";
    const auto add = [&](const char* name, auto& text, const char* help) {
        app.add_option(name, text, help)->group(group);
    };
    add("--event-name", o.event_name, "name on the card");
    add("--distance", o.distance, "sprint, standard, middle, long ...");
    add("--legs", o.legs, "swim:750m,bike:20km,run:5km or bike:2h");
    app.add_flag("--training", o.training, "a training session, not a race")->group(group);
    add("--temperature", o.temperature, "of the air: 22C, 75F");
    add("--humidity", o.humidity, "60%");
    add("--wind", o.wind, "3m/s, 12km/h, 8mph");
    add("--wind-from", o.wind_from, "where it comes from: 240deg, SW");
    add("--bike-course", o.bike_course, "the road: lake.gpx");
    add("--bike-laps", o.bike_laps, "of that course (1)");
    add("--run-course", o.run_course, "the road: shore.gpx");
    add("--run-laps", o.run_laps, "of that course (1)");
    add("--water", o.water, "temperature of the water: 18C, 64F");
    add("--sun", o.sun, "none, hazy, half (the default), full, or 600W/m2");
    add("--swim-time", o.swim_time, "expected: 18:30");
    add("--t1-time", o.t1_time, "expected: 3:00");
    add("--bike-time", o.bike_time, "expected: 1:05:00");
    add("--t2-time", o.t2_time, "expected: 2:00");
    add("--run-time", o.run_time, "expected: 52:30");
    add("--bottles", o.bottles, "on the bike: 2x750ml or 750ml,500ml");
    add("--stations", o.stations, "typical: assume usual aid stations");
    add("--date", o.date, "2027-06-13");
    add("--start", o.start, "local time: 07:30");
    add("--days", o.days, "simulated race days (10000)");
    add("--seed", o.seed, "of the simulated days (1)");
}

} // namespace

void add_plan_options(CLI::App& app, io::PlanOptions& options) {
    add_athlete(app, options);
    add_event(app, options);
}

} // namespace tuck::cli
