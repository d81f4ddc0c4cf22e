#include "need/fluid.hpp"

#include "base/sources.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::need {

namespace {

constexpr double z95 = 1.6448536269514722; // of the standard normal
constexpr double gain_of_mass = figure("drink.gain_of_mass");
constexpr double unrehearsed_ml_per_h = figure("drink.unrehearsed_ml_per_h");
constexpr double light_kg = figure("drink.light_kg"), long_h = figure("drink.long_h");

bool drinks(LegKind kind) {
    return kind == LegKind::bike || kind == LegKind::run;
}

bool careful(const Athlete& athlete, const Effort& effort) {
    const auto& health = athlete.health;
    return health.heart_kidney_or_blood_pressure || health.pregnant_or_breastfeeding ||
           (athlete.mass_kg < light_kg && effort.total.p50_s > long_h * 3600);
}

/// Log SD of the day's sweat by its weather and pace: first order, with all legs fast or slow together.
double day_log_sd(const Effort& effort, const Body& body) {
    const auto& m = body.minutes;
    double sweat = 0, per_c = 0, by_pace = 0;
    std::size_t leg = 0;
    for (std::size_t i = 0; i < m.size(); ++i) {
        while (leg + 1 < effort.legs.size() && effort.legs[leg].leg_index != m.leg_index[i])
            ++leg;
        sweat += m.sweat_ml_per_h[i] * m.length_s[i];
        per_c += m.sweat_ml_per_h_per_c[i] * m.length_s[i];
        by_pace += m.sweat_ml_per_h_per_pace[i] * effort.legs[leg].log_sd * m.length_s[i];
    }
    return sweat > 0 ? std::hypot(figure("day.forecast_error_c") * per_c, by_pace) / sweat : 0.0;
}

/// How far the 5th percentile of a leg's sweat lies below the median, as a logarithm. People multiply sweat,
/// weather and pace add to it: the low end of a sum lies further down than its logarithm's SD says.
double low_end_log(double people_log_sd, double day_sd) {
    constexpr double least_share = 0.05; // of the day's part, far below what any spread here gives
    const double both = std::hypot(people_log_sd, day_sd);
    if (day_sd <= 0 || both <= 0)
        return z95 * both;
    const double z_day = z95 * day_sd / both;
    const double day_log = -std::log(std::max(least_share, 1 - z_day * day_sd)) / z_day;
    return z95 * std::hypot(people_log_sd, day_log);
}

/// No mass and no percentage to whom the scale is no friend.
std::string day_text(const DayFluid& day, bool mass_hidden) {
    if (mass_hidden)
        return fmt::format(
            "all drink of the day at most {:.1f} L, of {:.1f} L of likely sweat: drunk whole, it "
            "leaves much more water than at the start on at most 5 days in 100",
            day.day_ml / 1000, day.sweat_ml / 1000);
    return fmt::format(
        "all drink of the day at most {:.1f} L: {:.2f} of {:.1f} L of likely sweat, the part that "
        "is reached on 95 days in 100, and 1 % of body mass; drunk whole, it adds more than that "
        "1 % on at most 5 days in 100",
        day.day_ml / 1000, day.careful_share, day.sweat_ml / 1000);
}

} // namespace

DayFluid day_fluid(double mass_kg, const Effort& effort, const Body& body) {
    DayFluid day;
    const double day_sd = day_log_sd(effort, body);
    double careful_ml = 0, drinking_ml = 0;
    for (std::size_t i = 0; i < body.legs.size(); ++i) {
        const auto& leg = body.legs[i];
        const double sweat_ml = leg.sweat_ml_per_h * effort.legs[i].time.p50_s / 3600;
        day.sweat_ml += sweat_ml;
        careful_ml += sweat_ml * std::exp(-low_end_log(leg.sweat_log_sd, day_sd));
        if (drinks(leg.kind))
            drinking_ml += sweat_ml;
    }
    day.margin_ml = gain_of_mass * 1000 * mass_kg;
    day.day_ml = careful_ml + day.margin_ml;
    if (day.sweat_ml > 0)
        day.careful_share = careful_ml / day.sweat_ml;
    if (drinking_ml > 0)
        day.of_sweat = std::min(1.0, day.day_ml / drinking_ml);
    return day;
}

FluidCeiling fluid_ceiling(const Athlete& athlete, const Effort& effort, const Body& body, const LegBody& leg,
                           const Limits& limits) {
    const auto day = day_fluid(athlete.mass_kg, effort, body);
    FluidCeiling out{day.of_sweat * leg.sweat_ml_per_h, {}};
    const auto lower = [&out](double ml_per_h, std::string text, const char* source) {
        if (out.ml_per_h <= ml_per_h)
            return;
        out.ml_per_h = ml_per_h;
        out.because.push_back({std::move(text), source});
    };
    const bool mass_hidden = athlete.health.past_eating_disorder;
    out.because.push_back(
        {day_text(day, mass_hidden),
         mass_hidden ? "our choice, after the chance of low sodium (Noakes 2005)"
                     : "our choice, after the chance of low sodium by change of mass (Noakes 2005)"});
    out.because.push_back(
        {day.of_sweat < 1 ? fmt::format("shared by sweat: up to {:.2f} of the likely {:.0f} ml/h here: a "
                                        "ceiling, not a target",
                                        day.of_sweat, leg.sweat_ml_per_h)
                          : fmt::format("never above the likely sweat, here {:.0f} ml/h: a ceiling, not a "
                                        "target",
                                        leg.sweat_ml_per_h),
         body.sweat_measured ? "own sweat test; day-to-day spread Smith 2021" : "spread Barnes 2019"});
    if (careful(athlete, effort))
        lower(leg.sweat_p20_ml_per_h,
              fmt::format("more careful here: at most the 20th percentile of sweat, {:.0f} ml/h",
                          leg.sweat_p20_ml_per_h),
              source::practice);
    const double shown = std::max(unrehearsed_ml_per_h, athlete.rehearsed.fluid_ml_per_h);
    const double most = std::min(shown, most_fluid_ml_per_h);
    lower(most, fmt::format("at most {:.0f} ml/h unless more has been rehearsed", most),
          "ACSM 2007 (0.4-0.8 L/h); US Army (1.42 L/h at most)");
    if (limits.fluid_scale < 1) {
        out.ml_per_h *= limits.fluid_scale;
        out.because.insert(out.because.end(), limits.because.begin(), limits.because.end());
    }
    out.ml_per_h = 10 * std::floor(out.ml_per_h / 10 + 1e-9);
    return out;
}

} // namespace tuck::need
