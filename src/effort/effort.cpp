// The duration estimator.
#include "tuck/effort.hpp"

#include "base/air.hpp"
#include "base/conditions.hpp"
#include "base/sources.hpp"
#include "effort/course.hpp"
#include "effort/levels.hpp"
#include "effort/scaling.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

using namespace effort;

constexpr double z90 = 1.2815515655446004; // 90th percentile of the standard normal
constexpr double leg_correlation = 0.5;    // log splits correlate 0.52-0.61 in the open results
constexpr double bicycle_kg = 9;
constexpr double open_water_factor = 1.05; // sighting, no walls: 3-10 %, from memory
constexpr double easy_factor = 1.10;       // a training session against a race, our choice

// Exponents of the power law. Run: Riegel 1981 to the half marathon; beyond it amateurs fade faster
// (Vickers 2016; Blythe & Kiraly 2016). Swim and bike: Riegel's, from memory.
constexpr double swim_exponent = 1.03, bike_exponent = 1.05, run_exponent = 1.06, long_run_exponent = 1.11;
constexpr double half_marathon_m = 21097.5;

// One SD of a log duration, by what the estimate rests on (judgement on published errors).
constexpr double sd_given = 0.05, sd_open_water = 0.06, sd_run_near = 0.03, sd_run_far = 0.07;
constexpr double sd_after_bike = 0.04, sd_bike_model = 0.04, sd_threshold_test = 0.03, sd_drag = 0.035;
constexpr double sd_transition = 0.40;
constexpr double sd_swim_results = 0.185, sd_bike_results = 0.142, sd_run_results = 0.204;
constexpr double stated_level = 0.6; // a stated level narrows the field's spread by this factor, our choice

/// A median and how sure it is.
struct Estimate {
    double time_s = 0;
    double log_sd = 0;
    std::vector<Reason> because;
};

struct Situation {
    const Athlete& athlete;
    const Event& event;
    double bike_before_m; // bike kilometres behind the runner
};

double run_scaled_s(double time_s, double from_m, double to_m) {
    const double knee = std::clamp(half_marathon_m, std::min(from_m, to_m), std::max(from_m, to_m));
    const auto exponent = [](double a, double b) {
        return std::max(a, b) > half_marathon_m + 1 ? long_run_exponent : run_exponent;
    };
    const double to_knee = riegel_time_s(time_s, from_m, knee, exponent(from_m, knee));
    return riegel_time_s(to_knee, knee, to_m, exponent(knee, to_m));
}

double root_sum(std::initializer_list<double> parts) {
    double sum = 0;
    for (const double part : parts)
        sum += part * part;
    return std::sqrt(sum);
}

