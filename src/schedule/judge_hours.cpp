// Rules over time: rolling hours, legs, the day.
#include "schedule/judge_rules.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace tuck::schedule::judging {

namespace {

constexpr double hour_s = 3600;
// Aim and cap are two numbers (common practice, no source): so whole gels fit into an hour.
constexpr double cap_share = figure("cap.hour_share"), cap_more_g = figure("cap.hour_more_g"),
                 two_hours_share = figure("cap.two_hours_share"), leg_share = figure("cap.leg_share");
constexpr double most_fluid_ml_per_h = figure("drink.most_ml_per_h");
constexpr double gel_water_ml_per_g = figure("gel.water_ml_per_g"),
                 gel_water_most_g = figure("gel.carb_most_g");
constexpr double gel_water_within_s = 60 * figure("gel.water_within_min");

/// The aim of the leg in which a moment lies; where a leg has none, and for who is fast, the day's: who runs
/// faster eats faster.
double rate_g(const Judged& judged, const JudgedDay& day, double at_s) {
    if (day.which == Which::p10)
        return judged.asked.need.limits.carb_g;
    size_t leg = 0;
    while (leg + 1 < day.starts_s.size() && day.starts_s[leg + 1] <= at_s)
        ++leg;
    const double own = judged.asked.need.legs[leg].carb_g_per_h;
    return own > 0 ? own : judged.asked.need.limits.carb_g.count();
}

double cap_g(double rate_g) {
    return std::min(cap_share * rate_g, rate_g + cap_more_g);
}

/// Looks at every stretch of `span_s` that begins with a feed, on all days.
template <typename Allowed>
void windows(const Judged& judged, Findings& findings, double span_s, double Bite::*what, const char* unit,
             const char* said, const Allowed& allowed) {
    for (const auto& day : judged.days)
        for (size_t i = 0; i < day.sittings.size(); ++i) {
            const double from_s = day.sittings[i].clock_s;
            double sum = 0;
            for (size_t j = i; j < day.sittings.size() && day.sittings[j].clock_s < from_s + span_s - grain;
                 ++j)
                sum += day.sittings[j].sum(what);
            if (const double most = allowed(day, from_s); sum > most + grain)
                findings.add(day.sittings[i], sum, most, unit,
                             fmt::format("{:.0f} {} {} in the {} from {}{}; at most {:.0f}", sum, unit, said,
                                         span_s > hour_s ? "two hours" : "hour", moment_text(day.sittings[i]),
                                         day.which == Which::p50
                                             ? ""
                                             : fmt::format(" of a {} day", to_string(day.which)),
                                         most));
        }
}

/// Of a rate per hour of the legs over a stretch of the day; after the finish the last leg goes on.
double integral(const Judged& judged, const JudgedDay& day, double LegNeed::*rate, double from_s,
                double to_s) {
    double sum = 0;
    for (size_t i = 0; i < day.starts_s.size(); ++i) {
        const double end_s = i + 1 == day.starts_s.size() ? std::max(to_s, day.starts_s[i] + day.lengths_s[i])
                                                          : day.starts_s[i] + day.lengths_s[i];
        const double inside_s = std::min(end_s, to_s) - std::max(day.starts_s[i], from_s);
        // Who runs faster sweats faster: the same by the same kilometre.
        const auto& leg = judged.asked.effort.legs[i];
        const double faster =
            day.which == Which::p10 && leg.kind == LegKind::run ? leg.time.p50_s / leg.time.p10_s : 1;
        sum += std::max(0.0, inside_s) / hour_s * faster * (judged.asked.need.legs[i].*rate);
    }
    return sum;
}

bool runs_in(const Judged& judged, const JudgedDay& day, double from_s, double to_s) {
    for (size_t i = 0; i < day.starts_s.size(); ++i)
        if (judged.asked.effort.legs[i].kind == LegKind::run && day.starts_s[i] < to_s &&
            day.starts_s[i] + day.lengths_s[i] > from_s)
            return true;
    return false;
}

/// The leg that a feed's drink counts to: what a transition drinks belongs to the leg after it.
size_t leg_that_drinks(const Judged& judged, int leg_index) {
    auto leg = static_cast<size_t>(leg_index);
    const auto& legs = judged.asked.effort.legs;
    while (leg + 1 < legs.size() && is_transition(legs[leg].kind))
        ++leg;
    return leg;
}

double ceiling_ml(const Judged& judged, size_t leg) {
    return judged.asked.need.legs[leg].fluid_ml_per_h * judged.asked.effort.legs[leg].time.p50_s / hour_s;
}

} // namespace

