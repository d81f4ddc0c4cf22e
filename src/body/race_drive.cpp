#include "body/race_drive.hpp"

#include "base/conditions.hpp"
#include "base/day_sun.hpp"
#include "base/sources.hpp"
#include "body/energy.hpp"
#include "body/heat.hpp"
#include "body/land_heat.hpp"
#include "body/sweat.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::body {

namespace {

constexpr double kcal_per_h_per_w = 3600 / 4184.0;
constexpr double transition_w_per_kg = 6.0; // brisk walking and changing, about 5 MET

// Athletes of one sport differ by an SD of 45 % of the mean (Barnes 2019: 1.28 +- 0.57 L/h). After a test in
// like weather the day-to-day difference is about 0.15 L/h (Smith 2021), some 15 % of it.
constexpr double sweat_cv_untested = figure("people.sweat_cv"), sweat_log_sd_tested = 0.15;
constexpr double other_sport_log_sd = figure("people.other_sport_log_sd");

// Carried to other weather, a test brings the model's slope along: between 0.10 L/h per 10 C (the fit to
// Sawka 2007) and 0.40 (ISO 7933 on the same runners). Even between the two: SD 0.087 L/h per 10 C, of about
// 1 L/h.
constexpr double slope_log_sd_per_c = 0.0087;

// What the rise in heat is worth: the nine trials of Junge 2016, Table 1, scatter about the model by an SD of
// 0.11 of the logarithm, where it holds whole.
constexpr double heat_log_sd = figure("people.heat_log_sd");

double heat_log(double air_c) {
    return heat_log_sd * share_of_heat(air_c);
}

double metabolic_w(LegKind kind, double speed_m_s, double power_w, double mass_kg) {
    switch (kind) {
    case LegKind::swim:
        return swim_metabolic_power_w(speed_m_s, mass_kg);
    case LegKind::bike:
        return ride_metabolic_power_w(power_w, mass_kg);
    case LegKind::run:
        return on_foot_vo2_ml_per_kg_min(speed_m_s * 3.6) * mass_kg / 1000 / 60 * joule_per_l_o2;
    default:
        return transition_w_per_kg * mass_kg;
    }
}

/// Running a known road: the level cost times what the slope makes of it (Minetti 2002), as the mean of the
/// leg. Climbs and descents are not told apart in heat: the body evens out minutes (ISO 7933: some 10 min).
double road_running_w(const std::vector<Section>& sections, double mass_kg) {
    constexpr double steepest = 0.45; // measured to here
    double joule = 0, seconds = 0;
    for (const auto& section : sections) {
        const double grade = std::clamp(section.grade, -steepest, steepest);
        const double slope = run_cost_j_per_kg_m(grade) / run_cost_j_per_kg_m(0);
        const double time_s = section.to_s - section.from_s;
        joule += slope * metabolic_w(LegKind::run, section.speed_m_s, 0, mass_kg) * time_s;
        seconds += time_s;
    }
    return joule / seconds;
}

/// The leg that a sweat test of this sport stands for: the longest of that sport, else the longest on land.
const LegEffort* leg_for_test(const Effort& effort, std::optional<Sport> sport) {
    const LegEffort* best = nullptr;
    for (const auto& leg : effort.legs) {
        const bool fits =
            sport ? leg.kind == to_leg_kind(*sport) : leg.kind == LegKind::bike || leg.kind == LegKind::run;
        if (fits && (!best || leg.time.p50_s > best->time.p50_s))
            best = &leg;
    }
    return best || !sport ? best : leg_for_test(effort, std::nullopt);
}

} // namespace

double sweat_log_sd(const Athlete& athlete, const Event& event) {
    if (athlete.learned_sweat)
        return athlete.learned_sweat->log_sd; // holds what the tests leave open about other weather
    const double race_c = event.weather.temperature_c;
    if (!athlete.sweat) {
        const double between_athletes = std::sqrt(std::log(1 + sweat_cv_untested * sweat_cv_untested));
        return std::hypot(between_athletes, heat_log(race_c));
    }
    const double test_c = athlete.sweat->temperature_c.value_or(race_c);
    return std::hypot(sweat_log_sd_tested, slope_log_sd_per_c * (race_c - test_c),
                      heat_log(race_c) - heat_log(test_c));
}

double sun_log_sd(const Event& event, const Effort& effort, const std::vector<LegDrive>& drives) {
    if (!sun_assumed(event.weather))
        return 0;
    Event clear = event;
    clear.weather.sun_share = 1;
    const auto points = air_points(clear);
    double hour = start_hour(event), none = 0, all = 0;
    for (std::size_t i = 0; i < drives.size(); ++i) {
        const double hours = effort.legs[i].time.p50_s / 3600;
        const Air air = mean_air(points, hour, hour + hours);
        none += hours * heat_of(drives[i], air, 0).sweat_w;
        all += hours * heat_of(drives[i], air, solar_w_per_m2(drives[i].kind, air)).sweat_w;
        hour += hours;
    }
    return none + all > 0 ? usual_sun_share_sd * (all - none) / ((all + none) / 2) : 0;
}

