#include "cli/entry_options.hpp"
#include "ask/entry.hpp"
#include "base/utf8.hpp"
#include "cli/profile.hpp"
#include "cli/tell.hpp"
#include "io/athlete_file.hpp"
#include "io/diary_file.hpp"
#include "io/units.hpp"

#include <ctime>
#include <fmt/chrono.h>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace tuck::cli {

OptionTable entry_option_table(EntryKind kind, EntryRequest& request) {
    OptionTable table;
    for (const auto& known : io::entry_options(kind))
        table.push_back({.name = known.option,
                         .target = &request.texts,
                         .help = known.help,
                         .kind = "VALUE",
                         .value_optional = known.takes_no_value});
    return table;
}

OptionTable diary_options(EntryRequest& request) {
    return {{"--date", &request.date, "day of it: 2027-05-30 (today if not given)", "DATE"},
            {"--note", &request.note, "a remark"},
            {"--diary", &request.diary, "diary file (JSON Lines)", "FILE.jsonl"}};
}

OptionTable person_options(EntryRequest& request) {
    return {{"--athlete", &request.athlete_file, "athlete file (JSON)", "FILE.json"},
            {"--height", &request.height, "178cm, 1.78m, 70in", "LENGTH"},
            {"--level", &request.level, "beginner, steady, keen, fast", "WORD"}};
}

namespace {

void under_option(const char* option, io::Fault& fault) {
    fault.file = option;
    fault.place.clear();
}

} // namespace

DiaryEntry entry_of(EntryKind kind, const EntryRequest& request) {
    return entry_of(kind, request, io::Json::object());
}

DiaryEntry entry_of(EntryKind kind, const EntryRequest& request, const io::Json& base) {
    std::vector<io::Fault> faults;
    auto json = io::laid_over(kind, request.texts, base, faults);
    if (request.pace)
        ask::pace_as_distance(*request.pace, json, faults);
    json["schema"] = io::diary_schema;
    json["kind"] = to_string(kind);
    if (!request.date.empty() || !json.contains("date"))
        json["date"] = request.date.empty() ? today() : request.date;
    if (!request.note.empty())
        json["note"] = request.note;
    try {
        auto entry = io::entry_from(json, "");
        if (faults.empty())
            return entry;
    } catch (const io::InputError& error) {
        for (const auto& fault : error.faults) {
            // What could not be read is told once, not as missing too.
            const bool told = std::any_of(faults.begin(), faults.end(),
                                          [&](const io::Fault& other) { return other.file == fault.file; });
            if (!told)
                faults.push_back(fault);
        }
    }
    throw io::InputError(faults);
}

Athlete athlete_of(const EntryRequest& request, double mass_kg) {
    io::Json json = io::Json::object();
    std::vector<io::Fault> faults;
    const auto file = request.athlete_file.empty() ? standing_profile() : request.athlete_file;
    if (!file.empty())
        json = io::read_json(file);
    else
        json["mass_kg"] = mass_kg;
    const auto lay = [&](const char* option, const char* key, const std::optional<std::string>& text,
                         const std::function<io::Json(const std::string&)>& read) {
        if (!text)
            return;
        try {
            json[key] = read(*text);
        } catch (const std::invalid_argument& error) {
            faults.push_back({option, "", error.what()});
        }
    };
    lay("--height", "height_m", request.height, io::length_m);
    lay("--level", "level", request.level, [](const std::string& text) { return text; });
    io::LegTimes times;
    const std::size_t before = faults.size();
    io::Node node(json, file, "", faults);
    auto athlete = io::athlete_from(node, times);
    for (std::size_t i = before; i < faults.size(); ++i)
        if (faults[i].place == "/level" && request.level)
            under_option("--level", faults[i]);
        else if (faults[i].place == "/height_m" && request.height)
            under_option("--height", faults[i]);
    if (!faults.empty())
        throw io::InputError(faults);
    return athlete;
}

std::string today() {
    return fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
}

void tell_state(const io::DiaryFile& file, const std::string& diary) {
    tell_notes(io::notes_on(file, diary));
}

int save(const std::string& diary, const DiaryEntry& entry, const io::OnceAdded& say) {
    const auto added = io::add_to_diary(diary, {entry}, say);
    if (!added.torn_moved_to.empty())
        tell_notes({fmt::format("{}: a line was cut short by a crash; it is kept in {}", shown(diary),
                                added.torn_moved_to)});
    return added.last_id;
}

} // namespace tuck::cli
