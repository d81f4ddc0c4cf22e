#include "card/card.hpp"
#include "cli/command.hpp"
#include "cli/live.hpp"
#include "cli/request_options.hpp"
#include "cli/tell.hpp"
#include "io/files.hpp"
#include "io/ical.hpp"
#include "io/outputs.hpp"
#include "io/units.hpp"
#include "say/line_words.hpp"
#include "sheet/rehearsal_sheet.hpp"
#include "text/plan_text.hpp"
#include "text/rehearsal_text.hpp"
#include "tuck/rehearsal.hpp"

#include <cmath>
#include <fmt/format.h>
#include <memory>

namespace tuck::cli {

namespace {

using io::InputError;

struct Options {
    Request request;
    std::optional<std::string> ride, run, weeks, race_date;
    std::string pdf, ical, marks;
    bool live = false;
};

constexpr int usual_start_min = 8 * 60;
constexpr int fewest_weeks = 2, most_weeks = 26;

/// The value of an option, read; its fault carries the option's name.
template <typename Read>
auto value_of(const char* option, const std::optional<std::string>& text, Read read)
    -> std::optional<decltype(read(*text))> {
    if (!text)
        return std::nullopt;
    try {
        return read(*text);
    } catch (const std::invalid_argument& error) {
        throw InputError(option, "", error.what());
    }
}

std::vector<io::CalendarEvent> calendar_of(const RehearsalSeries& series, const Event& session,
                                           double minutes) {
    std::vector<io::CalendarEvent> out;
    for (const auto& day : series.days)
        out.push_back(
            {day.date, session.start_min.value_or(usual_start_min), static_cast<int>(std::lround(minutes)),
             day.as_the_race ? "Rehearsal, as the race" : "Rehearsal",
             day.text + "\nThirst first; nothing new after this. Log it: tuck diary add rehearsal."});
    return out;
}

/// The series, to be printed and written; nothing when it was not asked for.
void add_series(const Options& options, const Rehearsal& rehearsal, const Learned& learned,
                const std::optional<std::string>& event_date, double minutes, io::Outputs& outputs) {
    if (!options.weeks && options.ical.empty())
        return;
    const auto weeks = value_of("--weeks", options.weeks, io::whole_number).value_or(6);
    if (weeks < fewest_weeks || weeks > most_weeks)
        throw InputError(
            "--weeks", "",
            fmt::format("{} is out of range; allowed {} to {}", weeks, fewest_weeks, most_weeks));
    const auto typed = value_of("--race-date", options.race_date, io::calendar_date);
    const auto date = typed ? typed : event_date;
    if (!date)
        throw InputError("--race-date", "", "is missing; give the day of the race, such as 2027-06-13");
    const auto series = rehearsal_series(rehearsal, learned, weeks, *date);
    if (!options.ical.empty())
        outputs.add(options.ical, io::calendar(rehearsal.event.name + " " + *date,
                                               calendar_of(series, rehearsal.event, minutes)));
    outputs.print(faces::series_text(series) + "\n");
}

io::Marks session_of(const Plan& plan, const RehearsalAsk& ask) {
    io::Marks session;
    session.plan = plan.version;
    session.bike_min = ask.ride_min;
    session.run_min = ask.run_min;
    for (const auto& duration : plan.durations)
        if (duration.leg != LegKind::run)
            session.run_at_s += duration.time.p50_s;
    for (const PlanFeed& feed : plan.feeds)
        session.feeds.push_back({feed.leg, feed.at_s, say::feed(feed), feed.carb_g, feed.fluid_ml});
    return session;
}

/// The card, then the log.
std::string rehearsal_paper(const Plan& plan) {
    const auto layouts = faces::card_layouts(plan, {});
    std::vector<faces::pdf::Page> pages;
    for (const auto& layout : layouts)
        pages.push_back(faces::page_of(layout));
    return faces::rehearsal_pdf(plan, layouts.at(0).title, std::move(pages));
}

int run(const Options& options) {
    const auto answer = rehearse(ask_of(options.request), {options.ride, options.run});
    const auto& [race, ask, rehearsal, planned] = answer;
    tell_notes(race.notes);
    tell_warnings(rehearsal.warnings);
    if (!planned)
        return 1;
    const Plan& plan = *planned;
    if (options.live && !plan.refused)
        return run_live(options.marks.empty() ? "marks.jsonl" : options.marks, session_of(plan, ask));
    io::Outputs outputs;
    outputs.never_over(io::files_read());
    if (!options.pdf.empty() && !plan.refused)
        outputs.add(options.pdf, rehearsal_paper(plan));
    add_series(options, rehearsal, race.learned, race.event.date, ask.ride_min + ask.run_min, outputs);
    outputs.print(faces::rehearsal_text(rehearsal) + "\n" + faces::plan_text(plan));
    outputs.commit();
    return plan.refused ? 1 : 0;
}

} // namespace

Command rehearse_command() {
    auto o = std::make_shared<Options>();
    return {
        .name = "rehearse",
        .help = "a session that rehearses the race, and its log sheet",
        .footer = "Beside an event file, --temperature, --humidity, --date and --start are the session's.\n"
                  "Examples: tuck rehearse race.json --ride 150min --run 20min --temperature 18C -o log.pdf\n"
                  "          tuck rehearse race.json --weeks 6 --ical rehearsals.ics --diary me.jsonl\n"
                  "          tuck rehearse race.json --live --marks today.jsonl",
        .options =
            request_options(o->request) +
            OptionTable{
                {"--ride", &o->ride, "length of the ride: 150min (the default), 0min for none", "TIME"},
                {"--run", &o->run, "length of the run after it: 20min (the default), 0min for none", "TIME"},
                {"-o,--output", &o->pdf, "also write card and log sheet (PDF)", "FILE.pdf"},
                {"--weeks", &o->weeks, "rehearsals over so many weeks until the race, 2 to 26", "NUMBER"},
                {"--race-date", &o->race_date, "2027-06-13 (the event's if not given)", "DATE"},
                {"--ical", &o->ical, "also write them as a calendar (iCalendar)", "FILE.ics"},
                {"--live", &o->live, "a clock with the next feed; one key for each mark"},
                {"--marks", &o->marks, "file of the marks (marks.jsonl if not given)", "FILE.jsonl"},
            },
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
