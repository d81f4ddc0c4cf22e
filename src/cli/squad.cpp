// A whole squad: one roster, one event, cards and a list of who is at risk.
#include "ask/one_rhythm.hpp"
#include "base/utf8.hpp"
#include "card/card_text.hpp"
#include "cli/card_options.hpp"
#include "cli/command.hpp"
#include "cli/ordered.hpp"
#include "cli/request.hpp"
#include "cli/squad_faults.hpp"
#include "cli/squad_files.hpp"
#include "cli/stop_signals.hpp"
#include "cli/tell.hpp"
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

constexpr std::size_t cards_in_a_volume = 500, sheets_in_a_volume = 100, rows_ahead = 64;

struct Options {
    std::string roster, event, out, ndjson, foods;
    std::vector<std::string> own_foods;
    CardWords card;
    bool sheets = false, with_private = false, own_rhythms = false, empty_roster = false;
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

/// One row, worked out: either faults, or everything that will be written of it.
struct Done {
    std::uint64_t row = 0;
    std::vector<io::Fault> faults;
    bool refused = false;
    std::string bib, name, card_text, ndjson;
    faces::SquadRisk risk;
    std::vector<std::string> line;
    std::shared_ptr<const faces::CardSheets::Prepared> card;
    std::vector<faces::pdf::Page> sheet;
};

Common read_common(const Options& options) {
    Common common{io::load_event(options.event),
                  io::load_pantry(io::pantry_folder(options.foods)),
                  card_options_of(options.card),
                  {}};
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

void work_out(const io::EventInput& input, const Common& common, const Options& options,
              const faces::Fonts& fonts, Done& done) {
    const Plan plan = options.own_rhythms ? compose_plan(input.athlete, input.event, common.pantry)
                                          : ask::on_one_rhythm(input.athlete, input.event, common.pantry);
    done.bib = plan.bib;
    done.name = plan.athlete_name;
    done.refused = plan.refused;
    done.risk = faces::squad_risk(plan);
    done.line = faces::squad_line(done.row, input.athlete, plan, options.with_private);
    if (!options.ndjson.empty())
        done.ndjson = faces::plan_json_line(plan);
    if (plan.refused || options.out.empty())
        return;
    done.card_text = faces::card_text(plan);
    done.card = faces::CardSheets::prepare(plan, common.card, fonts);
    if (!options.sheets)
        return;
    std::optional<Plan> no_swim;
    if (const auto other = without_swim(input.event))
        no_swim = compose_plan(input.athlete, *other, common.pantry);
    done.sheet = faces::sheet_pages(faces::sheet_content(plan, no_swim ? &*no_swim : nullptr),
                                    {common.card.paper, ""}, fonts);
}

/// The files of the folder, filled in the order of the rows.
class Folder {
public:
    Folder(const SquadFolder& folder, io::Outputs& outputs, const Options& options, const Common& common)
        : folder_(folder), outputs_(outputs), summary_(folder, outputs, options.with_private),
          changes_(folder, outputs), bad_(folder.open(outputs, "bad-rows.csv")), cards_(common.card),
          changed_cards_(common.card) {
        bad_.write(io::csv_line({"where", "what"}));
    }

    void add_faults(const std::vector<io::Fault>& faults) {
        for (const auto& fault : io::first_of(faults))
            bad_.write(
                io::csv_line({shown(fault.place.empty() ? fault.file : fault.file + ": " + fault.place),
                              shown(words_of(fault))}));
    }

    void add(const Done& done) {
        summary_.add(done.risk, done.line);
        if (!done.card)
            return;
        if (changes_.add(done.row, done.bib, done.name, done.card_text))
            changed_cards_.add(*done.card);
        if (changed_cards_.cards() == cards_in_a_volume)
            write_changed();
        cards_.add(*done.card);
        if (cards_.cards() == cards_in_a_volume)
            write_cards();
        if (!done.sheet.empty())
            add_sheet(done.sheet);
    }

    void finish() {
        write_cards();
        write_changed();
        write_sheets();
        summary_.finish();
        changed_ = changes_.finish();
    }

    /// Once the new ones stand in their places.
    void remove_old_volumes() const {
        remove_later_volumes(folder_, "cards", card_volumes_);
        remove_later_volumes(folder_, "changed", changed_volumes_);
        remove_later_volumes(folder_, "sheets", sheet_volumes_);
    }

    unsigned card_volumes() const { return card_volumes_; }
    std::uint64_t changed() const { return changed_; }
    std::uint64_t alike() const { return changes_.alike(); }

private:
    void write_volume(const char* kind, unsigned number, const std::string& bytes) {
        auto& file = folder_.open(outputs_, fmt::format("{}-{:03}.pdf", kind, number));
        file.write(bytes);
        file.finish(); // there may be more of them than a process may hold open
    }

    void write_cards() {
        if (cards_.cards() > 0)
            write_volume("cards", ++card_volumes_, cards_.finish());
    }

    /// The cards alone that must be printed anew.
    void write_changed() {
        if (changed_cards_.cards() > 0)
            write_volume("changed", ++changed_volumes_, changed_cards_.finish());
    }

    void add_sheet(const std::vector<faces::pdf::Page>& pages) {
        if (!sheets_)
            sheets_ = std::make_unique<faces::pdf::Writer>(
                "Sheets", "Each sheet is one athlete's plan for one day, not medical advice", fonts_);
        for (const auto& page : pages)
            sheets_->add(page);
        if (++sheets_held_ == sheets_in_a_volume)
            write_sheets();
    }

    void write_sheets() {
        if (!sheets_)
            return;
        write_volume("sheets", ++sheet_volumes_, sheets_->finish());
        sheets_.reset();
        sheets_held_ = 0;
    }

    const SquadFolder& folder_;
    io::Outputs& outputs_;
    Summary summary_;
    Changes changes_;
    io::NewFile& bad_;
    faces::Fonts fonts_;
    faces::CardSheets cards_, changed_cards_;
    std::unique_ptr<faces::pdf::Writer> sheets_;
    std::size_t sheets_held_ = 0;
    unsigned card_volumes_ = 0, changed_volumes_ = 0, sheet_volumes_ = 0;
    std::uint64_t changed_ = 0;
};

/// A line on a terminal that tells how far the work has come; silent elsewhere.
class Progress {
public:
    explicit Progress(const io::Roster& roster) : roster_(roster), on_(::isatty(STDERR_FILENO) == 1) {}
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

/// NDJSON to a file or to standard output.
class Plans {
public:
    Plans(const std::string& target, io::Outputs& outputs) : to_stdout_(target == "-") {
        if (!target.empty() && !to_stdout_)
            file_ = &outputs.open(target);
    }
    void add(const std::string& line) {
        if (file_)
            file_->write(line);
        else if (to_stdout_)
            io::say(line);
    }

private:
    bool to_stdout_;
    io::NewFile* file_ = nullptr;
};

/// Thrown to end the work in good order.
struct Stopped {};

struct Counts {
    std::uint64_t rows = 0, bad = 0, refused = 0;
};

std::function<Done(io::RosterRow&)> worker(const io::Roster& roster, const Common& common,
                                           const Options& options) {
    // Its own fonts: libharu's documents are not for sharing.
    auto fonts = std::make_shared<const faces::Fonts>();
    return [&, fonts](io::RosterRow& row) {
        Done done;
        done.row = row.row;
        try {
            auto input = roster.input(common.event, row);
            if (options.card.simpler)
                limit_lines(common.limits, input.event);
            io::check_foods(input, common.pantry);
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

unsigned threads_of(const Options& options) {
    constexpr int most = 256;
    if (!options.threads)
        return std::max(1u, std::thread::hardware_concurrency());
    if (*options.threads < 1 || *options.threads > most)
        throw io::InputError("--threads", "",
                             fmt::format("{} is out of range; allowed 1 to {}", *options.threads, most));
    return static_cast<unsigned>(*options.threads);
}

Counts go_through(io::Roster& roster, const Common& common, const Options& options, Folder* folder,
                  Plans& plans) {
    Counts counts;
    FaultKinds faults;
    auto progress = std::make_optional<Progress>(roster);
    std::vector<std::function<Done(io::RosterRow&)>> workers;
    for (unsigned i = threads_of(options); i > 0; --i)
        workers.push_back(worker(roster, common, options));
    in_order<io::RosterRow, Done>(
        rows_ahead, workers, [&](io::RosterRow& row) { return roster.next(row); },
        [&](Done& done) {
            if (StopSignals::asked())
                throw Stopped();
            ++counts.rows;
            if (!done.faults.empty()) {
                ++counts.bad;
                faults.add(done.row, done.faults);
                if (folder)
                    folder->add_faults(done.faults);
            } else {
                counts.refused += done.refused ? 1 : 0;
                plans.add(done.ndjson);
                if (folder)
                    folder->add(done);
            }
            progress->show(counts.rows);
        });
    progress.reset();
    for (const auto& line : faults.lines())
        fmt::print(stderr, "tuck: {}\n", line);
    tell_notes(roster.notes());
    if (counts.rows == 0)
        throw io::InputError(options.roster, "", "has a header and no athlete below it");
    return counts;
}

void tell_alike(std::uint64_t alike) {
    if (alike > 0)
        fmt::print(
            stderr,
            "tuck: no_bib: {} rows have neither bib nor name of their own; changed.csv tells them apart "
            "by their order: give each a bib\n",
            alike);
}

int make(const Options& options) {
    const Common common = read_common(options);
    io::Roster roster(options.roster);
    std::optional<SquadFolder> place;
    if (!options.out.empty())
        place.emplace(options.out);
    io::Outputs outputs;
    outputs.never_over(io::files_read());
    outputs.never_over({options.roster});
    std::optional<Folder> folder;
    if (place)
        folder.emplace(*place, outputs, options, common);
    Plans plans(options.ndjson, outputs);
    const Counts counts = go_through(roster, common, options, folder ? &*folder : nullptr, plans);
    if (StopSignals::asked())
        throw Stopped();
    if (folder)
        folder->finish();
    const auto words = fmt::format(
        "{} athletes, {} bad rows, {} refused{}\n", counts.rows, counts.bad, counts.refused,
        folder ? fmt::format(", volumes of cards: {}, cards changed since the last run: {}, in {}",
                             folder->card_volumes(), folder->changed(), options.out)
               : "");
    if (options.ndjson != "-")
        outputs.print(words);
    outputs.commit();
    if (options.ndjson == "-")
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

int run(const Options& options) {
    if (options.empty_roster)
        return write_template();
    for (const auto& [word, file] : {std::pair{"roster", &options.roster}, {"event", &options.event}})
        if (file->empty())
            throw io::InputError(word, "", "is missing; tuck squad ROSTER.csv EVENT.json, or --template");
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
    auto o = std::make_shared<Options>();
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
                {"--out", &o->out, "folder for cards, summary.csv, changed.csv and .pdf, bad-rows.csv",
                 "FOLDER"},
                {"--ndjson", &o->ndjson, "all plans, one JSON a line, to a file (- for standard output)",
                 "FILE"},
                {"--template", &o->empty_roster, "an empty roster with its explanations, to standard output"},
                {"--sheets", &o->sheets, "the sheets too (two or four pages each)"},
                {"--private", &o->with_private, "body mass and health in summary.csv"},
                {"--own-rhythms", &o->own_rhythms,
                 "everybody's own best rhythm; else all feed every 15 min on the bike (10 on up to 25 km), "
                 "where "
                 "that costs an athlete no more than 5 % of the carbohydrate"},
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
