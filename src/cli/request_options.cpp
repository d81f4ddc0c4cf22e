#include "cli/request_options.hpp"

#include "io/options.hpp"

namespace tuck::cli {

namespace {

OptionTable typed_options(const std::vector<io::PlanOption>& known, Typed& typed) {
    OptionTable table;
    for (const auto& option : known)
        table.push_back({.name = option.name,
                         .target = TypedTarget{&typed, option.many},
                         .help = option.help,
                         .kind = option.kind});
    return table;
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
        {"--no-profile", &request.no_profile, "leave the athlete of tuck new --me out"},
    };
    return files + under("The athlete", typed_options(io::athlete_options(), request.options)) +
           under("The event", typed_options(io::event_options(), request.options)) +
           edit_options(request.edits);
}

} // namespace tuck::cli
