#include "tuck/diary.hpp"
#include "cli/command.hpp"
#include "cli/entry_options.hpp"
#include "cli/race_entry.hpp"
#include "cli/request.hpp"
#include "text/diary_text.hpp"
#include "base/utf8.hpp"
#include "io/athlete_file.hpp"
#include "io/diary_file.hpp"
#include "io/files.hpp"
#include "io/outputs.hpp"
#include "io/marks_file.hpp"
#include "io/units.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>
#include <set>

namespace tuck::cli {

namespace {

using io::InputError;

const std::string& diary_of(const EntryRequest& request) {
    if (request.diary.empty())
        throw InputError("--diary", "", "is missing; give the file, such as --diary me.jsonl");
    return request.diary;
}

io::DiaryFile read(const EntryRequest& request) {
    auto diary = io::read_existing_diary(diary_of(request));
    tell_state(diary, request.diary);
    return diary;
}

int saved(const EntryRequest& request, const DiaryEntry& entry) {
    const int id = save(request.diary, entry);
    fmt::print("Saved as line {} of {}.\n", id, shown(request.diary));
    return 0;
}

void require_plausible(const DiaryEntry& entry, const EntryRequest& request) {
    const auto* test = std::get_if<SweatTest>(&entry.what);
    if (!test)
        return;
    const auto result = judge_sweat_test(athlete_of(request, test->before_kg), *test, {});
    if (!result.implausible.empty())
        throw InputError("sweat test", "", result.implausible);
}

int add_entry(EntryKind kind, const EntryRequest& request) {
    const auto base =
        request.marks.empty() ? io::Json::object() : io::rehearsal_fields(io::read_existing_marks(request.marks));
    const auto entry = entry_of(kind, request, base);
    require_plausible(entry, request);
    diary_of(request);
    return saved(request, entry);
}

int list(const EntryRequest& request) {
    fmt::print("{}", faces::diary_list_text(read(request).entries));
    return 0;
}

const DiaryEntry& find(const std::vector<DiaryEntry>& entries, int id) {
    for (const auto& entry : entries)
        if (entry.id == id)
            return entry;
    throw InputError("line", "", fmt::format("there is no line {} in this diary", id));
}

struct ShowOptions {
    EntryRequest entry;
    std::optional<int> id;
    std::optional<std::string> temperature, sport;
};

LearnFor wanted(const ShowOptions& options) {
    LearnFor out;
    try {
        if (options.temperature)
            out.temperature_c = io::temperature_c(*options.temperature);
    } catch (const std::invalid_argument& error) {
        throw InputError("--temperature", "", error.what());
    }
    if (options.sport) {
        for (const auto& [word, sport] : io::sport_words())
            if (word == *options.sport)
                out.sport = sport;
        if (!out.sport)
            throw InputError("--sport", "",
                             fmt::format("\"{}\" is not known; allowed: swim, bike, run", *options.sport));
    }
    return out;
}

int show(const ShowOptions& options) {
    const auto diary = read(options.entry);
    if (options.id) {
        fmt::print("{}\n", io::json_of(find(diary.entries, *options.id)).dump(2));
        return 0;
    }
    double mass_kg = 70;
    for (const auto& entry : diary.entries)
        if (const auto* test = std::get_if<SweatTest>(&entry.what); test && !entry.withdrawn)
            mass_kg = test->before_kg;
    const auto athlete = athlete_of(options.entry, mass_kg);
    fmt::print("{}", faces::diary_known_text(learn(diary.entries, athlete, wanted(options))));
    return 0;
}

/// The line itself, or the last correction of it.
const DiaryEntry& find_latest(const std::vector<DiaryEntry>& entries, int id) {
    const DiaryEntry* latest = &find(entries, id);
    for (const auto& entry : entries)
        if (entry.corrects == latest->id)
            latest = &entry;
    return *latest;
}

struct CorrectOptions {
    EntryRequest entry;
    int id = 0;
    bool withdraw = false;
};

int correct(const CorrectOptions& options) {
    const auto diary = read(options.entry);
    const auto& wrong = find_latest(diary.entries, options.id);
    DiaryEntry entry = wrong;
    if (options.withdraw) {
        if (!options.entry.texts.empty())
            throw InputError("--withdraw", "", "takes no other values");
        entry.withdrawn = true;
        entry.note = options.entry.note;
    } else {
        std::set<std::string> allowed;
        for (const auto& option : io::entry_options(wrong.kind()))
            allowed.insert(option.option);
        for (const auto& [option, text] : options.entry.texts)
            if (!allowed.count(option))
                throw InputError(option, "", fmt::format("is no part of a {}", to_string(wrong.kind())));
        auto base = io::json_of(wrong);
        base.erase("id");
        base.erase("corrects");
        entry = entry_of(wrong.kind(), options.entry, base);
        require_plausible(entry, options.entry);
    }
    entry.corrects = wrong.id;
    return saved(options.entry, entry);
}

struct ExportOptions {
    EntryRequest entry;
    std::string output;
    bool csv = true;
};

int export_table(const ExportOptions& options) {
    const auto text = io::diary_csv(read(options.entry).entries);
    io::Outputs outputs;
    outputs.never_over(io::files_read());
    if (options.output.empty())
        outputs.print(text);
    else
        outputs.add(options.output, text);
    outputs.commit();
    return 0;
}

int mend(const EntryRequest& request) {
    const auto& diary = diary_of(request);
    const auto count = io::mend_diary(diary);
    io::say(count == 0 ? fmt::format("Every line of {} can be read.\n", shown(diary))
                       : fmt::format("{} lines that cannot be read moved to {}; nothing else has changed.\n",
                                     count, shown(io::set_aside_name(diary))));
    return 0;
}

struct ImportOptions {
    EntryRequest entry;
    std::string from;
};

int import_lines(const ImportOptions& options) {
    const auto from = io::read_existing_diary(options.from);
    tell_state(from, options.from);
    const auto into = io::read_diary(diary_of(options.entry));
    tell_state(into, options.entry.diary);
    const auto fresh = io::unknown_entries(from.entries, into.entries);
    if (!fresh.empty())
        io::add_to_diary(options.entry.diary, fresh);
    fmt::print("{} of {} lines added to {}.\n", fresh.size(), from.entries.size(), shown(options.entry.diary));
    return 0;
}

void add_simple(CLI::App& add, const char* name, const char* help, EntryKind kind, Action& action) {
    auto request = std::make_shared<EntryRequest>();
    auto* command = add.add_subcommand(name, help);
    add_entry_options(*command, kind, *request);
    add_person_options(*command, *request);
    add_diary_options(*command, *request);
    if (kind == EntryKind::rehearsal)
        command->add_option("--marks", request->marks,
                            "file of tuck rehearse --live: fills in what it holds");
    command->callback(
        [&action, request, kind] { action = [request, kind] { return add_entry(kind, *request); }; });
}

void add_mend(CLI::App& diary, Action& action) {
    auto request = std::make_shared<EntryRequest>();
    auto* command = diary.add_subcommand("mend", "set lines aside that cannot be read");
    command->add_option("--diary", request->diary, "diary file");
    command->callback([&action, request] { action = [request] { return mend(*request); }; });
}

void add_add(CLI::App& diary, Action& action) {
    auto* add = diary.add_subcommand("add", "add what happened");
    add->require_subcommand(1);
    add_simple(*add, "sweat-test", "weighing before and after (as tuck sweat-test --save)",
               EntryKind::sweat_test, action);
    add_simple(*add, "rehearsal", "a session with race food, and how the gut took it", EntryKind::rehearsal,
               action);
    add_race_entry(*add, action);
}

void add_list(CLI::App& diary, Action& action) {
    auto request = std::make_shared<EntryRequest>();
    auto* command = diary.add_subcommand("list", "every line");
    command->add_option("--diary", request->diary, "diary file");
    command->callback([&action, request] { action = [request] { return list(*request); }; });
}

void add_show(CLI::App& diary, Action& action) {
    auto options = std::make_shared<ShowOptions>();
    auto* command = diary.add_subcommand("show", "what is known, how well, and what to test next");
    command->add_option("line", options->id, "show this line instead");
    command->add_option("--diary", options->entry.diary, "diary file");
    add_person_options(*command, options->entry);
    command->add_option("--temperature", options->temperature, "of the race: 24C");
    command->add_option("--sport", options->sport, "of the race: bike, run");
    command->callback([&action, options] { action = [options] { return show(*options); }; });
}

/// The options of all kinds; which of them fit is known when the line has been read.
void add_all_entry_options(CLI::App& command, EntryRequest& request) {
    std::set<std::string> known;
    for (const auto& [word, kind] : io::kind_words())
        for (const auto& option : io::entry_options(kind)) {
            if (!known.insert(option.option).second)
                continue;
            const auto store = [&request, name = option.option](const std::string& text) {
                request.texts[name] = text;
            };
            auto* added = command.add_option_function<std::string>(option.option, store, option.help);
            if (option.takes_no_value)
                added->expected(0, 1);
        }
}

void add_correct(CLI::App& diary, Action& action) {
    auto options = std::make_shared<CorrectOptions>();
    auto* command = diary.add_subcommand("correct", "put a line right: a new line that names it");
    command->footer("Example: tuck diary correct 7 --drank 800ml --diary me.jsonl");
    command->add_option("line", options->id, "number of the line")->required();
    add_all_entry_options(*command, options->entry);
    add_person_options(*command, options->entry);
    add_diary_options(*command, options->entry);
    command->add_flag("--withdraw", options->withdraw, "the line does not count any more");
    command->callback([&action, options] { action = [options] { return correct(*options); }; });
}

void add_export(CLI::App& diary, Action& action) {
    auto options = std::make_shared<ExportOptions>();
    auto* command = diary.add_subcommand("export", "every line as a table (CSV, RFC 4180)");
    command->add_option("--diary", options->entry.diary, "diary file");
    command->add_flag("--csv", options->csv, "the only format, and so the default");
    command->add_option("-o,--output", options->output, "write to this file");
    command->callback([&action, options] { action = [options] { return export_table(*options); }; });
}

void add_import(CLI::App& diary, Action& action) {
    auto options = std::make_shared<ImportOptions>();
    auto* command = diary.add_subcommand("import", "add the lines of another diary that this one lacks");
    command->add_option("file", options->from, "the other diary")->required();
    command->add_option("--diary", options->entry.diary, "diary file");
    command->callback([&action, options] { action = [options] { return import_lines(*options); }; });
}

} // namespace

void add_diary(CLI::App& app, Action& action) {
    auto* diary = app.add_subcommand("diary", "what happened: sweat tests, rehearsals, races");
    diary->footer("A diary is a file of lines that only grows; a correction is a new line. Plans read it:\n"
                  "  tuck plan race.json --diary me.jsonl");
    diary->require_subcommand(1);
    add_add(*diary, action);
    add_list(*diary, action);
    add_show(*diary, action);
    add_correct(*diary, action);
    add_export(*diary, action);
    add_import(*diary, action);
    add_mend(*diary, action);
}

} // namespace tuck::cli
