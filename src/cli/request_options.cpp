#include "cli/request_options.hpp"

#include "io/input_options.hpp"

namespace tuck::cli {

namespace {

/// What the fields of an input tell about their options.
OptionTable of_fields(const std::vector<io::InputOption>& fields, io::PlanOptions& o) {
    OptionTable table;
    for (const auto& field : fields) {
        const Target target = field.adds_up ? Target(&o.lists) : Target(&o.texts);
        table.push_back({field.option, target, field.help, field.kind});
    }
    return table;
}

OptionTable athlete_options(io::PlanOptions& o) {
    return under("The athlete",
                 OptionTable{{"--athlete", &o.athlete_file, "athlete file (JSON)", "FILE.json"}} +
                     of_fields(io::athlete_options(), o));
}

OptionTable event_options(io::PlanOptions& o) {
    const OptionTable legs{
        {"--distance", &o.distance, "sprint, standard, middle, long ...", "WORD"},
        {"--legs", &o.legs, "swim:750m,bike:20km,run:5km or bike:2h", "LEGS"},
        {"--training", &o.training, "a training session, not a race"},
        {"--bike-course", &o.bike_course, "the road: lake.gpx", "FILE.gpx"},
        {"--bike-laps", &o.bike_laps, "of that course (1)", "NUMBER"},
        {"--run-course", &o.run_course, "the road: shore.gpx", "FILE.gpx"},
        {"--run-laps", &o.run_laps, "of that course (1)", "NUMBER"},
    };
    return under("The event", legs + of_fields(io::event_options(), o));
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
           edit_options(request.edits);
}

} // namespace tuck::cli