void carb_hour(const Judged& judged, Findings& findings) {
    windows(judged, findings, hour_s, &Bite::carb_g, "g", "of carbohydrate",
            [&](const JudgedDay& day, double from_s) { return cap_g(rate_g(judged, day, from_s)); });
}

void carb_two_hours(const Judged& judged, Findings& findings) {
    windows(
        judged, findings, 2 * hour_s, &Bite::carb_g, "g", "of carbohydrate",
        [&](const JudgedDay& day, double from_s) { return two_hours_share * rate_g(judged, day, from_s); });
}

void glucose_hour(const Judged& judged, Findings& findings) {
    const double most = cap_g(judged.asked.need.limits.glucose_path_g);
    windows(judged, findings, hour_s, &Bite::glucose_g, "g", "by the glucose path",
            [most](const JudgedDay&, double) { return most; });
}

void fructose_hour(const Judged& judged, Findings& findings) {
    const double most = cap_g(judged.asked.need.limits.fructose_path_g);
    windows(judged, findings, hour_s, &Bite::fructose_g, "g", "by the fructose path",
            [most](const JudgedDay&, double) { return most; });
}

void fluid_hour(const Judged& judged, Findings& findings) {
    const double more_ml = figure("cap.swallows_over") * judged.asked.athlete.swallow_ml;
    windows(judged, findings, hour_s, &Bite::fluid_ml, "ml", "drunk",
            [&](const JudgedDay& day, double from_s) {
                // Stations are places: who runs fast drinks the same by the same kilometre, and more in an
                // hour.
                if (day.which == Which::p10 && runs_in(judged, day, from_s, from_s + hour_s))
                    return std::numeric_limits<double>::infinity();
                return integral(judged, day, &LegNeed::fluid_ml_per_h, from_s, from_s + hour_s) + more_ml;
            });
}

void fluid_most(const Judged& judged, Findings& findings) {
    windows(judged, findings, hour_s, &Bite::fluid_ml, "ml", "drunk",
            [](const JudgedDay&, double) { return most_fluid_ml_per_h; });
}

void caffeine_hour(const Judged& judged, Findings& findings) {
    const double most = judged.asked.need.limits.caffeine_dose_mg;
    windows(judged, findings, hour_s, &Bite::caffeine_mg, "mg", "of caffeine",
            [most](const JudgedDay&, double) { return most; });
}

void caffeine_day(const Judged& judged, Findings& findings) {
    const double most = judged.asked.need.limits.caffeine_day_mg;
    double sum = 0;
    for (const auto& sitting : judged.likely().sittings)
        sum += sitting.sum(&Bite::caffeine_mg);
    if (sum > most + grain)
        findings.add(-1, sum, most, "mg",
                     fmt::format("{:.0f} mg of caffeine on the course; at most {:.0f} after the morning's",
                                 sum, most));
}

void fluid_sweat(const Judged& judged, Findings& findings) {
    for (const auto& day : judged.days) {
        double drunk = 0;
        for (const auto& sitting : day.sittings) {
            drunk += sitting.sum(&Bite::fluid_ml);
            const double sweat = integral(judged, day, &LegNeed::sweat_ml_per_h, 0, sitting.clock_s);
            if (drunk > sweat + grain)
                findings.add(sitting, drunk, sweat, "ml",
                             fmt::format("{:.0f} ml drunk by {}, {:.0f} ml sweated", drunk,
                                         moment_text(sitting), sweat));
        }
    }
}

