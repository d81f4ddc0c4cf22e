#include "text/rehearsal_text.hpp"

#include "say/line_words.hpp"
#include "say/plan_words.hpp"
#include "text/page.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::faces {

namespace {

const char* place(LegKind leg) {
    return leg == LegKind::bike ? "on the bike" : "on the run";
}

void write_parts(const Rehearsal& r, TextPage& page) {
    for (const auto& part : r.parts) {
        if (part.asked_carb_g_per_h <= 0 && part.planned_carb_g <= 0)
            continue;
        const auto in_the_race =
            fmt::format("The race's plan gives {:.0f} g/h there.", part.race_carb_g_per_h);
        const bool beginning = part.leg == LegKind::run && r.ride_min > 0;
        page.item("  ", fmt::format("{}, {:.0f} min: {:.0f} g, {:.0f} ml. {}", leg_name(part.leg),
                                    part.minutes, part.planned_carb_g, part.planned_fluid_ml,
                                    beginning ? "It is the beginning of the race's run." : in_the_race));
    }
}

} // namespace

std::string rehearsal_title(const Rehearsal& r) {
    if (r.session_carb_g_per_h <= 0)
        return "no food of the race to rehearse";
    double given = r.session_carb_g_per_h;
    std::string where;
    if (!r.parts.empty()) {
        given = r.parts.front().carb_g_per_h();
        where = std::string(" ") + place(r.parts.front().leg);
    }
    const auto step = r.as_the_race ? std::string(", as on race day")
                                    : fmt::format(", a step towards {:.0f} g/h", r.race_carb_g_per_h);
    return fmt::format("{:.0f} g/h{}{}", given, where, step);
}

std::string rehearsal_text(const Rehearsal& rehearsal) {
    TextPage page;
    page.head("REHEARSAL   " + rehearsal_title(rehearsal));
    if (!rehearsal.falls_short.empty())
        page.item("  !! ", rehearsal.falls_short);
    write_parts(rehearsal, page);
    for (const auto& reason : rehearsal.because)
        page.item("  ", fmt::format("{} [{}]", reason.text, reason.source));
    for (const auto& warning : rehearsal.warnings)
        page.item(warning.severity == Severity::danger ? "  !! " : "     ", warning.text);
    page.list("FIRST", rehearsal.before);
    page.list("ON THE WAY", rehearsal.during);
    page.list("AFTERWARDS", rehearsal.after);
    return page.text();
}

std::string series_text(const RehearsalSeries& series) {
    TextPage page;
    page.head("REHEARSALS UNTIL THE RACE");
    for (const auto& day : series.days)
        page.item(fmt::format("  {}  ", day.date), day.text);
    for (const auto& note : series.notes)
        page.item("  ", note);
    return page.text();
}

std::string session_note(const Rehearsal& rehearsal, const Plan& plan) {
    std::string out = rehearsal_title(rehearsal) + "\n";
    if (!rehearsal.falls_short.empty())
        out += rehearsal.falls_short + "\n";
    for (const auto& line : plan.lines)
        out +=
            fmt::format("{} {}\n", is_transition(line.leg) ? "" : leg_name(line.leg) + ",", say::text(line));
    for (const auto& mix : plan.mix)
        out += "Mix " + mix.text + "\n";
    for (const auto& item : plan.carry)
        out += "Pack " + item.text + "\n";
    return out + plan.stop_line + "\nDrink to thirst; less is fine. Log it: " + log_command(rehearsal, plan);
}

std::string log_command(const Rehearsal& rehearsal, const Plan& plan) {
    std::string out = "tuck diary add rehearsal";
    for (const auto& part : rehearsal.parts) {
        const auto name = part.leg == LegKind::bike ? "bike" : "run";
        out += fmt::format(
            " --{0} {1:.0f}min --{0}-asked {2:.0f}g/h --{0}-planned {3:.0f}g --{0}-drink-planned {4:.0f}ml",
            name, part.minutes, part.asked_carb_g_per_h, part.planned_carb_g, part.planned_fluid_ml);
    }
    if (rehearsal.parts.empty())
        out += fmt::format(" --bike {:.0f}min --run {:.0f}min", rehearsal.ride_min, rehearsal.run_min);
    out += fmt::format(" --temperature {}C", degrees_text(plan.weather.temperature_c));
    if (!rehearsal.foods.empty())
        out += fmt::format(" --foods {}", fmt::join(rehearsal.foods, ","));
    if (!plan.feeds.empty())
        out += fmt::format(" --feeds {}", plan.feeds.size());
    return out + " --taken all --bike-gut nausea=0 --run-gut nausea=0 --diary me.jsonl";
}

std::string log_command_rows(const Rehearsal& rehearsal, const Plan& plan) {
    const auto whole = log_command(rehearsal, plan);
    std::string out, row = "  ";
    std::size_t at = 0;
    while (at < whole.size()) {
        auto end = std::min(whole.find(" --", at + 1), whole.size());
        const auto word = whole.substr(at, end - at);
        if (row.size() + word.size() > 76) {
            out += row + " \\\n";
            row = "   ";
        }
        row += word;
        at = end;
    }
    return out + row + "\n";
}

} // namespace tuck::faces
