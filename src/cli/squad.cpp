// A whole squad: one roster, one event, cards and a list of who is at risk.
#include "ask/odd.hpp"
#include "ask/one_rhythm.hpp"
#include "base/utf8.hpp"
#include "card/card_text.hpp"
#include "cli/card_options.hpp"
#include "cli/command.hpp"
#include "cli/ordered.hpp"
#include "cli/request.hpp"
#include "cli/squad_faults.hpp"
#include "cli/squad_files.hpp"
#include "cli/squad_output.hpp"
#include "cli/stop_signals.hpp"
#include "cli/tell.hpp"
#include "cli/written.hpp"
#include "io/csv.hpp"
#include "io/event_document.hpp"
#include "io/files.hpp"
#include "io/input_options.hpp"
#include "io/outputs.hpp"
#include "io/pantry.hpp"
#include "io/roster.hpp"
#include "sheet/sheet.hpp"
#include "text/plan_json.hpp"
#include "tuck/compose.hpp"
#include "tuck/own_fault.hpp"

#include <chrono>
#include <cmath>
#include <fmt/format.h>
#include <memory>
#include <new>
#include <stdexcept>
#include <unistd.h>

namespace tuck::cli {

namespace {

constexpr std::size_t rows_ahead = 64;

struct SquadOptions {
    std::string roster, event, out, ndjson, foods, columns;
    std::vector<std::string> own_foods;
    CardWords card;
    bool sheets = false, with_private = false, own_rhythms = false, empty_roster = false, no_kitchen = false,
         json = false;
    std::optional<int> days;
    std::optional<int> threads; // as many as the machine has
};

/// What every row needs, read once.
struct Common {
    io::EventDocument event;
    Pantry pantry;
    faces::CardOptions card;
    CardLimits limits;
};

Common read_common(const SquadOptions& options) {
    Common common{io::load_event(options.event),
                  io::load_pantry(io::pantry_folder(options.foods)),
                  card_options_of(options.card),
                  {}};
    tell_notes(notes_on(common.card));
    common.limits = limits_of(common.card);
    for (const auto& path : options.own_foods)
        io::add_foods(common.pantry, path);
    common.event.json.erase("athlete");
    if (options.days)
        common.event.json["days"] = *options.days;
    // Faults of the event itself are told once, and not with every row.
    auto event = io::read_event(common.event);
    io::check_foods(event, common.pantry);
    return common;
}

void work_out(const io::EventInput& input, const Common& common, const SquadOptions& options,
              const faces::Fonts& fonts, SquadRow& done) {
    const Plan plan = options.own_rhythms ? compose_plan(input.athlete, input.event, common.pantry)
                                          : ask::on_one_rhythm(input.athlete, input.event, common.pantry);
    done.bib = plan.bib;
    done.name = plan.athlete_name;
    done.refused = plan.refused;
    done.risk = faces::squad_risk(plan);
    done.line = faces::squad_line(done.row, input.athlete, plan, options.with_private);
    done.line.insert(done.line.end(), done.unused.begin(), done.unused.end());
    if (!options.ndjson.empty())
        done.ndjson = faces::plan_json_line(plan);
    if (plan.refused || options.out.empty())
        return;
    done.card_text = faces::card_text(plan);
    if (!options.no_kitchen)
        done.kitchen = faces::kitchen_share(plan);
    done.card = faces::CardSheets::prepare(plan, common.card, fonts);
    if (!options.sheets)
        return;
    std::optional<Plan> no_swim;
    if (const auto other = without_swim(input.event))
        no_swim = compose_plan(input.athlete, *other, common.pantry);
    done.sheet = faces::sheet_pages(faces::sheet_content(plan, no_swim ? &*no_swim : nullptr),
                                    {common.card.paper, ""}, fonts);
}

/// A line on a terminal that tells how far the work has come; silent elsewhere.
class Progress {
public:
    explicit Progress(const io::Roster& roster)
        : roster_(roster), on_(::isatty(STDERR_FILENO) == 1 && !quiet()) {}
    ~Progress() {
        if (shown_)
            fmt::print(stderr, "\r{:<70}\r", "");
    }

