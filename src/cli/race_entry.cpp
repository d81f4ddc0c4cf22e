#include "cli/race_entry.hpp"

#include "ask/entry.hpp"
#include "base/utf8.hpp"
#include "cli/entry_options.hpp"
#include "cli/request_options.hpp"
#include "cli/tell.hpp"
#include "io/athlete_file.hpp"
#include "io/diary_answers.hpp"
#include "io/diary_file.hpp"
#include "io/outputs.hpp"
#include "io/units.hpp"
#include "text/diary_text.hpp"
#include "tuck/compose.hpp"

#include <fmt/format.h>
#include <memory>
#include <nlohmann/json.hpp>

namespace tuck::cli {

namespace {

using io::InputError;

struct RaceOptions {
    Request request;
    EntryRequest entry;
    io::OptionTexts took; // "--bike-took"
    bool json = false;
};

std::map<std::string, double> times_taken(const RaceOptions& options) {
    std::map<std::string, double> out;
    std::vector<io::Fault> faults;
    for (const auto& [option, text] : options.took)
        try {
            out[option.substr(2, option.size() - 2 - std::string("-took").size())] = io::duration_s(text);
        } catch (const std::invalid_argument& error) {
            faults.push_back({option, "", error.what()});
        }
    if (!faults.empty())
        throw InputError(faults);
    return out;
}

int run(const RaceOptions& options) {
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
    const auto filled =
        ask::completed(EntryKind::race, typed.texts, ask::race_as_planned(asked, plan, times_taken(options)));
    tell_notes(filled.notes);
    auto entry = entry_of(EntryKind::race, typed, filled.fields);
    entry.id = save(options.request.diary, entry);
    auto entries = file.entries;
    entries.push_back(entry);
    const auto& race = std::get<RaceRecord>(entry.what);
    const auto after = learn(entries, asked.athlete, wanted);
    tell_warnings(after.warnings);
    const auto changes = changes_after(race, before, after);
    if (options.json) {
        io::say(io::saved_json("add", entry, changes));
        return 0;
    }
    io::say(faces::race_text(race, changes, after) +
            fmt::format("\nSaved as line {} of {}.\n", entry.id, shown(options.request.diary)));
    return 0;
}

} // namespace

Command race_entry_command() {
    auto o = std::make_shared<RaceOptions>();
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
                       {"--json", &o->json, "the saved line and what changes, as JSON"},
                   },
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
