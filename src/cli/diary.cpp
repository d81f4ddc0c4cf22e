#include "tuck/diary.hpp"
#include "ask/entry.hpp"
#include "base/utf8.hpp"
#include "cli/command.hpp"
#include "cli/entry_options.hpp"
#include "cli/race_entry.hpp"
#include "cli/request.hpp"
#include "cli/tell.hpp"
#include "io/athlete_file.hpp"
#include "io/diary_answers.hpp"
#include "io/diary_file.hpp"
#include "io/files.hpp"
#include "io/marks_file.hpp"
#include "io/outputs.hpp"
#include "io/units.hpp"
#include "text/diary_text.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <memory>
#include <nlohmann/json.hpp>
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

int saved(const char* command, const EntryRequest& request, const DiaryEntry& entry) {
    save(request.diary, entry, [&](int line) {
        auto saved = entry;
        saved.id = line;
        io::say(request.json ? io::saved_json(command, saved)
                             : fmt::format("Saved as line {} of {}.\n", line, shown(request.diary)));
    });
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

/// The session that was lived: its marks, or what was asked for.
io::Json lived(const EntryRequest& request) {
    if (!request.marks.empty()) {
        const auto marks = io::read_existing_marks(request.marks);
        tell_notes(io::notes_on(marks, request.marks));
        return io::rehearsal_fields(marks);
    }
    return request.session.empty() ? io::Json::object() : ask::session_as_asked(request.session);
}

int add_entry(EntryKind kind, const EntryRequest& request) {
    EntryRequest typed = request;
    auto fields = lived(request);
    if (kind == EntryKind::rehearsal) {
        auto filled = ask::completed(kind, typed.texts, std::move(fields));
        tell_notes(filled.notes);
        fields = std::move(filled.fields);
    }
    const auto entry = entry_of(kind, typed, fields);
    require_plausible(entry, request);
    diary_of(request);
    return saved("add", request, entry);
}

int list(const EntryRequest& request) {
    const auto entries = read(request).entries;
    io::say(request.json ? io::diary_list_json(entries) : faces::diary_list_text(entries));
    return 0;
}

const DiaryEntry& find(const std::vector<DiaryEntry>& entries, int id) {
    for (const auto& entry : entries)
        if (entry.id == id)
            return entry;
    throw InputError("line", "", fmt::format("there is no line {} in this diary", id));
}

struct ShowDiaryOptions {
    EntryRequest entry;
    std::optional<int> id; // empty: what is known
    std::optional<std::string> temperature, sport;
};

LearnFor wanted(const ShowDiaryOptions& options) {
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

int show(const ShowDiaryOptions& options) {
    const auto diary = read(options.entry);
    if (options.id) {
        io::say(io::json_of(find(diary.entries, *options.id)).dump(2) + "\n");
        return 0;
    }
    double mass_kg = 70;
    for (const auto& entry : diary.entries)
        if (const auto* test = std::get_if<SweatTest>(&entry.what); test && !entry.withdrawn)
            mass_kg = test->before_kg;
    const auto athlete = athlete_of(options.entry, mass_kg);
    const auto learned = learn(diary.entries, athlete, wanted(options));
    io::say(options.entry.json ? io::learned_json(learned) : faces::diary_known_text(learned));
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
    std::optional<int> id; // always given
    bool withdraw = false;
};

int correct(const CorrectOptions& options) {
    const auto diary = read(options.entry);
    const auto& wrong = find_latest(diary.entries, options.id.value());
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
    return saved("correct", options.entry, entry);
}

struct ExportOptions {
    EntryRequest entry;
    std::string output;
    bool csv = true;
};

int export_table(const ExportOptions& options) {
    const auto entries = read(options.entry).entries;
    const auto text = options.entry.json ? io::diary_list_json(entries) : io::diary_csv(entries);
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
    if (request.json) {
        io::say(io::counted_json("mend", count, count));
        return 0;
    }
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
    io::say(options.entry.json ? io::counted_json("import", fresh.size(), from.entries.size())
                               : fmt::format("{} of {} lines added to {}.\n", fresh.size(),
                                             from.entries.size(), shown(options.entry.diary)));
    return 0;
}

Option json_option(EntryRequest& request) {
    return {"--json", &request.json, "as JSON (see the schemas)"};
}

Command add_entry_command(const char* name, const char* help, EntryKind kind) {
    auto o = std::make_shared<EntryRequest>();
    Command command{
        .name = name,
        .help = help,
        .options = entry_option_table(kind, *o) + person_options(*o) + diary_options(*o),
        .run = [o, kind] { return add_entry(kind, *o); },
    };
    command.options.push_back(json_option(*o));
    if (kind == EntryKind::rehearsal) {
        command.options.insert(command.options.begin(),
                               {.name = "session",
                                .target = &o->session,
                                .help = "what was asked: made by tuck rehearse ... --json",
                                .kind = "SESSION.json"});
        command.options.push_back(
            {"--marks", &o->marks, "file of tuck rehearse --live: fills in what it holds", "FILE.jsonl"});
        command.footer =
            "Food and drink that you do not say are as planned, by the feeds that were taken.\n"
            "Example: tuck rehearse race.json --json > sunday.json, and afterwards\n"
            "  tuck diary add rehearsal sunday.json --taken all --bike-gut nausea=1 --run-gut nausea=2\n"
            "    --diary me.jsonl";
    }
    return command;
}

Option diary_option(EntryRequest& request) {
    return {"--diary", &request.diary, "diary file", "FILE.jsonl"};
}

Command list_entries_command() {
    auto o = std::make_shared<EntryRequest>();
    return {.name = "list", .help = "every line", .options = {diary_option(*o), json_option(*o)}, .run = [o] {
                return list(*o);
            }};
}

Command mend_command() {
    auto o = std::make_shared<EntryRequest>();
    return {.name = "mend",
            .help = "set lines aside that cannot be read",
            .options = {diary_option(*o), json_option(*o)},
            .run = [o] { return mend(*o); }};
}

Command show_diary_command() {
    auto o = std::make_shared<ShowDiaryOptions>();
    return {
        .name = "show",
        .help = "what is known, how well, and what to test next",
        .options = OptionTable{{"line", &o->id, "show this line instead", "NUMBER"}, diary_option(o->entry)} +
                   person_options(o->entry) +
                   OptionTable{{"--temperature", &o->temperature, "of the race: 24C", "TEMPERATURE"},
                               {"--sport", &o->sport, "of the race: bike, run", "SPORT"},
                               json_option(o->entry)},
        .run = [o] { return show(*o); },
    };
}

/// The options of all kinds; which of them fit is known when the line has been read.
OptionTable all_entry_options(EntryRequest& request) {
    OptionTable out;
    for (const auto& [word, kind] : io::kind_words())
        for (const auto& option : entry_option_table(kind, request))
            if (std::none_of(out.begin(), out.end(), [&](const Option& o) { return o.name == option.name; }))
                out.push_back(option);
    return out;
}

Command correct_command() {
    auto o = std::make_shared<CorrectOptions>();
    return {
        .name = "correct",
        .help = "put a line right: a new line that names it",
        .footer = "Example: tuck diary correct 7 --drank 800ml --diary me.jsonl",
        .options = OptionTable{{.name = "line",
                                .target = &o->id,
                                .help = "number of the line",
                                .kind = "NUMBER",
                                .required = true}} +
                   all_entry_options(o->entry) + person_options(o->entry) + diary_options(o->entry) +
                   OptionTable{{"--withdraw", &o->withdraw, "the line does not count any more"},
                               json_option(o->entry)},
        .run = [o] { return correct(*o); },
    };
}

Command export_command() {
    auto o = std::make_shared<ExportOptions>();
    return {
        .name = "export",
        .help = "every line as a table (CSV, RFC 4180), or as JSON",
        .options = {diary_option(o->entry),
                    {"--csv", &o->csv, "a table, the default"},
                    {"--json", &o->entry.json, "as JSON, every line whole (tuck.diary-answer/1)"},
                    {"-o,--output", &o->output, "write to this file", "FILE"}},
        .run = [o] { return export_table(*o); },
    };
}

Command import_command() {
    auto o = std::make_shared<ImportOptions>();
    return {
        .name = "import",
        .help = "add the lines of another diary that this one lacks",
        .options = {{.name = "file",
                     .target = &o->from,
                     .help = "the other diary",
                     .kind = "FILE.jsonl",
                     .required = true},
                    diary_option(o->entry),
                    json_option(o->entry)},
        .run = [o] { return import_lines(*o); },
    };
}

} // namespace

Command diary_command() {
    return {
        .name = "diary",
        .help = "what happened: sweat tests, rehearsals, races",
        .footer = "A diary is a file of lines that only grows; a correction is a new line. Plans read it:\n"
                  "  tuck plan race.json --diary me.jsonl",
        .commands =
            {
                {
                    .name = "add",
                    .help = "add what happened",
                    .commands = {add_entry_command("sweat-test",
                                                   "weighing before and after (as tuck sweat-test --save)",
                                                   EntryKind::sweat_test),
                                 add_entry_command("rehearsal",
                                                   "a session with race food, and how the gut took it",
                                                   EntryKind::rehearsal),
                                 race_entry_command()},
                },
                list_entries_command(),
                show_diary_command(),
                correct_command(),
                export_command(),
                import_command(),
                mend_command(),
            },
    };
}

} // namespace tuck::cli