    void show(std::uint64_t done) {
        const auto now = Clock::now();
        if (!on_ || now - last_ < std::chrono::milliseconds(250))
            return;
        last_ = now;
        shown_ = true;
        const double seconds = std::chrono::duration<double>(now - begun_).count();
        const double share = roster_.progress();
        std::string line =
            fmt::format("{} athletes, {:.0f} a second", done, static_cast<double>(done) / seconds);
        if (share > 0.001) {
            const long left = std::lround(seconds * (1 - share) / share);
            line += fmt::format(", about {}:{:02} left", left / 60, left % 60);
        }
        fmt::print(stderr, "\r{:<70}", line);
        std::fflush(stderr);
    }

private:
    using Clock = std::chrono::steady_clock;
    const io::Roster& roster_;
    bool on_, shown_ = false;
    Clock::time_point begun_ = Clock::now(), last_ = begun_;
};

/// Thrown to end the work in good order.
struct Stopped {};

struct Counts {
    std::uint64_t rows = 0, bad = 0, refused = 0;
};

std::function<SquadRow(io::RosterRow&)> worker(const io::Roster& roster, const Common& common,
                                               const SquadOptions& options) {
    // Its own fonts: libharu's documents are not for sharing.
    auto fonts = std::make_shared<const faces::Fonts>();
    return [&, fonts](io::RosterRow& row) {
        SquadRow done;
        done.row = row.row;
        done.unused = roster.unused_cells(row);
        try {
            auto input = roster.input(common.event, row);
            if (options.card.simpler)
                limit_lines(common.limits, input.event);
            io::check_foods(input, common.pantry);
            for (const auto& note : ask::odd_notes(input.athlete, input.event))
                done.notes.push_back({fmt::format("{}: row {}", options.roster, row.row), "", note});
            work_out(input, common, options, *fonts, done);
        } catch (const io::InputError& error) {
            done.faults = error.faults;
        } catch (const std::bad_alloc&) {
            done.faults = {
                {fmt::format("{}: row {}", options.roster, row.row), "", "not enough memory for it"}};
        } catch (const OwnFault& error) {
            done.faults = {{fmt::format("{}: row {}", options.roster, row.row), "",
                            fmt::format("our fault, not yours: {}; please report it", error.what())}};
        } catch (const std::exception& error) {
            done.faults = {{fmt::format("{}: row {}", options.roster, row.row), "", error.what()}};
        }
        return done;
    };
}

unsigned threads_of(const SquadOptions& options) {
    constexpr int most = 256;
    if (!options.threads)
        return std::max(1u, std::thread::hardware_concurrency());
    if (*options.threads < 1 || *options.threads > most)
        throw io::InputError("--threads", "",
                             fmt::format("{} is out of range; allowed 1 to {}", *options.threads, most));
    return static_cast<unsigned>(*options.threads);
}

Counts go_through(io::Roster& roster, const Common& common, const SquadOptions& options, SquadOutput* folder,
                  SquadPlans& plans) {
    Counts counts;
    FaultKinds faults, odd;
    TwiceTold twice;
    auto progress = std::make_optional<Progress>(roster);
    std::vector<std::function<SquadRow(io::RosterRow&)>> workers;
    for (unsigned i = threads_of(options); i > 0; --i)
        workers.push_back(worker(roster, common, options));
    in_order<io::RosterRow, SquadRow>(
        rows_ahead, workers, [&](io::RosterRow& row) { return roster.next(row); },
        [&](SquadRow& done) {
            if (StopSignals::asked())
                throw Stopped();
            ++counts.rows;
            odd.add(done.row, done.notes);
            if (!done.faults.empty()) {
                ++counts.bad;
                faults.add(done.row, done.faults);
                if (folder)
                    folder->add_faults(done.faults);
            } else {
                counts.refused += done.refused ? 1 : 0;
                const auto place = folder ? folder->add(done) : SquadPlace{};
                plans.add(done, place);
                twice.add(done.row, done.bib, done.name);
            }
            progress->show(counts.rows);
        });
    progress.reset();
    for (const auto& line : faults.lines())
        fmt::print(stderr, "tuck: {}\n", line);
    tell_notes(roster.notes());
    tell_notes(odd.lines());
    tell_notes(twice.notes(options.roster));
    if (counts.rows == 0)
        throw io::InputError(options.roster, "", "has a header and no athlete below it");
    return counts;
}

void tell_alike(std::uint64_t alike) {
    if (alike > 0)
        tell_notes({fmt::format("no_bib: {} rows have neither bib nor name of their own; changed.csv tells "
                                "them apart by their order: give each a bib",
                                alike)});
}

std::string counts_json(const SquadOptions& options, const Counts& counts, const SquadOutput* folder) {
    nlohmann::ordered_json more{
        {"athletes", counts.rows}, {"bad_rows", counts.bad}, {"refused", counts.refused}};
    std::vector<std::string> files;
    if (folder) {
        more["cards_changed"] = folder->changed();
        for (const auto& name : folder->files())
            files.push_back(options.out + "/" + name);
    }
    if (!options.ndjson.empty())
        files.push_back(options.ndjson);
    return written_json("squad", files, more);
}

int make(const SquadOptions& options) {
    const Common common = read_common(options);
    io::Roster roster(options.roster,
                      options.columns.empty() ? io::OwnHeaders{} : io::read_own_headers(options.columns));
    std::optional<SquadFolder> place;
    if (!options.out.empty())
        place.emplace(options.out);
    io::Outputs outputs;
    outputs.never_over(io::files_read());
    outputs.never_over({options.roster});
    std::optional<SquadOutput> folder;
    if (place) {
        auto heads = faces::squad_heads(options.with_private);
        heads.insert(heads.end(), roster.unused().begin(), roster.unused().end());
        folder.emplace(*place, outputs, heads, common.card);
    }
    SquadPlans plans(options.ndjson, options.roster != "-", outputs);
    const Counts counts = go_through(roster, common, options, folder ? &*folder : nullptr, plans);
    if (StopSignals::asked())
        throw Stopped();
    if (folder)
        folder->finish();
    const auto words =
        fmt::format("{} athletes, {} bad rows, {} refused{}\n", counts.rows, counts.bad, counts.refused,
                    folder ? fmt::format(", files of cards: {}, cards changed since the last run: {}, in {}",
                                         folder->card_volumes(), folder->changed(), options.out)
                           : "");
    if (options.json)
        outputs.print(counts_json(options, counts, folder ? &*folder : nullptr));
    else if (options.ndjson != "-")
        outputs.print(words);
    outputs.commit();
    if (options.ndjson == "-" && !quiet())
        fmt::print(stderr, "{}", words);
    if (folder) {
        folder->remove_old_volumes();
        tell_alike(folder->alike());
    }
    return counts.bad > 0 ? 2 : counts.refused > 0 ? 1 : 0;
}

/// The columns, and under each what it holds.
int write_template() {
    std::vector<std::string> names, words;
    for (const auto& column : io::roster_columns()) {
        names.push_back(column.name);
        words.push_back((words.empty() ? "# " : "") + column.help);
    }
    io::say(io::csv_line(names) + io::csv_line(words));
    return 0;
}

int run(const SquadOptions& options) {
    if (options.empty_roster)
        return write_template();
    for (const auto& [word, file] : {std::pair{"roster", &options.roster}, {"event", &options.event}})
        if (file->empty())
            throw io::InputError(word, "", "is missing; tuck squad ROSTER.csv EVENT.json, or --template");
    if (options.json && options.ndjson == "-")
        throw io::InputError("--json", "", "and --ndjson - cannot both have standard output");
    if (options.out == "-")
        throw io::InputError("--out", "", "is a folder; standard output takes the plans: --ndjson -");
    if (options.out.empty() && options.ndjson.empty())
        throw io::InputError("--out", "", "is missing; a folder for the cards, or --ndjson for plans alone");
    StopSignals signals;
    try {
        return make(options);
    } catch (const Stopped&) {
        fmt::print(stderr, "tuck: stopped; nothing was written\n");
        signals.die_of_it();
        throw;
    }
}

} // namespace

Command squad_command() {
    auto o = std::make_shared<SquadOptions>();
    return {
        .name = "squad",
        .help = "cards for a whole roster, and who is at risk",
        .footer = "Example: tuck squad squad.csv event.json --out cards\n"
                  "Exit codes: 0 done; 1 a plan was refused; 2 a row was bad (the others are done).",
        .options =
            OptionTable{
                {.name = "roster",
                 .target = &o->roster,
                 .help = "roster (a table with a header, as a spreadsheet saves it; - for standard input)",
                 .kind = "ROSTER.csv"},
                {.name = "event", .target = &o->event, .help = "event file (JSON)", .kind = "EVENT.json"},
                {"--out", &o->out,
                 "folder for cards, kitchen, summary.csv, changed.csv and .pdf, bad-rows.csv", "FOLDER"},
                {"--ndjson", &o->ndjson, "all plans, one JSON a line, to a file (- for standard output)",
                 "FILE"},
                {"--json", &o->json, "what was written and how many as JSON (tuck.written/1)"},
                {"--template", &o->empty_roster, "an empty roster with its explanations, to standard output"},
                {"--columns", &o->columns, "what your own headers mean: lines such as Startnr = bib", "FILE"},
                {"--no-kitchen", &o->no_kitchen, "no shopping, mixing and labels for all (kitchen-001.pdf)"},
                {"--sheets", &o->sheets, "the sheets too (two or four pages each)"},
                {"--private", &o->with_private, "body mass and health in summary.csv"},
                {"--own-rhythms", &o->own_rhythms,
                 "everybody's own best rhythm; else all feed every 15 min on the bike (10 on up to 25 km), "
                 "where that costs an athlete no more than 5 % of the carbohydrate"},
                {"--days", &o->days, "simulated race days for each athlete", "NUMBER"},
                {"--threads", &o->threads, "how many at a time, 1 to 256", "NUMBER"},
                {"--foods", &o->foods, "folder of the pantry", "FOLDER"},
                {"--own-foods", &o->own_foods, "file of your own foods", "FILE.json"},
            } +
            card_option_table(o->card),
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
