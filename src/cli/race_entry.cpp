#include "cli/race_entry.hpp"

#include "base/utf8.hpp"
#include "cli/entry_options.hpp"
#include "cli/request_options.hpp"
#include "cli/tell.hpp"
#include "io/athlete_file.hpp"
#include "io/diary_file.hpp"
#include "io/units.hpp"
#include "text/diary_text.hpp"
#include "tuck/compose.hpp"

#include <cmath>
#include <fmt/format.h>
#include <memory>
#include <nlohmann/json.hpp>

namespace tuck::cli {

namespace {

using io::InputError;

struct Options {
    Request request;
    EntryRequest entry;
    io::OptionTexts took; // "--bike-took"
};

std::map<std::string, double> times_taken(const Options& options) {
    std::map<std::string, double> out;
    std::vector<io::Fault> faults;
    for (const auto& [option, text] : options.took)
        try {
            out[option] = io::duration_s(text);
        } catch (const std::invalid_argument& error) {
            faults.push_back({option, "", error.what()});
        }
    if (!faults.empty())
        throw InputError(faults);
    return out;
}

/// The legs with planned and real times; what the diary needs beside what was typed.
io::Json happened(const Options& options, const Asked& asked, const Plan& plan) {
    const auto took = times_taken(options);
    io::Json json = {{"event_name", plan.event_name},
                     {"planned_carb_g", std::round(plan.totals.carb_g)},
                     {"planned_fluid_ml", std::round(plan.totals.fluid_ml)},
                     {"planned_temperature_c", asked.event.weather.temperature_c},
                     {"legs", io::Json::array()}};
    for (const auto& duration : plan.durations) {
        if (is_transition(duration.leg))
            continue;
        const std::string sport = to_string(duration.leg);
        const auto time = took.find("--" + sport + "-took");
        const double time_s = time == took.end() ? 0 : time->second;
        const auto why = time_s > 0
                             ? io::unbelievable(io::sport_of(duration.leg), duration.distance_m, time_s)
                             : std::string();
        if (!why.empty())
            throw InputError("--" + sport + "-took", "", why);
        json["legs"].push_back(
            {{"sport", sport},
             {"distance_m", duration.distance_m},
             {"time_s", time_s},
             {"planned_s", std::round(duration.time.p50_s)},
             {"ascent_m",
              asked.event.legs[static_cast<std::size_t>(duration.leg_index)].ascent_m.value_or(0)}});
        if (time_s > 0 && duration.leg != LegKind::swim)
            json[sport + "_min"] = time_s / 60;
    }
    return json;
}

int run(const Options& options) {
    if (options.request.diary.empty())
        throw InputError("--diary", "", "is missing; give the file, such as --diary me.jsonl");
    Request request = options.request;
    const auto file = io::read_diary(request.diary); // a first race may begin the diary
    tell_state(file, request.diary);
    request.diary.clear();
    const auto asked = asked_by(request);
    const auto wanted = wanted_for(asked.event);
    const auto before = learn(file.entries, asked.athlete, wanted);
    const Plan plan = compose_plan(with_learned(asked.athlete, before), asked.event, asked.pantry);
    EntryRequest typed = options.entry;
    typed.date = asked.event.date.value_or("");
    auto base = happened(options, asked, plan);
    if (!typed.texts.count("--was"))
        base["temperature_c"] = asked.event.weather.temperature_c;
    const auto entry = entry_of(EntryKind::race, typed, base);
    const int id = save(options.request.diary, entry);
    auto entries = file.entries;
    entries.push_back(entry);
    entries.back().id = id;
    const auto& race = std::get<RaceRecord>(entry.what);
    const auto after = learn(entries, asked.athlete, wanted);
    tell_warnings(after.warnings);
    fmt::print("{}", faces::race_text(race, changes_after(race, before, after)));
    fmt::print("\nSaved as line {} of {}.\n", id, shown(options.request.diary));
    return 0;
}

} // namespace

Command race_entry_command() {
    auto o = std::make_shared<Options>();
    return {
        .name = "race",
        .help = "a race: planned against happened, and what changes",
        .footer = "Example: tuck diary add race race.json --diary me.jsonl --bike-took 1:21:00\n"
                  "  --run-took 52:10 --bike-carb 70g --bike-fluid 900ml --bike-gut nausea=1 --was 27C",
        .options = request_options(o->request) + entry_option_table(EntryKind::race, o->entry) +
                   OptionTable{
                       {"--note", &o->entry.note, "a remark"},
                       {"--swim-took", &o->took, "real time: 18:40", "TIME"},
                       {"--bike-took", &o->took, "real time: 1:21:00", "TIME"},
                       {"--run-took", &o->took, "real time: 52:10", "TIME"},
                   },
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
