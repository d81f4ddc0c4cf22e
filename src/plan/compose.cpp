// The composer.
#include "tuck/compose.hpp"
#include "base/clock.hpp"

#include "base/sources.hpp"
#include "plan/sane.hpp"
#include "plan/shopping.hpp"
#include "plan/stages.hpp"
#include "schedule/judge.hpp"
#include "tuck/error.hpp"
#include "tuck/own_fault.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <stdexcept>

namespace tuck {

namespace {

using plan::Stages;

constexpr double stricter_fluid = figure("plan.stricter_fluid");

/// Longer days are beyond every model here, and beyond a search that ends in a second.
void check_length(const Effort& effort) {
    constexpr double longest_h = 48;
    const double hours = effort.total.p50_s / 3600;
    if (hours > longest_h)
        throw Error("event", "/legs",
                    fmt::format("the day would take about {:.0f} h; allowed at most {:.0f} h: shorten "
                                "it, or plan it in parts",
                                hours, longest_h));
}

/// No plan leaves that breaks one of its own rules, wherever the fault lies.
void hold_to_rules(const Stages& s, const Pantry& pantry) {
    if (s.schedule.own)
        return; // what was typed is told, see tell_broken_rules
    const auto breaches = schedule::judge({s.athlete, s.event, s.effort, s.need, pantry, s.schedule});
    if (!breaches.empty())
        throw OwnFault(fmt::format("the plan broke a rule of its own ({}): {}", breaches.front().rule,
                                   breaches.front().text));
}

Stages run_stream(const Athlete& athlete, const Event& event, const Pantry& pantry, const Limits& limits,
                  bool with_lp, bool with_help) {
    Stages s{athlete, event, {}, {}, {}, {}, {}, &pantry};
    s.effort = estimate_effort(athlete, event);
    check_length(s.effort);
    s.body = describe_body(athlete, event, s.effort);
    s.need = state_need(athlete, event, s.effort, s.body, limits);
    s.schedule = with_help ? make_schedule(athlete, event, s.effort, s.body, s.need, pantry, with_lp)
                           : quick_schedule(athlete, event, s.effort, s.body, s.need, pantry);
    hold_to_rules(s, pantry);
    s.outlook = look_ahead(athlete, event, s.effort, s.body, s.schedule);
    return s;
}

bool harms(const PlanOutlook& outlook) {
    return outlook.water_gain_over_1pct > much_gain_limit.refuse ||
           outlook.low_sodium_by_drinking > low_sodium_limit.refuse;
}

/// Ceilings under which `stricter_fluid` of what was planned is the most that can be planned.
Limits stricter_limits(const Stages& s) {
    double planned_ml = 0, allowed_ml = 0;
    for (const auto& feed : s.schedule.feeds)
        planned_ml += feed.fluid_ml;
    for (size_t i = 0; i < s.effort.legs.size(); ++i)
        allowed_ml += s.need.legs[i].fluid_ml_per_h * s.effort.legs[i].time.p50_s / 3600;
    const double share = allowed_ml > 0 ? std::min(1.0, planned_ml / allowed_ml) : 1.0;
    return {stricter_fluid * share,
            {{"planned drink lowered by 30 %: too many simulated days drank more than they sweated",
              source::our_choice}}};
}

void sum_totals(const Stages& s, Plan& plan) {
    for (const auto& feed : plan.feeds) {
        plan.totals.carb_g += feed.carb_g;
        plan.totals.fluid_ml += feed.fluid_ml;
        plan.totals.sodium_mg += feed.sodium_mg;
        plan.totals.caffeine_mg += feed.caffeine_mg;
    }
    for (size_t i = 0; i < s.effort.legs.size(); ++i)
        plan.totals.sweat_ml += s.need.legs[i].sweat_ml_per_h * s.effort.legs[i].time.p50_s / 3600;
}

void gather_words(const Stages& s, Plan& plan) {
    const auto append = [](auto& to, const auto& from) { to.insert(to.end(), from.begin(), from.end()); };
    append(plan.warnings, plan::not_enough_warnings(s));
    append(plan.warnings, s.effort.warnings);
    append(plan.warnings, s.need.warnings);
    append(plan.warnings, s.schedule.warnings);
    append(plan.warnings, plan::loading_warnings(s));
    append(plan.warnings, plan::outlook_warnings(s.outlook, plan.mass_hidden));
    append(plan.assumptions, s.effort.assumptions);
    append(plan.assumptions, s.body.assumptions);
    append(plan.assumptions, s.need.assumptions);
    append(plan.assumptions, s.schedule.assumptions);
    append(plan.assumptions, s.outlook.assumptions);
    if (!s.body.sweat_measured)
        plan.assumptions.push_back("No sweat test: the most to drink is set by what most athletes sweat.");
    if (!s.body.sodium_measured)
        plan.assumptions.push_back("No sweat sodium test: 40 mmol/L assumed.");
    plan.before = plan::moments_before(s);
    plan.after = plan::moments_after(s);
    plan.if_then = plan::if_then_lines(s);
    plan.stop_line = plan::stop_line();
    plan.cautions = plan::cautions();
    plan.refill_note = s.schedule.refill_note;
    const bool rides = std::any_of(s.effort.legs.begin(), s.effort.legs.end(),
                                   [](const LegEffort& leg) { return leg.kind == LegKind::bike; });
    plan.clock_note =
        rides ? "Bike clock from the mount line, auto-pause off." : "Watch from the start of each leg.";
}

void name_plan(const Athlete& athlete, const Event& event, Plan& plan) {
    plan.event_name = event.name;
    plan.athlete_name = athlete.name;
    plan.bib = athlete.bib;
    plan.wave = event.wave;
    plan.date = event.date.value_or("");
    if (const auto own_min = own_start_min(event))
        plan.start_clock = hour_of_day_text(static_cast<int>(*own_min));
    plan.race = event.race;
    plan.weather = event.weather;
    plan.units = athlete.units;
    plan.mass_hidden = athlete.health.past_eating_disorder;
}

void refuse(Plan& plan) {
    plan.refused = true;
    plan.warnings.insert(
        plan.warnings.begin(),
        {"refused", Severity::danger,
         "Refused: even with less drink this plan would make you drink more than you sweat on too "
         "many days. Drink to thirst, and have a sweat test before you plan fluid."});
}

/// A wish that does not fit is left out and said; only one that would harm makes the plan unsafe as asked.
void tell_kept_out(const Stages& stages, Plan& plan) {
    for (const auto& wish : stages.schedule.kept_out) {
        plan.refused = plan.refused || wish.danger;
        plan.warnings.insert(plan.warnings.begin(),
                             {"pin_refused", wish.danger ? Severity::danger : Severity::caution,
                              fmt::format("Kept out: {}, since {}.", wish.said, wish.why)});
    }
}

/// What was typed is told by every rule that it breaks, and refused only where it harms.
void tell_broken_rules(const Stages& stages, Plan& plan) {
    plan.own = stages.schedule.own;
    plan.broken_rules = stages.schedule.broken;
    for (const auto& breach : plan.broken_rules)
        if (breach.danger) {
            plan.refused = true;
            plan.warnings.insert(plan.warnings.begin(), {"own_plan_harms", Severity::danger,
                                                         fmt::format("Not safe as typed: {}.", breach.text)});
        }
}

Plan gather(const Stages& stages, bool refused) {
    Plan plan;
    name_plan(stages.athlete, stages.event, plan);
    plan.fuelling_needed = stages.need.fuelling_needed;
    plan.fuelling_because = stages.need.because;
    plan.still_matters = stages.need.still_matters;
    plan.durations = stages.effort.legs;
    plan.total = stages.effort.total;
    plan.needs = stages.need.legs;
    plan.feeds = stages.schedule.feeds;
    plan.lines = stages.schedule.lines;
    plan.carry = stages.schedule.carry;
    plan.mix = stages.schedule.mix;
    plan.special_needs = stages.schedule.special_needs;
    plan.unmet = stages.schedule.unmet;
    plan.outlook = stages.outlook;
    sum_totals(stages, plan);
    plan::add_day_sums(plan);
    gather_words(stages, plan);
    plan.inputs = plan::inputs_of(stages.athlete, stages.event);
    plan.version = plan::mark_of(stages.athlete, stages.event, plan);
    if (refused)
        refuse(plan);
    tell_kept_out(stages, plan);
    tell_broken_rules(stages, plan);
    plan.traces = plan::traces_of(stages, plan);
    return plan;
}

} // namespace

Plan plan::settle(const Stream& stream) {
    const auto first = stream({});
    if (!harms(first.outlook) || first.schedule.own) // what was typed stays as it is
        return gather(first, harms(first.outlook));
    const auto second = stream(stricter_limits(first));
    return gather(second, harms(second.outlook));
}

Composed compose(const Athlete& athlete, const Event& event, const Pantry& pantry, bool with_lp,
                 bool with_help) {
    plan::require_sane(athlete, event);
    Composed out;
    out.plan = plan::settle([&](const Limits& limits) {
        auto stages = run_stream(athlete, event, pantry, limits, with_lp, with_help);
        out.lp = stages.schedule.lp; // of the last run, which the plan is made of
        return stages;
    });
    out.plan.shopping = plan::shopping(out.plan, pantry);
    return out;
}

Plan compose_plan(const Athlete& athlete, const Event& event, const Pantry& pantry) {
    return compose(athlete, event, pantry, false).plan;
}

} // namespace tuck
