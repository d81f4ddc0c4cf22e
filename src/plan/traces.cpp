// The chain behind every number: where it stands, why it is so, and which numbers it came from.
#include "plan/stages.hpp"

#include "base/sources.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace tuck::plan {

namespace {

constexpr TraceKey the_total{PlanPart::total}, the_needs{PlanPart::needs}, the_feeds{PlanPart::feeds},
    the_days{PlanPart::outlook};

TraceValue in_seconds(const Spread& time) {
    return {time.p50_s, "s", time.p10_s, time.p90_s};
}

TraceValue over_days(const Percentiles& p, const char* unit) {
    return {p.p50, unit, p.p05, p.p95};
}

std::vector<Trace> trace_durations(const Plan& plan) {
    std::vector<Trace> out;
    for (const LegEffort& leg : plan.durations) {
        Trace trace{{PlanPart::durations, leg.leg_index}, leg.because, {}, {in_seconds(leg.time)}};
        trace.because.push_back(
            {fmt::format("10th and 90th percentile: one SD is {:.0f} %", 100 * leg.log_sd),
             "published errors of each step; combining them is our choice"});
        out.push_back(trace);
    }
    out.push_back({{PlanPart::total},
                   {{"sum of the legs; legs correlated 0.5",
                     "open triathlon results (log splits correlate 0.52-0.61)"}},
                   {{PlanPart::durations}},
                   {in_seconds(plan.total)}});
    return out;
}

std::vector<Trace> trace_needs(const Body& body, const Plan& plan) {
    std::vector<Trace> out;
    for (const LegNeed& leg : plan.needs) {
        const LegBody& spent = body.legs[static_cast<std::size_t>(leg.leg_index)];
        const auto key = [&leg](PlanField field) { return TraceKey{PlanPart::needs, leg.leg_index, field}; };
        const TraceKey duration{PlanPart::durations, leg.leg_index};
        const auto fluid = key(PlanField::fluid), sweat = key(PlanField::sweat);
        auto salt = leg.because;
        salt.insert(salt.end(), body.sodium_because.begin(), body.sodium_because.end());
        TraceValue ceiling{leg.fluid_ml_per_h, "ml/h"};
        ceiling.up_to = true;
        out.push_back(
            {key(PlanField::carb), leg.because, {the_total, duration}, {{leg.carb_g_per_h, "g/h"}}});
        out.push_back({fluid, leg.because, {sweat}, {ceiling}});
        out.push_back({key(PlanField::sodium), salt, {sweat, fluid}, {{leg.sodium_mg_per_h, "mg/h"}}});
        out.push_back({sweat, spent.because, {duration}, {{leg.sweat_ml_per_h, "ml/h"}}});
        out.push_back({key(PlanField::heat), spent.heat_because, {duration}});
    }
    return out;
}

std::vector<Trace> trace_feeds(const Stages& s, const PlanTotals& totals) {
    return {
        {the_feeds,
         {{"what the lines expand to; each amount is servings times the pantry's values",
           "the pantry's sources"}},
         {{PlanPart::lines}}},
        {{PlanPart::lines}, s.schedule.because, {the_needs}},
        {the_needs, {{"one need a leg", "see each number"}}, {the_total}},
        {{PlanPart::durations}, {{"one duration a leg", "see each number"}}, {}},
        {{PlanPart::totals},
         {{"sum over the feeds; sweat: median rate times median time, all legs", "arithmetic"}},
         {the_feeds, the_needs},
         {{totals.carb_g, "g"}, {totals.fluid_ml, "ml"}, {totals.sodium_mg, "mg", {}, {}, "sodium"}}},
        {{PlanPart::carry},
         {{"the feeds, stretched to the 90th percentile of time, and one gel to spare", source::practice}},
         {the_feeds}},
        {{PlanPart::mix},
         {{"powder by its own serving; salt for what the need misses, at most 300 mg/h and 50 mmol/L",
           "EFSA 2011 (20-50 mmol/L); 300 mg/h: common practice, no source"}},
         {the_feeds, the_needs}},
        {{PlanPart::unmet},
         {{"need less what the feeds bring; the rule that kept a better pattern out", "arithmetic"}},
         {the_needs, the_feeds}},
        {{PlanPart::broken_rules},
         {{"every rule of this plan's own search, looked at once more in what was typed", source::practice}},
         {the_feeds, the_needs}},
    };
}

std::string percent(double share) {
    return fmt::format("{:.3g} %", 100 * share);
}

TraceKey of_outlook(PlanField field) {
    return {PlanPart::outlook, -1, field};
}

/// The table of limits, a row a reason.
Trace trace_chances(const PlanOutlook& outlook, bool mass_hidden) {
    Trace out{of_outlook(PlanField::chance), {}, {}};
    for (const auto& row : outlook.chances) {
        if (mass_hidden && row.of_mass)
            continue;
        std::string text =
            fmt::format("{}: {} of the days (+- {})", row.what, percent(row.chance), percent(row.error));
        text += row.caution > 1 ? "; no limit" : fmt::format("; caution above {}", percent(row.caution));
        if (row.refuse <= 1)
            text += fmt::format(", refused above {}", percent(row.refuse));
        out.because.push_back({text + ": " + row.because, "limits: our choice, no source"});
    }
    out.because.push_back(
        {"+-: one standard error of a share of independent days, sqrt(p (1 - p) / n)", "arithmetic"});
    return out;
}

Trace trace_drivers(const PlanOutlook& outlook) {
    Trace out{of_outlook(PlanField::drivers), {}, {}};
    for (std::size_t i = 0; i < std::min<std::size_t>(3, outlook.drivers.size()); ++i) {
        const auto& d = outlook.drivers[i];
        out.because.push_back(
            {fmt::format("{}. {}: {:.0f} % of the spread of body mass, {:.0f} % of blood sodium's, "
                         "{:.0f} % of glycogen's",
                         i + 1, d.input, 100 * d.of_mass, 100 * d.of_sodium, 100 * d.of_glycogen),
             "the simulated days"});
    }
    out.because.push_back(
        {"first-order variance shares, Var(E[result | input]) / Var(result), by the correlation ratio "
         "over 24 steps of the input; inputs that share a cause share what they explain",
         "Sobol 1993"});
    return out;
}

/// A moment that is told by its clock alone has no other name.
std::string said_at(const Moment& moment) {
    return (moment.when.empty() ? moment.clock : moment.when) + ": " + moment.text;
}

std::vector<Trace> trace_rest(const Stages& s, const Plan& plan) {
    const TraceValue needed{plan.fuelling_needed ? 1.0 : 0.0, "bool"};
    std::vector<Trace> out{{{PlanPart::fuelling_needed}, s.need.because, {the_total}, {needed}}};
    std::vector<Reason> before, after;
    for (const auto& moment : plan.before)
        before.push_back({said_at(moment), moment.source});
    for (const auto& moment : plan.after)
        after.push_back({said_at(moment), moment.source});
    out.push_back({{PlanPart::before}, before, {the_total}});
    out.push_back({{PlanPart::after}, after, {}});
    Trace outlook{
        the_days,
        {{fmt::format(
              "{} simulated days from seed {}: duration, sweat, sweat sodium, carbohydrate share, "
              "starting stores and water, missed stations, missed and late feeds, stomach and gut drawn "
              "from their spreads",
              s.event.days, s.event.seed),
          "spreads: see each model; limits on chances: our choice, no source"},
         {"water change = drunk + made by burning - sweat - breath; mass change = water + food - fuel burnt",
          "Cheuvront & Montain 2017, as told by the authors"}},
        {the_feeds, the_needs, the_total}};
    out.push_back(outlook);
    Trace sodium{of_outlook(PlanField::serum_sodium), s.body.water_because, {the_days}};
    sodium.because.push_back({"electrolyte balance: [(Na + 23.8) TBW + 1.03 d(Na+K)] / (TBW + dTBW) - 23.8",
                              "Nguyen & Kurtz 2005"});
    Trace glycogen{of_outlook(PlanField::glycogen_left), s.body.glycogen_because, {the_days}};
    if (s.outlook.days > 0) {
        out.push_back(trace_chances(s.outlook, plan.mass_hidden));
        out.push_back(trace_drivers(s.outlook));
        sodium.values = {over_days(s.outlook.serum_sodium_mmol_per_l, "mmol/L")};
        glycogen.values = {over_days(s.outlook.glycogen_left_g, "g")};
    }
    out.push_back(sodium);
    out.push_back(glycogen);
    out.push_back({{PlanPart::inputs},
                   {{"as it was given, or the least that is assumed for it", "the athlete's own input"}},
                   {}});
    out.push_back({{PlanPart::weather}, {{"as it was given for the day", "the athlete's own input"}}, {}});
    out.push_back({{PlanPart::shopping},
                   {{"sums of one food over all bags and bottles", "arithmetic"}},
                   {{PlanPart::carry}, {PlanPart::mix}}});
    out.push_back({{PlanPart::day_sums},
                   {{"sums since the start on the likely day; ceiling and sweat grow evenly through a leg",
                     "arithmetic"}},
                   {the_feeds, the_needs, {PlanPart::durations}}});
    return out;
}

} // namespace

std::vector<Trace> traces_of(const Stages& s, const Plan& plan) {
    std::vector<Trace> out;
    for (const auto& part :
         {trace_durations(plan), trace_needs(s.body, plan), trace_feeds(s, plan.totals), trace_rest(s, plan)})
        out.insert(out.end(), part.begin(), part.end());
    return out;
}

} // namespace tuck::plan
