#include "text/plan_text.hpp"

#include "say/in_short.hpp"
#include "say/line_words.hpp"
#include "say/plan_words.hpp"
#include "say/units.hpp"
#include "text/layout.hpp"
#include "text/page.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::faces {

namespace {

using Page = TextPage;

void write_title(const Plan& plan, Page& page) {
    std::string title = plan_title(plan);
    for (const auto* part : {&plan.athlete_name, &plan.date, &plan.start_clock})
        if (!part->empty())
            title += ", " + *part;
    page.item("", title);
    page.item("", fmt::format("{} in the air. Plan {}.",
                              say::temperature(plan.weather.temperature_c, plan.units), plan.version));
}

void write_answer(const Plan& plan, Page& page) {
    if (plan.refused)
        page.item("\nREFUSED  ", "This plan is not safe as asked. See the warnings.");
    for (const auto& warning : plan.warnings) // danger is read before anything else
        if (warning.severity == Severity::danger)
            page.item("\n!! ", warning.text);
    if (const auto sentences = say::in_short(plan, plan.units); !sentences.empty()) {
        page.head("IN SHORT");
        for (const auto& sentence : sentences)
            page.item("  ", say::in_units(sentence, plan.units));
    }
    page.head(plan.fuelling_needed ? "FOOD ON THE COURSE: YES" : "FOOD ON THE COURSE: NONE NEEDED");
    if (plan.feeds.empty() && plan.fuelling_needed)
        page.item("  ", "No rate is given here. See the warnings.");
    for (const auto& reason : plan.fuelling_because)
        page.item("  ", fmt::format("{} [{}]", reason.text, reason.source));
    for (const auto& text : plan.still_matters)
        page.item("  - ", text);
}

void write_times(const Plan& plan, Page& page) {
    page.head("TIME               likely     1 day in 10 faster, 1 in 10 slower");
    const auto row = [&page](const std::string& name, const std::string& distance, const Spread& t) {
        page.line(fmt::format("  {}{}{}   {} - {}", padded(name, 6), padded(distance, 8),
                              padded(time_text(t.p50_s), 9, true), padded(time_text(t.p10_s), 9, true),
                              time_text(t.p90_s)));
    };
    for (const auto& duration : plan.durations)
        row(leg_name(duration.kind), distance_text(duration, plan.units), duration.time);
    row("All", "", plan.total);
}

void write_needs(const Plan& plan, Page& page) {
    page.head("EACH HOUR      food     drink up to    sodium     likely sweat");
    for (const auto& need : plan.needs)
        if (!is_transition(need.kind))
            page.line(fmt::format("  {}{} g{}{} mg{}", padded(leg_name(need.kind), 8),
                                  padded(fmt::format("{:.0f}", need.carb_g_per_h), 8, true),
                                  padded(say::ceiling(need.fluid_ml_per_h, plan.units), 14, true),
                                  padded(fmt::format("{:.0f}", need.sodium_mg_per_h), 10, true),
                                  padded(say::volume(need.sweat_ml_per_h, plan.units), 13, true)));
    page.item("  ", "Food in grams of carbohydrate. Drink is a ceiling, to thirst; lower is fine.");
}

void write_lines(const Plan& plan, Page& page) {
    int leg = -1;
    for (const auto& line : plan.lines) {
        if (line.leg_index != leg) {
            leg = line.leg_index;
            const auto name = leg_name(line.leg);
            page.head(line.leg == LegKind::bike  ? "ON THE BIKE    " + plan.clock_note
                      : line.leg == LegKind::run ? std::string("ON THE RUN")
                                                 : "IN " + name);
        }
        const std::string when = say::in_units(say::when(line), plan.units);
        const bool wide = width_of(when) > 24;
        if (wide)
            page.line("  " + when);
        page.item("  " + padded(wide ? "" : when, 24) + " ",
                  say::in_units(say::what_whole(line), plan.units));
        const bool last = &line == &plan.lines.back() || (&line + 1)->leg_index != leg;
        if (last && line.leg == LegKind::bike && !plan.refill_note.empty())
            page.item("  ", plan.refill_note);
    }
    if (const auto words = say::silent_run(plan); !words.empty()) {
        page.head("ON THE RUN");
        page.item("  ", words);
    }
    for (const auto& stop : plan.special_needs)
        page.item("  ", leg_name(stop.leg) + ": " + stop.text + ".");
    if (!plan.feeds.empty())
        page.item(
            "  ",
            say::in_units(
                fmt::format(
                    "In all: {:.0f} g carbohydrate, {:.0f} ml, {:.0f} mg sodium{}; likely sweat {:.0f} ml.",
                    plan.totals.carb_g, plan.totals.fluid_ml, plan.totals.sodium_mg,
                    plan.totals.caffeine_mg > 0 ? fmt::format(", {:.0f} mg caffeine", plan.totals.caffeine_mg)
                                                : "",
                    plan.totals.sweat_ml),
                plan.units));
}

void write_supplies(const Plan& plan, Page& page) {
    if (!plan.mix.empty())
        page.head("MIX");
    for (const auto& mix : plan.mix)
        page.item("  ", mix.text);
    if (const auto words = say::what_iso_is(plan); !words.empty())
        page.item("  ", words);
    if (!plan.carry.empty())
        page.head("PACK");
    for (const auto& item : plan.carry)
        page.item("  ", item.text);
}

void write_moments(const char* head, const std::vector<Moment>& moments, Page& page) {
    if (!moments.empty())
        page.head(head);
    for (const auto& moment : moments)
        page.item("  " + padded(moment.clock, 6) + padded(moment.when, 16) + " ", moment.text);
}

void write_unmet(const Plan& plan, Page& page) {
    if (!plan.unmet.empty())
        page.head("NOT REACHED");
    for (const auto& text : unmet_texts(plan))
        page.item("  ", say::in_units(text, plan.units));
}

/// Of the athlete's own plan: every rule that it breaks, each with its number.
void write_broken_rules(const Plan& plan, Page& page) {
    if (!plan.own)
        return;
    page.head(plan.broken_rules.empty() ? "YOUR OWN PLAN: IT BREAKS NO RULE"
                                        : "YOUR OWN PLAN BREAKS THESE RULES");
    for (const auto& breach : plan.broken_rules)
        page.item(breach.danger ? "!! " : "  - ", breach.text + ".");
}

/// What happens on one day in a hundred or more, and always what the plan itself could do.
void write_outlook(const Plan& plan, Page& page) {
    const PlanOutlook& o = plan.outlook;
    if (o.sentence.empty())
        return;
    page.head(fmt::format("THE DAY, SIMULATED {} TIMES", o.days));
    page.item("  ", o.sentence);
    page.line("");
    page.line("  of 100 days       limits");
    for (const auto& row : o.chances) {
        if ((plan.mass_hidden && row.of_mass) || (row.chance < 0.01 && row.refuse > 1))
            continue;
        const auto figure = fmt::format("{:.1f} +- {:.1f}", 100 * row.chance, 100 * row.error);
        const auto limit = row.caution > 1 ? std::string()
                           : row.refuse > 1
                               ? fmt::format("{:.0f} !", 100 * row.caution)
                               : fmt::format("{:.0f} !, {:.0f} no", 100 * row.caution, 100 * row.refuse);
        page.item("  " + padded(figure, 15, true) + "   " + padded(limit, 12) + " ", row.what);
    }
    page.item("  ",
              "! caution, no: refused; the limits are our choice, no source. +- is one standard error.");
}

void write_warnings(const Plan& plan, Page& page) {
    const auto sorted = sorted_warnings(plan);
    bool head = false;
    for (const Warning* warning : sorted.first) {
        if (warning->severity == Severity::danger)
            continue; // said first of all
        if (!head)
            page.head("TAKE CARE");
        head = true;
        page.item("  !  ", warning->text);
    }
    if (!sorted.also.empty())
        page.head("ALSO");
    for (const Warning* warning : sorted.also)
        page.item("  - ", warning->text);
}

} // namespace

std::string plan_text(const Plan& given) {
    const Plan plan = say::in_own_units(given);
    Page page;
    write_title(plan, page);
    write_answer(plan, page);
    write_times(plan, page);
    write_needs(plan, page);
    write_lines(plan, page);
    write_broken_rules(plan, page);
    write_unmet(plan, page);
    write_supplies(plan, page);
    write_moments("BEFORE", plan.before, page);
    page.head("IF");
    for (const auto& line : plan.if_then)
        page.item("  " + padded(line.when, 22) + " ", line.text);
    write_moments("AFTER", plan.after, page);
    write_outlook(plan, page);
    write_warnings(plan, page);
    if (!plan.assumptions.empty())
        page.head("ASSUMED");
    for (const auto& text : plan.assumptions)
        page.item("  - ", text);
    page.head("ALWAYS");
    for (const Warning* warning : sorted_warnings(plan).always)
        page.item("  - ", warning->text);
    for (const auto& text : plan.cautions)
        page.item("  - ", text);
    return page.text();
}

} // namespace tuck::faces
