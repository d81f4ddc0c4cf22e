#include "tuck/sweat_test.hpp"
#include "base/utf8.hpp"
#include "cli/command.hpp"
#include "cli/entry_options.hpp"
#include "cli/tell.hpp"
#include "io/diary_answers.hpp"
#include "io/outputs.hpp"
#include "io/units.hpp"
#include "text/sweat_test_text.hpp"

#include <fmt/format.h>
#include <memory>

namespace tuck::cli {

namespace {

struct SweatTestOptions {
    EntryRequest entry;
    std::vector<std::string> race_temperatures;
    std::string units;
    bool save = false, no_scales = false, json = false;
};

Units units_of(const SweatTestOptions& options, const Athlete& athlete) {
    if (options.units.empty())
        return athlete.units;
    return options.units == "imperial" ? Units::imperial : Units::metric;
}

std::vector<double> temperatures(const SweatTestOptions& options, double tested_c) {
    std::vector<double> out;
    for (const auto& text : options.race_temperatures) {
        try {
            out.push_back(io::temperature_c(text));
        } catch (const std::invalid_argument& error) {
            throw io::InputError("--race-temperature", "", error.what());
        }
        if (out.back() < -20 || out.back() > 50)
            throw io::InputError("--race-temperature", "",
                                 fmt::format("{:g} is out of range; allowed -20 to 50 C", out.back()));
    }
    if (out.empty())
        out = {tested_c - 6, tested_c, tested_c + 6};
    return out;
}

int run(const SweatTestOptions& options) {
    if (options.no_scales) {
        fmt::print("{}", faces::without_scales_text());
        return 0;
    }
    if (options.save && options.entry.diary.empty())
        throw io::InputError("--save", "", "needs a file to save to; give --diary FILE");
    const auto entry = entry_of(EntryKind::sweat_test, options.entry);
    const auto& test = std::get<SweatTest>(entry.what);
    const auto athlete = athlete_of(options.entry, test.before_kg);
    if (athlete.health.past_eating_disorder) {
        fmt::print(stderr, "tuck: no_scales: this athlete's file asks for no scales; nothing is worked out "
                           "or saved from a weighing\n");
        fmt::print("{}", faces::without_scales_text());
        return 1;
    }
    const auto result = judge_sweat_test(athlete, test, temperatures(options, test.temperature_c));
    if (!result.implausible.empty())
        throw io::InputError("sweat test", "", result.implausible);
    if (!options.entry.texts.count("--sport"))
        tell_notes({"the sport was not said: it is taken as a ride; --sport run for a run"});
    tell_warnings(result.warnings);
    const auto units = units_of(options, athlete);
    const auto say_it = [&](int line) {
        if (options.json)
            return io::say(io::sweat_test_json(test, result, line));
        io::say(
            faces::sweat_test_text(test, result, units) +
            (line > 0 ? fmt::format("\nSaved as line {} of {}.\n", line, shown(options.entry.diary)) : ""));
    };
    if (options.save)
        save(options.entry.diary, entry, say_it);
    else
        say_it(0);
    return 0;
}

} // namespace

Command sweat_test_command() {
    auto o = std::make_shared<SweatTestOptions>();
    return {
        .name = "sweat-test",
        .help = "how much you sweat, from weighing before and after",
        .footer = "Weigh yourself before and after a session of 60 min or more, bare and dry, bladder "
                  "emptied first;\n"
                  "never hold it and never go dry for a test. Example:\n"
                  "  tuck sweat-test --before 71.42kg --after 70.31kg --drank 750ml --minutes 90 "
                  "--temperature 24C\n"
                  "                  --scale 50g --save --diary me.jsonl\n"
                  "No scales, or rather none: tuck sweat-test --no-scales (thirst and a bottle log).",
        .options =
            entry_option_table(EntryKind::sweat_test, o->entry) + person_options(o->entry) +
            diary_options(o->entry) +
            OptionTable{
                {"--race-temperature", &o->race_temperatures, "what it means at this: 28C", "TEMPERATURE"},
                {"--pace", &o->entry.pace, "mean, of a run or swim: 5:10/km, 8:20/mi, 1:50/100m", "PACE"},
                {"--units", &o->units, "metric, imperial: of what you read", "WORD", "metric, imperial"},
                {"--save", &o->save, "append it to the diary"},
                {"--json", &o->json, "as JSON (tuck.sweat-test/1)"},
                {"--no-scales", &o->no_scales, "the way without scales"},
            },
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
