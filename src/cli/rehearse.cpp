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
#include "text/rehearsal_json.hpp"
#include "text/rehearsal_text.hpp"
#include "tuck/rehearsal.hpp"

#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <memory>

namespace tuck::cli {

namespace {

using io::InputError;

struct RehearseOptions {
    Request request;
    std::optional<std::string> ride, run, speed;
    SeriesWords series;
    std::string pdf, ical, marks;
    bool live = false, json = false;
};

constexpr int usual_start_min = 8 * 60;
constexpr int evening_min = 18 * 60, day_min = 24 * 60, breakfast_min = 180;
constexpr double fastest = 600;

io::CalendarEvent calendar_event(const RehearsalDay& day, const RehearsalSession& session) {
    const auto& rehearsal = session.rehearsal;
    io::CalendarEvent out;
    out.date = day.date;
    out.start_min = rehearsal.event.start_min.value_or(usual_start_min);
    out.minutes = static_cast<int>(std::lround(rehearsal.ride_min + rehearsal.run_min));
    out.summary = "Rehearsal, " + faces::rehearsal_title(rehearsal);
    out.description = day.text;
    if (session.plan)
        out.description += "\n" + faces::session_note(rehearsal, *session.plan);
    out.alarms = {
        {out.start_min + day_min - evening_min, "Tomorrow's rehearsal: mix and pack"},
        {breakfast_min, day.as_the_race ? "Rehearsal: the race breakfast now" : "Rehearsal: breakfast"}};
    return out;
}

/// The clock runs from the mount line, or from the start of the run where nobody rides.
io::Marks session_of(const Rehearsal& rehearsal, const Plan& plan) {
    io::Marks session;
    session.plan = plan.version;
    session.bike_min = rehearsal.ride_min;
    session.run_min = rehearsal.run_min;
    session.foods = fmt::format("{}", fmt::join(rehearsal.foods, ","));
    for (const auto& part : rehearsal.parts)
        (part.leg == LegKind::bike ? session.bike_asked_carb_g_per_h : session.run_asked_carb_g_per_h) =
            part.asked_carb_g_per_h;
    for (const auto& duration : plan.durations)
        if (duration.kind == LegKind::bike || duration.kind == LegKind::t2)
            session.run_at_s += duration.time.p50_s;
    for (const PlanFeed& feed : plan.feeds)
        if (feed.leg == LegKind::bike || feed.leg == LegKind::run)
            session.feeds.push_back({feed.leg, feed.at_s, say::feed(feed), feed.carb_g, feed.fluid_ml});
    return session;
}

/// The card, then the log.
std::string rehearsal_paper(const Rehearsal& rehearsal, const Plan& plan) {
    const auto layouts = faces::card_layouts(plan, {});
    std::vector<faces::pdf::Page> pages;
    for (const auto& layout : layouts)
        pages.push_back(faces::page_of(layout));
    return faces::rehearsal_pdf(rehearsal, plan, layouts.at(0).title, faces::log_command(rehearsal, plan),
                                std::move(pages));
}

double speed_of(const RehearseOptions& options) {
    if (!options.speed)
        return 1;
    double speed = 0;
    try {
        speed = io::plain_number(*options.speed, "so many times as fast as the clock");
    } catch (const std::invalid_argument& error) {
        throw InputError("--speed", "", error.what());
    }
    if (speed < 1 || speed > fastest)
        throw InputError("--speed", "",
                         fmt::format("{:g} is out of range; allowed 1 to {:g}", speed, fastest));
    return speed;
}

/// The series, where it was asked for.
std::optional<SeriesAnswer> series_of(const RehearseOptions& options, const RehearsalAnswer& answer) {
    if (!options.series.weeks && !answer.days && options.ical.empty())
        return std::nullopt;
    return rehearse_until_the_race(answer, options.series);
}

int run(const RehearseOptions& options) {
    const double speed = speed_of(options);
    const auto answer = rehearse(ask_of(options.request), {options.ride, options.run});
    const auto& rehearsal = answer.session_answer.rehearsal;
    const auto& planned = answer.session_answer.plan;
    tell_notes(answer.race.notes);
    tell_warnings(rehearsal.warnings);
    if (!planned)
        return 1;
    const Plan& plan = *planned;
    if (options.live && !plan.refused)
        return run_live(options.marks.empty() ? "marks.jsonl" : options.marks,
                        session_of(rehearsal, speed > 1 ? answer.session_answer.race.value_or(plan) : plan),
                        speed);
    const auto series = series_of(options, answer);
    io::Outputs outputs;
    outputs.never_over(io::files_read());
    if (!options.pdf.empty() && !plan.refused)
        outputs.add(options.pdf, rehearsal_paper(rehearsal, plan));
    if (series && !options.ical.empty()) {
        std::vector<io::CalendarEvent> events;
        for (std::size_t i = 0; i < series->series.days.size(); ++i)
            events.push_back(calendar_event(series->series.days[i], series->sessions[i]));
        outputs.add(options.ical, io::calendar(answer.race.event.name + " " + series->race_date, events));
    }
    const RehearsalSeries* days = series ? &series->series : nullptr;
    if (options.json)
        outputs.print(faces::rehearsal_json(rehearsal, plan, days));
    else
        outputs.print((days ? faces::series_text(*days) + "\n" : std::string()) +
                      faces::rehearsal_text(rehearsal) + "\n" + faces::plan_text(plan) +
                      "\nTO LOG IT, with your own marks\n" + faces::log_command_rows(rehearsal, plan));
    outputs.commit();
    return plan.refused ? 1 : 0;
}

} // namespace

Command rehearse_command() {
    auto o = std::make_shared<RehearseOptions>();
    return {
        .name = "rehearse",
        .help = "a session that rehearses the race, and its log sheet",
        .footer =
            "The session holds what the plan of the race holds: foods, bottles, rhythm, grams per hour.\n"
            "Beside an event file, --temperature, --humidity, --date and --start are the session's.\n"
            "Examples: tuck rehearse race.json --temperature 18C -o log.pdf\n"
            "          tuck rehearse race.json --weeks 6 --days sat --ical r.ics --diary me.jsonl\n"
            "          tuck rehearse race.json --live --speed 60      a dry run at the kitchen table",
        .options =
            request_options(o->request) +
            OptionTable{
                {"--ride", &o->ride, "length of the ride: 150min (by the race if not given), 0min for none",
                 "TIME"},
                {"--run", &o->run, "length of the run after it: 20min, 0min for none", "TIME"},
                {"-o,--output", &o->pdf, "also write card and log sheet (PDF)", "FILE.pdf"},
                {"--json", &o->json, "the session as JSON (tuck.rehearsal/1), for tuck diary add rehearsal"},
                {"--weeks", &o->series.weeks,
                 "rehearsals over so many weeks until the race, 2 to 26; on weekends, or --days sat,wed",
                 "NUMBER"},
                {"--race-date", &o->series.race_date, "2027-06-13 (the event's if not given)", "DATE"},
                {"--ical", &o->ical, "also write them as a calendar with reminders (iCalendar)", "FILE.ics"},
                {"--live", &o->live, "a clock with the next feed; one key for each mark"},
                {"--speed", &o->speed, "of that clock: 60 makes a minute a second", "NUMBER"},
                {"--marks", &o->marks, "file of the marks (marks.jsonl if not given)", "FILE.jsonl"},
            },
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