/// A swallow serves one gel; windows of one length, so the oldest water is the right one to take first.
void gel_water(const Judged& judged, Findings& findings) {
    for (const auto& day : judged.days) {
        // On the run stations are places: the quarter of an hour is that of the likely day.
        const auto within_s = [&](const Sitting& sitting) {
            const auto leg = static_cast<size_t>(sitting.leg_index);
            const double slower = day.lengths_s[leg] / judged.likely().lengths_s[leg];
            return gel_water_within_s * (sitting.leg == LegKind::run ? slower : 1);
        };
        std::vector<double> left;
        for (const auto& sitting : day.sittings) {
            double ml = 0;
            for (const auto& bite : sitting.bites)
                ml += bite.drink && !is_strong(judged.asked, bite) ? bite.fluid_ml : 0;
            left.push_back(ml);
        }
        for (const auto& sitting : day.sittings)
            for (const auto& bite : sitting.bites) {
                if (!bite.food || !bite.food->needs_water)
                    continue;
                const double wanted = gel_water_ml_per_g * std::min(bite.carb_g, gel_water_most_g);
                double missing = wanted;
                for (size_t i = 0; i < left.size(); ++i)
                    if (std::abs(day.sittings[i].clock_s - sitting.clock_s) <= within_s(sitting) + 1) {
                        const double part = std::min(missing, left[i]);
                        missing -= part;
                        left[i] -= part;
                    }
                if (missing > 1)
                    findings.add(
                        sitting, wanted - missing, wanted, "ml",
                        fmt::format("{:.0f} ml of water within 15 min of the {} at {}; {:.0f} ml are wanted",
                                    wanted - missing, bite.food->name, moment_text(sitting), wanted));
            }
    }
}

void fluid_leg(const Judged& judged, Findings& findings) {
    std::vector<double> drunk(judged.asked.effort.legs.size());
    for (const auto& sitting : judged.likely().sittings)
        drunk[leg_that_drinks(judged, sitting.leg_index)] += sitting.sum(&Bite::fluid_ml);
    for (size_t i = 0; i < drunk.size(); ++i)
        if (const double most = ceiling_ml(judged, i); drunk[i] > most + grain)
            findings.add(static_cast<int>(i), drunk[i], most, "ml",
                         fmt::format("{:.0f} ml on the {}; its ceiling allows {:.0f}", drunk[i],
                                     to_string(judged.asked.effort.legs[i].kind), most));
}

void fluid_day(const Judged& judged, Findings& findings) {
    double drunk = 0, most = 0;
    for (const auto& sitting : judged.likely().sittings)
        drunk += sitting.sum(&Bite::fluid_ml);
    for (size_t i = 0; i < judged.asked.effort.legs.size(); ++i)
        most += ceiling_ml(judged, i);
    if (drunk > most + grain)
        findings.add(-1, drunk, most, "ml",
                     fmt::format("{:.0f} ml on the day; its ceilings allow {:.0f}", drunk, most));
}

void carb_leg(const Judged& judged, Findings& findings) {
    const auto& legs = judged.asked.effort.legs;
    std::vector<double> eaten(legs.size());
    for (const auto& sitting : judged.likely().sittings)
        eaten[static_cast<size_t>(sitting.leg_index)] += sitting.sum(&Bite::carb_g);
    for (size_t i = 0; i < legs.size(); ++i) {
        // A leg of minutes has no mean: one gel is one gel.
        const double hours = std::max(1.0, legs[i].time.p50_s / hour_s);
        const double rate = judged.asked.need.legs[i].carb_g_per_h;
        const double most = leg_share * (rate > 0 ? rate : judged.asked.need.limits.carb_g.count()) * hours;
        if (eaten[i] > most + grain)
            findings.add(static_cast<int>(i), eaten[i], most, "g",
                         fmt::format("{:.0f} g of carbohydrate on the {}; at most {:.0f}", eaten[i],
                                     to_string(legs[i].kind), most));
    }
}

} // namespace tuck::schedule::judging
