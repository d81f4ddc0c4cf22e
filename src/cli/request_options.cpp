#include "cli/request_options.hpp"

namespace tuck::cli {

namespace {

OptionTable athlete_options(io::PlanOptions& o) {
    return under(
        "The athlete",
        {
            {"--athlete", &o.athlete_file, "athlete file (JSON)", "FILE.json"},
            {"--name", &o.name, "name on the card"},
            {"--mass", &o.mass, "body mass: 68kg, 150lb", "MASS"},
            {"--height", &o.height, "178cm, 1.78m, 70in", "LENGTH"},
            {"--age", &o.age, "years", "NUMBER"},
            {"--sex", &o.sex, "female, male", "WORD"},
            {"--level", &o.level, "beginner, steady, keen, fast", "WORD"},
            {"--position", &o.position, "upright, hoods, drops, aero", "WORD"},
            {"--threshold-power", &o.threshold_power, "220W", "POWER"},
            {"--threshold-pace", &o.threshold_pace, "run: 4:45/km, 7:40/mi", "PACE"},
            {"--swim-pace", &o.swim_pace, "critical: 1:50/100m", "PACE"},
            {"--recent-swim", &o.recent_swim, "a result: 400m=7:20", "RESULT"},
            {"--recent-bike", &o.recent_bike, "a result: 40km=1:12:00", "RESULT"},
            {"--recent-run", &o.recent_run, "a result: 10km=52:30 or 10km=52:30@2026-09-01", "RESULT"},
            {"--sweat-rate", &o.sweat_rate, "measured: 0.9L/h, 900ml/h", "RATE"},
            {"--sweat-sodium", &o.sweat_sodium, "45mmol/L, 1000mg/L", "SODIUM"},
            {"--rehearsed-carb", &o.rehearsed_carb, "went well so far: 60g/h", "RATE"},
            {"--rehearsed-fluid", &o.rehearsed_fluid, "went well so far: 500ml/h", "RATE"},
            {"--caffeine", &o.caffeine, "yes, no (the default), or how much: 150mg", "WORD"},
            {"--hands", &o.hands, "off the bar: none, bottle, bottle and food", "WORDS"},
            {"--like", &o.like, "foods or groups, parted by commas", "FOODS"},
            {"--avoid", &o.avoid, "foods or groups, parted by commas", "FOODS"},
            {"--allergy", &o.allergy, "allergens, parted by commas", "WORDS"},
        });
}

OptionTable event_options(io::PlanOptions& o) {
    return under("The event",
                 {
                     {"--event-name", &o.event_name, "name on the card"},
                     {"--distance", &o.distance, "sprint, standard, middle, long ...", "WORD"},
                     {"--legs", &o.legs, "swim:750m,bike:20km,run:5km or bike:2h", "LEGS"},
                     {"--training", &o.training, "a training session, not a race"},
                     {"--temperature", &o.temperature, "of the air: 22C, 75F", "TEMPERATURE"},
                     {"--humidity", &o.humidity, "60%", "PERCENT"},
                     {"--wind", &o.wind, "3m/s, 12km/h, 8mph", "SPEED"},
                     {"--wind-from", &o.wind_from, "where it comes from: 240deg, SW", "DIRECTION"},
                     {"--bike-course", &o.bike_course, "the road: lake.gpx", "FILE.gpx"},
                     {"--bike-laps", &o.bike_laps, "of that course (1)", "NUMBER"},
                     {"--run-course", &o.run_course, "the road: shore.gpx", "FILE.gpx"},
                     {"--run-laps", &o.run_laps, "of that course (1)", "NUMBER"},
                     {"--water", &o.water, "temperature of the water: 18C, 64F", "TEMPERATURE"},
                     {"--sun", &o.sun, "none, hazy, half (the default), full, or 600W/m2", "SUN"},
                     {"--swim-time", &o.swim_time, "expected: 18:30", "TIME"},
                     {"--t1-time", &o.t1_time, "expected: 3:00", "TIME"},
                     {"--bike-time", &o.bike_time, "expected: 1:05:00", "TIME"},
                     {"--t2-time", &o.t2_time, "expected: 2:00", "TIME"},
                     {"--run-time", &o.run_time, "expected: 52:30", "TIME"},
                     {"--bottles", &o.bottles, "on the bike: 2x750ml or 750ml,500ml", "VOLUMES"},
                     {"--stations", &o.stations, "typical: assume usual aid stations", "WORD"},
                     {"--date", &o.date, "2027-06-13", "DATE"},
                     {"--start", &o.start, "local time: 07:30", "CLOCK"},
                     {"--days", &o.days, "simulated race days (10000)", "NUMBER"},
                     {"--seed", &o.seed, "of the simulated days (1)", "NUMBER"},
                 });
}

OptionTable own_options(io::PlanOptions& o) {
    return under("Your own plan",
                 {
                     {"--carb", &o.carb, "the rate you want, within your caps: 70g/h", "RATE"},
                     {"--caffeine-at", &o.caffeine_at, "when the caffeine comes, by the bike's clock: 2:30", "CLOCK"},
                     {"--take", &o.take,
                      "a line taken as it stands: \"bike every 15min: 3 swallows iso\", \"run each station: 1 cup "
                      "water\", \"bike 1:10: gel\", \"B1: water\"",
                      "LINE"},
                     {"--fill", &o.fill, "plan the legs for which no line was given"},
                 });
}

OptionTable edit_options(Edits& o) {
    return under("Another plan",
                 {
                     {.name = "--without",
                      .target = &o.without,
                      .help = "leave out these foods or groups, for this plan",
                      .kind = "FOODS",
                      .commas = true},
                     {.name = "--only",
                      .target = &o.only,
                      .help = "nothing but these foods or groups, and water",
                      .kind = "FOODS",
                      .commas = true},
                     {"--bike-rhythm", &o.bike_rhythm, "10min, 15min or 20min", "TIME"},
                     {"--pin", &o.pins,
                      "a feed you want: 0:40=gel_25 by the bike's clock, 6km=gel_25 on the run", "FEED"},
                     {"--delay", &o.delay, "the start is put off: 45min", "TIME"},
                     {"--swim", &o.swim, "cancelled: the day without its swim", "WORD"},
                 });
}

} // namespace

OptionTable request_options(Request& request) {
    const OptionTable files{
        {"event", &request.event_file, "event file (JSON)", "EVENT.json"},
        {"--foods", &request.foods, "folder of the pantry", "FOLDER"},
        {"--own-foods", &request.own_foods, "file of your own foods (see tuck foods add)", "FILE.json"},
        {"--diary", &request.diary, "your diary (JSON Lines): its numbers outrank the athlete file",
         "FILE.jsonl"},
    };
    return files + athlete_options(request.options) + event_options(request.options) +
           own_options(request.options) + edit_options(request.edits);
}

} // namespace tuck::cli
