// The chain behind every number: where it stands, why it is so, and which numbers it came from.
#include "plan/stages.hpp"

#include "base/sources.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace tuck::plan {

namespace {

std::vector<Trace> trace_durations(const Stages& s) {
    std::vector<Trace> out;
    for (size_t i = 0; i < s.effort.legs.size(); ++i) {
        Trace trace{fmt::format("/durations/{}", i), s.effort.legs[i].because, {}};
        trace.because.push_back(
            {fmt::format("10th and 90th percentile: one SD is {:.0f} %", 100 * s.effort.legs[i].log_sd),
             "published errors of each step; combining them is our choice"});
        out.push_back(trace);
    }
    out.push_back({"/total",
                   {{"sum of the legs; legs correlated 0.5",
                     "open triathlon results (log splits correlate 0.52-0.61)"}},
                   {"/durations"}});
    return out;
}

Trace trace_need(const Stages& s, size_t i, const char* field, std::vector<std::string> from) {
    return {fmt::format("/needs/{}/{}", i, field), s.need.legs[i].because, std::move(from)};
}

std::vector<Trace> trace_needs(const Stages& s) {
    std::vector<Trace> out;
    for (size_t i = 0; i < s.need.legs.size(); ++i) {
        const auto duration = fmt::format("/durations/{}", i);
        const auto sweat = fmt::format("/needs/{}/sweat_ml_per_h", i);
        out.push_back(trace_need(s, i, "carb_g_per_h", {"/total", duration}));
        out.push_back(trace_need(s, i, "fluid_ml_per_h", {sweat}));
        auto sodium =
            trace_need(s, i, "sodium_mg_per_h", {sweat, fmt::format("/needs/{}/fluid_ml_per_h", i)});
        sodium.because.insert(sodium.because.end(), s.body.sodium_because.begin(),
                              s.body.sodium_because.end());
        out.push_back(sodium);
        out.push_back({sweat, s.body.legs[i].because, {duration}});
        out.push_back({fmt::format("/needs/{}/heat", i), s.body.legs[i].heat_because, {duration}});
    }
    return out;
}

std::vector<Trace> trace_feeds(const Stages& s) {
    std::vector<Trace> out{
        {"/feeds",
         {{"what the lines expand to; each amount is servings times the pantry's values",
           "the pantry's sources"}},
         {"/lines"}},
        {"/lines", s.schedule.because, {"/needs"}},
        {"/needs", {{"one need a leg", "see each number"}}, {"/total"}},
        {"/durations", {{"one duration a leg", "see each number"}}, {}},
        {"/totals",
         {{"sum over the feeds; sweat: median rate times median time, all legs", "arithmetic"}},
         {"/feeds", "/needs"}},
        {"/carry",
         {{"the feeds, stretched to the 90th percentile of time, and one gel to spare", source::practice}},
         {"/feeds"}},
        {"/mix",
         {{"powder by its own serving; salt for what the need misses, at most 300 mg/h and 50 mmol/L",
           "EFSA 2011 (20-50 mmol/L); 300 mg/h: common practice, no source"}},
         {"/feeds", "/needs"}},
        {"/unmet",
         {{"need less what the feeds bring; the rule that kept a better pattern out", "arithmetic"}},
         {"/needs", "/feeds"}},
        {"/broken_rules",
         {{"every rule of this plan's own search, looked at once more in what was typed", source::practice}},
         {"/feeds", "/needs"}},
    };
    return out;
}

std::string percent(double share) {
    return fmt::format("{:.3g} %", 100 * share);
}

/// The table of limits, a row a reason.
Trace trace_chances(const PlanOutlook& outlook, bool mass_hidden) {
    Trace out{"/outlook/chance", {}, {}};
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
    Trace out{"/outlook/drivers", {}, {}};
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
    std::vector<Trace> out{{"/fuelling_needed", s.need.because, {"/total"}}};
    std::vector<Reason> before, after;
    for (const auto& moment : plan.before)
        before.push_back({said_at(moment), moment.source});
    for (const auto& moment : plan.after)
        after.push_back({said_at(moment), moment.source});
    out.push_back({"/before", before, {"/total"}});
    out.push_back({"/after", after, {}});
    Trace outlook{
        "/outlook",
        {{fmt::format(
              "{} simulated days from seed {}: duration, sweat, sweat sodium, carbohydrate share, "
              "starting stores and water, missed stations, missed and late feeds, stomach and gut drawn "
              "from their spreads",
              s.event.days, s.event.seed),
          "spreads: see each model; limits on chances: our choice, no source"},
         {"water change = drunk + made by burning - sweat - breath; mass change = water + food - fuel burnt",
          "Cheuvront & Montain 2017, as told by the authors"}},
        {"/feeds", "/needs", "/total"}};
    out.push_back(outlook);
    if (s.outlook.days > 0) {
        out.push_back(trace_chances(s.outlook, plan.mass_hidden));
        out.push_back(trace_drivers(s.outlook));
    }
    Trace sodium{"/outlook/serum_sodium_mmol_per_l", s.body.water_because, {"/outlook"}};
    sodium.because.push_back({"electrolyte balance: [(Na + 23.8) TBW + 1.03 d(Na+K)] / (TBW + dTBW) - 23.8",
                              "Nguyen & Kurtz 2005"});
    out.push_back(sodium);
    out.push_back({"/outlook/glycogen_left_g", s.body.glycogen_because, {"/outlook"}});
    out.push_back({"/inputs",
                   {{"as it was given, or the least that is assumed for it", "the athlete's own input"}},
                   {}});
    out.push_back({"/weather", {{"as it was given for the day", "the athlete's own input"}}, {}});
    out.push_back(
        {"/shopping", {{"sums of one food over all bags and bottles", "arithmetic"}}, {"/carry", "/mix"}});
    out.push_back({"/day_sums",
                   {{"sums since the start on the likely day; ceiling and sweat grow evenly through a leg",
                     "arithmetic"}},
                   {"/feeds", "/needs", "/durations"}});
    return out;
}

} // namespace

std::vector<Trace> traces_of(const Stages& s, const Plan& plan) {
    std::vector<Trace> out;
    for (const auto& part : {trace_durations(s), trace_needs(s), trace_feeds(s), trace_rest(s, plan)})
        out.insert(out.end(), part.begin(), part.end());
    return out;
}

} // namespace tuck::plan