namespace {

/// A learned factor is a median; the stage carries means until the end.
double mean_of(double median, double log_sd) {
    return median * std::exp(log_sd * log_sd / 2);
}

Reason learned_reason(const LearnedSweat& learned, double factor, double log_sd) {
    return {fmt::format("own sweat tests ({}): {:.2f} times the model, likely within {:.0f} % on a day",
                        learned.tests, factor, 100 * std::expm1(log_sd)),
            source::own_diary};
}

SweatFactor learned_factor(const LearnedSweat& learned) {
    SweatFactor out;
    out.factor = mean_of(learned.factor, learned.log_sd);
    out.because = {learned_reason(learned, learned.factor, learned.log_sd)};
    if (learned.run_factor) {
        const double log_sd = std::hypot(learned.log_sd, learned.run_more_log_sd);
        out.on_run = mean_of(*learned.run_factor, log_sd);
        out.on_run_more_log_sd = learned.run_more_log_sd;
        out.on_run_because = {learned_reason(learned, *learned.run_factor, log_sd)};
    }
    return out;
}

/// What a rate measured in `leg` makes of the model.
SweatFactor measured_factor(const MeasuredSweat& sweat, const LegEffort& leg, const Athlete& athlete,
                            const Event& event, double from_h, double hours) {
    Air air = mean_air(air_points(event), from_h, from_h + hours); // of the race, where the test says nothing
    air.temperature_c = sweat.temperature_c.value_or(air.temperature_c);
    air.humidity_pct = sweat.humidity_pct.value_or(air.humidity_pct);
    // In cold air the model may give almost nothing; a quarter litre keeps the ratio sane (our choice).
    const double modelled =
        std::max(250.0, heat_of(leg_drive(athlete, event, leg), air, solar_w_per_m2(leg.kind, air)).sweat_w /
                            watt_per_l_per_h * 1000);
    const double factor = sweat.sweat_ml_per_h / modelled;
    SweatFactor out;
    out.factor = factor;
    out.tested = leg.kind;
    out.because = {{fmt::format("own sweat test: {:.0f} ml/h at {:.0f} C, {:.2f} times the model there",
                                sweat.sweat_ml_per_h, air.temperature_c, factor),
                    source::own_input}};
    return out;
}

} // namespace

SweatFactor sweat_factor(const Athlete& athlete, const Event& event, const Effort& effort) {
    if (athlete.learned_sweat)
        return learned_factor(*athlete.learned_sweat);
    const LegEffort* leg = athlete.sweat ? leg_for_test(effort, athlete.sweat->sport) : nullptr;
    if (!leg)
        return {};
    double hours = 0;
    for (const auto& each : effort.legs)
        hours += each.time.p50_s / 3600;
    const double from_h = start_hour(event);
    auto out = measured_factor(*athlete.sweat, *leg, athlete, event, from_h, hours);
    const LegEffort* run = athlete.sweat_on_run ? leg_for_test(effort, Sport::run) : nullptr;
    if (run && run->kind == LegKind::run) {
        const auto there = measured_factor(*athlete.sweat_on_run, *run, athlete, event, from_h, hours);
        out.on_run = there.factor;
        out.on_run_because = there.because;
    }
    return out;
}

SweatFactor factor_on(const SweatFactor& own, LegKind kind) {
    if (kind == LegKind::run && own.on_run) {
        SweatFactor out;
        out.factor = *own.on_run;
        out.more_log_sd = own.on_run_more_log_sd;
        out.because = own.on_run_because;
        return out;
    }
    if (!own.tested || *own.tested == kind)
        return own;
    SweatFactor out = own;
    out.factor = std::sqrt(own.factor);
    out.more_log_sd = other_sport_log_sd;
    out.because.push_back(
        {fmt::format("the test was on the {}: half of it carries over, {:.2f} times the model here",
                     to_string(*own.tested), out.factor),
         "our choice; Baker 2022 (the sport is one of few known causes)"});
    return out;
}

LegDrive leg_drive(const Athlete& athlete, const Event& event, const LegEffort& leg) {
    LegDrive drive;
    drive.leg_index = leg.leg_index;
    drive.kind = leg.kind;
    drive.metabolic_w = leg.kind == LegKind::run && !leg.sections.empty()
                            ? road_running_w(leg.sections, athlete.mass_kg)
                            : metabolic_w(leg.kind, leg.speed_m_s, leg.power_w, athlete.mass_kg);
    drive.mechanical_w = leg.kind == LegKind::bike ? leg.power_w : 0;
    drive.area_m2 = body_surface_m2(athlete.mass_kg, height_m(athlete));
    drive.mass_kg = athlete.mass_kg;
    drive.speed_m_s = std::max(leg.speed_m_s, least_speed_m_s);
    const double kcal_per_h = drive.metabolic_w * kcal_per_h_per_w;
    const double carb_share = carb_share_from_intensity(leg.intensity);
    drive.carb_g_per_h = carb_share * kcal_per_h / kcal_per_g_carb;
    drive.fat_g_per_h = (1 - carb_share) * kcal_per_h / kcal_per_g_fat;
    if (leg.kind == LegKind::swim)
        drive.swim_sweat_ml_per_h =
            1000 * swim_sweat_l_per_h(drive.metabolic_w, water_temperature_c(event.weather));
    return drive;
}

} // namespace tuck::body