std::string clock_text(double seconds) {
    const int s = static_cast<int>(std::lround(seconds));
    return s >= 3600 ? fmt::format("{}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60)
                     : fmt::format("{}:{:02}", s / 60, s % 60);
}

std::string km_text(double metres) {
    return fmt::format("{:g} km", metres / 1000);
}

/// The result nearest in distance (on a log scale).
const RecentResult* nearest_result(const Athlete& athlete, Sport sport, double distance_m) {
    const RecentResult* best = nullptr;
    const auto apart = [distance_m](const RecentResult& r) {
        return std::abs(std::log(r.distance_m / distance_m));
    };
    for (const auto& result : athlete.recent)
        if (result.sport == sport && (!best || apart(result) < apart(*best)))
            best = &result;
    return best;
}

double spread_of_results(const Athlete& athlete, double sd) {
    return athlete.level == Level::unknown ? sd : sd * stated_level;
}

Reason level_reason(const Athlete& athlete) {
    const bool known = athlete.level != Level::unknown;
    return {fmt::format("{}: the {:.0f}th percentile of total time over the standard distance",
                        known
                            ? fmt::format("level \"{}\"", to_string(athlete.level))
                            : std::string("nothing known of the athlete's speed, so the middle of the field"),
                        percentile_of(athlete.level)),
            results_source};
}

void slow_by_heat(Estimate& estimate, const Situation& now, double share) {
    const double wbgt = wbgt_simple_c(now.event.weather.temperature_c, humidity_pct(now.event.weather));
    const double factor = heat_factor(wbgt, heat_slope(now.athlete.level) * share);
    if (factor <= 1)
        return;
    estimate.time_s *= factor;
    estimate.log_sd = root_sum({estimate.log_sd, (factor - 1) / 2});
    estimate.because.push_back(
        {fmt::format("heat: WBGT {:.0f} C makes it {:.1f} % slower", wbgt, (factor - 1) * 100),
         "Ely 2007; Mantzios 2022 (slope between the two is our choice)"});
}

Estimate swim_estimate(const Situation& now, double distance_m) {
    const auto& athlete = now.athlete;
    if (const auto* result = nearest_result(athlete, Sport::swim, distance_m)) {
        const double pool_s = riegel_time_s(result->time_s, result->distance_m, distance_m, swim_exponent);
        return {pool_s * open_water_factor,
                sd_open_water,
                {{fmt::format("recent swim {} in {}, power law to {}, open water +5 %",
                              km_text(result->distance_m), clock_text(result->time_s), km_text(distance_m)),
                  "Riegel 1981 (swim exponent 1.03 and open water from memory)"}}};
    }
    if (athlete.critical_swim_speed_m_s) {
        const double pool_s =
            riegel_time_s(1500 / *athlete.critical_swim_speed_m_s, 1500, distance_m, swim_exponent);
        return {pool_s * open_water_factor,
                sd_open_water,
                {{fmt::format(
                      "critical swim speed {:.2f} m/s held over 1.5 km, power law beyond, open water +5 %",
                      *athlete.critical_swim_speed_m_s),
                  "Wakayoshi 1993; Riegel 1981"}}};
    }
    const double time_s =
        riegel_time_s(standard_times(athlete.level).swim_s, 1500, distance_m, swim_exponent);
    return {time_s, spread_of_results(athlete, sd_swim_results), {level_reason(athlete)}};
}

Ride ride_of(const Situation& now) {
    Ride ride;
    ride.mass_kg = now.athlete.mass_kg + bicycle_kg;
    ride.cda_m2 = drag_area_m2(now.athlete.position, now.athlete.level);
    if (now.event.draft_legal)
        ride.cda_m2 *= 0.7; // behind others, uncertain, from memory
    ride.air_density =
        air_density_kg_per_m3(now.event.weather.temperature_c, 101325, humidity_pct(now.event.weather));
    return ride;
}

/// Power, W, that rides `distance_m` in `time_s` on a flat calm road.
double flat_power_w(const Situation& now, double distance_m, double time_s) {
    return course_power_w({distance_m, 0, 0}, ride_of(now), time_s);
}

Estimate bike_estimate(const Situation& now, const Leg& leg) {
    const auto& athlete = now.athlete;
    Estimate estimate;
    double power_w = 0;
    if (const auto* result = nearest_result(athlete, Sport::bike, leg.distance_m)) {
        const double flat_s =
            riegel_time_s(result->time_s, result->distance_m, leg.distance_m, bike_exponent);
        power_w = flat_power_w(now, leg.distance_m, flat_s);
        estimate.log_sd = sd_bike_model;
        estimate.because = {{fmt::format("recent ride {} in {}, power law to {}", km_text(result->distance_m),
                                         clock_text(result->time_s), km_text(leg.distance_m)),
                             "Riegel 1981 (bike exponent 1.05 from memory)"}};
    } else if (athlete.threshold_power_w) {
        const double share = bike_intensity_factor(athlete.level, leg.distance_m);
        power_w = *athlete.threshold_power_w * share;
        estimate.log_sd = root_sum(
            {sd_bike_model, sd_threshold_test, athlete.position == Position::unspecified ? sd_drag : 0.0});
        estimate.because = {{fmt::format("threshold power {:.0f} W, {:.0f} % of it held over {}",
                                         *athlete.threshold_power_w, share * 100, km_text(leg.distance_m)),
                             "our choice by distance; Etxebarria 2014 and Aoyagi 2021 bracket the standard"}};
    } else {
        const double flat_s =
            riegel_time_s(standard_times(athlete.level).bike_s, 40e3, leg.distance_m, bike_exponent);
        power_w = flat_power_w(now, leg.distance_m, flat_s);
        estimate.log_sd = spread_of_results(athlete, sd_bike_results);
        estimate.because = {level_reason(athlete)};
    }
    const Course course{leg.distance_m, leg.ascent_m, now.event.weather.wind_m_s.value_or(0)};
    estimate.time_s = course_time_s(course, ride_of(now), power_w);
    estimate.because.push_back(
        {fmt::format("road-cycling power balance at {:.0f} W: drag area {:.2f} m2, {:.0f} m of "
                     "climbing, wind {:.0f} m/s",
                     power_w, ride_of(now).cda_m2, leg.ascent_m, course.wind_m_s),
         "Martin 1998"});
    slow_by_heat(estimate, now, 0.5);
    return estimate;
}

Estimate run_alone(const Situation& now, double distance_m) {
    const auto& athlete = now.athlete;
    if (const auto* result = nearest_result(athlete, Sport::run, distance_m)) {
        const double far = std::abs(std::log(distance_m / result->distance_m)) > std::log(2.5);
        return {run_scaled_s(result->time_s, result->distance_m, distance_m),
                far ? sd_run_far : sd_run_near,
                {{fmt::format("recent run {} in {}, power law to {}", km_text(result->distance_m),
                              clock_text(result->time_s), km_text(distance_m)),
                  "Riegel 1981; beyond the half marathon Vickers 2016"}}};
    }
    if (athlete.threshold_run_s_per_km) {
        const double hour_m = 3600 / *athlete.threshold_run_s_per_km * 1000;
        return {run_scaled_s(3600, hour_m, distance_m),
                sd_run_far,
                {{fmt::format("threshold pace {}/km taken as the pace of one hour",
                              clock_text(*athlete.threshold_run_s_per_km)),
                  "Riegel 1981"}}};
    }
    // The results hold runs off the bike: take that out, so that every way meets at the same point.
    const double alone_s = standard_times(athlete.level).run_s / run_off_bike_factor(athlete.level, 40e3);
    return {run_scaled_s(alone_s, 10e3, distance_m),
            spread_of_results(athlete, sd_run_results),
            {level_reason(athlete)}};
}

Estimate run_estimate(const Situation& now, const Leg& leg) {
    Estimate estimate = run_alone(now, leg.distance_m);
    if (now.bike_before_m > 0) {
        const double factor = run_off_bike_factor(now.athlete.level, now.bike_before_m);
        estimate.time_s *= factor;
        estimate.log_sd = root_sum({estimate.log_sd, sd_after_bike});
        estimate.because.push_back({fmt::format("run off the bike: times {:.2f}", factor),
                                    "Suriano 2010; Hausswirth 1997 (by level: our choice)"});
    }
    if (leg.ascent_m > 0) {
        // Up and down a 5 % slope costs 3.2 % more than level for 25 m of climbing a kilometre.
        const double extra = 1 + 1.3 * leg.ascent_m / leg.distance_m;
        estimate.time_s *= extra;
        estimate.because.push_back({fmt::format("{:.0f} m of climbing: times {:.3f}", leg.ascent_m, extra),
                                    "Minetti 2002 (cost up and down a 5 % slope against level)"});
    }
    slow_by_heat(estimate, now, 1.0);
    return estimate;
}

Estimate transition_estimate(const Situation& now, LegKind kind, double event_scale) {
    const auto standard = standard_times(now.athlete.level);
    const double time_s = (kind == LegKind::t1 ? standard.t1_s : standard.t2_s) * event_scale;
    return {time_s, spread_of_results(now.athlete, sd_transition), {level_reason(now.athlete)}};
}

/// Transitions of other distances against the standard (judgement; Rust 2014: shorter at middle than long).
double transition_scale(const Event& event) {
    double bike_m = 0;
    for (const auto& leg : event.legs)
        if (leg.kind == LegKind::bike)
            bike_m = std::max(bike_m, leg.distance_m);
    return bike_m > 120e3 ? 1.7 : bike_m > 60e3 ? 1.27 : bike_m > 25e3 ? 1.0 : bike_m > 14e3 ? 0.87 : 0.75;
}

Estimate estimate_leg(const Situation& now, const Leg& leg) {
    switch (leg.kind) {
    case LegKind::swim:
        return swim_estimate(now, leg.distance_m);
    case LegKind::bike:
        return bike_estimate(now, leg);
    case LegKind::run:
        return run_estimate(now, leg);
    default:
        return transition_estimate(now, leg.kind, transition_scale(now.event));
    }
}

/// Distance, m, that the athlete covers in a session given by time only.
double distance_in(const Situation& now, const Leg& leg) {
    double low = 1, high = 1e6;
    while (high - low > 1) {
        Leg trial = leg;
        trial.distance_m = (low + high) / 2;
        (estimate_leg(now, trial).time_s < *leg.time_s ? low : high) = trial.distance_m;
    }
    return std::round((low + high) / 2);
}

Spread spread_from(double median_s, double log_sd) {
    const double factor = std::exp(z90 * log_sd);
    return {median_s / factor, median_s, median_s * factor};
}

LegEffort leg_effort(const Situation& now, const Leg& leg, int index) {
    LegEffort out;
    out.leg_index = index;
    out.kind = leg.kind;
    out.distance_m = leg.distance_m;
    const bool sport = !is_transition(leg.kind);
    if (sport && leg.distance_m <= 0)
        out.distance_m = distance_in(now, leg);
    Estimate estimate;
    if (leg.time_s) {
        estimate = {*leg.time_s, sport ? sd_given : sd_transition / 2, {{"time given", source::own_input}}};
    } else {
        estimate = estimate_leg(now, leg);
        if (!now.event.race && sport) {
            estimate.time_s *= easy_factor;
            estimate.because.push_back(
                {"a training session, ridden or run easier than a race: times 1.10", source::our_choice});
        }
    }
    out.time = spread_from(estimate.time_s, estimate.log_sd);
    out.log_sd = estimate.log_sd;
    out.because = estimate.because;
    out.speed_m_s = sport ? out.distance_m / estimate.time_s : 0;
    if (leg.kind == LegKind::bike)
        out.power_w = course_power_w({out.distance_m, leg.ascent_m, now.event.weather.wind_m_s.value_or(0)},
                                     ride_of(now), estimate.time_s);
    return out;
}

double total_log_sd(const std::vector<LegEffort>& legs, double total_s) {
    double variance = 0;
    for (const auto& a : legs)
        for (const auto& b : legs)
            variance +=
                (&a == &b ? 1.0 : leg_correlation) * a.log_sd * b.log_sd * a.time.p50_s * b.time.p50_s;
    return std::sqrt(variance) / total_s;
}

void note_assumptions(Effort& effort, const Athlete& athlete, const Event& event) {
    if (athlete.level == Level::unknown && athlete.recent.empty())
        effort.assumptions.push_back(
            "No level and no results given: times are the middle of the field, and wide.");
    if (!event.weather.humidity_pct)
        effort.assumptions.push_back(
            fmt::format("Humidity not given: {:.0f} % assumed.", usual_humidity_pct));
}

} // namespace

Effort estimate_effort(const Athlete& athlete, const Event& event) {
    Effort effort;
    double bike_before_m = 0, total_s = 0;
    for (size_t i = 0; i < event.legs.size(); ++i) {
        const Situation now{athlete, event, bike_before_m};
        effort.legs.push_back(leg_effort(now, event.legs[i], static_cast<int>(i)));
        total_s += effort.legs.back().time.p50_s;
        if (event.legs[i].kind == LegKind::bike)
            bike_before_m += effort.legs.back().distance_m;
    }
    effort.total_log_sd = total_log_sd(effort.legs, total_s);
    effort.total = spread_from(total_s, effort.total_log_sd);
    const double intensity = race_intensity(total_s / 3600, athlete.level) - (event.race ? 0.0 : 0.10);
    for (auto& leg : effort.legs)
        leg.intensity = is_transition(leg.kind) ? 0.45 : intensity;
    note_assumptions(effort, athlete, event);
    return effort;
}

} // namespace tuck
