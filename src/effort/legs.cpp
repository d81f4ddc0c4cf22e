// Each leg's estimate.
#include "base/clock.hpp"
#include "base/conditions.hpp"
#include "base/sources.hpp"
#include "effort/estimate.hpp"
#include "effort/field.hpp"
#include "effort/levels.hpp"
#include "effort/results.hpp"
#include "effort/scaling.hpp"
#include "effort/water_rules.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::effort {

namespace {

constexpr double bicycle_kg = figure("pace.bicycle_kg");
constexpr double drafting_drag = figure("pace.drafting_drag");
constexpr double ordinary_wbgt_c = figure("pace.ordinary_wbgt_c");

/// How fast the athlete runs 10 km, s, as far as anything tells it: heat costs the slow more.
double run_10k_s(const Situation& now) {
    const auto& athlete = now.athlete;
    if (const auto shown = from_results(athlete, now.event, Sport::run, standard_run_m))
        return shown->time_s;
    if (athlete.threshold_run_s_per_km)
        return scaled_time_s(Sport::run, 3600, 3600e3 / *athlete.threshold_run_s_per_km, standard_run_m);
    return from_field(now, Sport::run, standard_run_m).time_s;
}

/// Times of the field hold the weather of its races already: a cooler day is faster than they are.
void slow_by_heat(Estimate& estimate, const Situation& now, double share) {
    const double slope = heat_slope(run_10k_s(now)) * share;
    const double held = estimate.of_field ? heat_factor(ordinary_wbgt_c, slope) : 1;
    const double factor = heat_factor(now.wbgt_c, slope) / held;
    if (factor == 1)
        return;
    estimate.time_s *= factor;
    estimate.log_sd = root_sum({estimate.log_sd, (factor - 1) / 2});
    estimate.because.push_back(
        {fmt::format("heat: WBGT {:.0f} C, sun included, makes it {:.1f} % {}{}", now.wbgt_c,
                     std::abs(factor - 1) * 100, factor > 1 ? "slower" : "faster",
                     estimate.of_field ? " than race results hold already (WBGT 20 C)" : ""),
         "Ely 2007 (by how fast one runs); Mantzios 2022"});
}

/// Times from a pool gain by a wetsuit, times of races hold one already.
void dress(Estimate& estimate, const Situation& now, double swim_m) {
    const auto water_c = now.weather.water_temperature_c;
    if (!water_c || !now.event.race)
        return;
    const bool worn = *water_c <= wetsuit_limit_c(swim_m);
    if (worn == estimate.of_field)
        return;
    const double gain = wetsuit_gain(now.athlete.level);
    estimate.time_s *= worn ? 1 / (1 + gain) : 1 + gain;
    estimate.log_sd = root_sum({estimate.log_sd, gain / 2});
    estimate.because.push_back(
        {worn ? fmt::format("a wetsuit, allowed in water of {:.0f} C: speed +{:.0f} %", *water_c, gain * 100)
              : fmt::format("no wetsuit in water of {:.0f} C: {:.0f} % slower than race results hold",
                            *water_c, gain * 100),
         "Cordain 1991; Gay 2022 (by level: our choice)"});
}

/// How much of the way is ridden behind others nobody knows: half of the gain is unsure.
void tell_drafting(Estimate& estimate, double alone_s) {
    const double gain = std::log(alone_s / estimate.time_s);
    estimate.log_sd = root_sum({estimate.log_sd, gain / 2});
    estimate.because.push_back(
        {fmt::format("draft-legal: drag area times {:.1f} behind others, {:.1f} % faster than alone; half of "
                     "it is unsure",
                     drafting_drag, (std::exp(gain) - 1) * 100),
         "Kyle 1979 (groups ride 0.9-1.8 m/s faster; the share of drag from memory)"});
}

/// Lifts the estimate off the pool.
Estimate open_water(Estimate pool, const Reason& reason) {
    pool.time_s *= open_water_factor;
    pool.log_sd = root_sum({pool.log_sd, sd_open_water});
    pool.because.push_back(reason);
    return pool;
}

double altitude_share(const Situation& now) {
    return aerobic_share_at_altitude(altitude_of(now));
}

Estimate run_alone(const Situation& now, double distance_m) {
    const auto& athlete = now.athlete;
    if (const auto estimate = from_results(athlete, now.event, Sport::run, distance_m))
        return *estimate;
    if (athlete.threshold_run_s_per_km) {
        const double hour_m = 3600e3 / *athlete.threshold_run_s_per_km;
        const bool far = std::abs(std::log(distance_m / hour_m)) > std::log(2.0);
        return {scaled_time_s(Sport::run, 3600, hour_m, distance_m),
                root_sum({far ? sd_run_far : sd_run_near, sd_threshold_test}),
                {{fmt::format("threshold pace {}/km taken as the pace of one hour",
                              duration_text(*athlete.threshold_run_s_per_km)),
                  "Riegel 1981"}},
                false};
    }
    return from_field(now, Sport::run, distance_m);
}

/// Transitions of other distances against the standard (judgement; Rust 2014: shorter at middle than long).
double transition_scale(const Event& event) {
    double bike_m = 0;
    for (const auto& leg : event.legs)
        if (leg.kind == LegKind::bike)
            bike_m = std::max(bike_m, leg.track ? leg.track->length_m * leg.laps : leg.distance_m);
    return bike_m > 120e3 ? 1.7 : bike_m > 60e3 ? 1.27 : bike_m > 25e3 ? 1.0 : bike_m > 14e3 ? 0.87 : 0.75;
}

std::string course_words(const Situation& now, const Leg& leg) {
    const bool ordinary = !now.course && !leg.ascent_m;
    return fmt::format("{:.0f} m of climbing{}", ascent_of(now, leg, leg.distance_m),
                       now.course ? " along the track"
                       : ordinary ? " (an ordinary road)"
                                  : "");
}

/// Power, W, behind a ride of this time in a result: at sea level, alone, on an ordinary road.
double power_behind_w(const Situation& now, double distance_m, double time_s) {
    const double shown_s = shown_ride_s(now.athlete, distance_m, time_s);
    return ride_effort_for_w(ordinary_road(distance_m), ride_of(now.athlete, now.weather, false, 0, shown_s),
                             time_s);
}

/// A ride's power with the reason for it; the time is left open.
struct Power {
    double watts = 0;
    Estimate estimate;
};

Power power_of_results(const Situation& now, double distance_m, Estimate estimate) {
    estimate.because.push_back(
        {"results are taken to hold an ordinary road: 5 m of climbing a km, wind of 2 m/s, a "
         "stop or sharp bend every 5 km",
         source::our_choice});
    estimate.shown_ride_s = shown_ride_s(now.athlete, distance_m, estimate.time_s);
    return {power_behind_w(now, distance_m, estimate.time_s), estimate};
}

Power power_of(const Situation& now, double distance_m) {
    const auto& athlete = now.athlete;
    if (auto estimate = from_results(athlete, now.event, Sport::bike, distance_m)) {
        estimate->log_sd = root_sum({estimate->log_sd, sd_bike_model});
        return power_of_results(now, distance_m, *estimate);
    }
    if (athlete.threshold_power_w) {
        const double share = bike_intensity_factor(athlete.level, distance_m);
        const double drag = athlete.position == Position::unspecified ? sd_drag : 0.0;
        return {*athlete.threshold_power_w * share,
                {0,
                 root_sum({sd_bike_model, sd_threshold_test, drag}),
                 {{fmt::format("threshold power {:.0f} W, {:.0f} % of it held over {}",
                               *athlete.threshold_power_w, share * 100, km_text(distance_m)),
                   "our choice by distance; Etxebarria 2014 and Aoyagi 2021 bracket the standard"}},
                 false}};
    }
    return power_of_results(now, distance_m, from_field(now, Sport::bike, distance_m));
}

} // namespace

double shown_ride_s(const Athlete& athlete, double distance_m, double time_s) {
    const double womens = athlete.sex == Sex::female ? womens_time_factor(Sport::bike, distance_m) : 1;
    return scaled_time_s(Sport::bike, time_s, distance_m, standard_bike_m) / womens;
}

Ride ride_of(const Athlete& athlete, const Weather& weather, bool draft_legal, double altitude_m,
             double shown_ride_s) {
    Ride ride;
    ride.mass_kg = athlete.mass_kg + bicycle_kg;
    const bool by_time =
        shown_ride_s > 0 && athlete.position == Position::unspecified && athlete.level == Level::unknown;
    ride.cda_m2 = by_time ? drag_area_of_time_m2(shown_ride_s, athlete.mass_kg)
                          : drag_area_m2(athlete.position, athlete.level, athlete.mass_kg);
    ride.stop_every_m = ordinary_stop_every_m;
    ride.fastest_descent_m_s = fastest_descent_m_s(athlete.level);
    if (draft_legal)
        ride.cda_m2 *= drafting_drag;
    ride.air_density = air_density_kg_per_m3(weather.temperature_c, pressure_at_altitude_pa(altitude_m),
                                             humidity_pct(weather));
    return ride;
}

double wind_of(const Situation& now, const Leg& leg) {
    return leg.wind_m_s.value_or(wind_m_s(now.weather));
}

double altitude_of(const Situation& now) {
    return now.course && now.course->heights_known ? std::max(0.0, now.course->mean_height_m) : 0;
}

double ascent_of(const Situation& now, const Leg& leg, double distance_m) {
    if (now.course)
        return now.course->climb.up_m * leg.laps;
    return leg.ascent_m.value_or(leg.kind == LegKind::bike ? ordinary_climb * distance_m : 0);
}

std::optional<double> ride_over_sustained(const Situation& now, const Leg& leg, double distance_m,
                                          double time_s) {
    const auto& athlete = now.athlete;
    if (!athlete.threshold_power_w && !from_results(athlete, now.event, Sport::bike, distance_m))
        return std::nullopt;
    const auto [watts, estimate] = power_of(now, distance_m);
    const auto rider =
        ride_of(athlete, now.weather, now.event.draft_legal, altitude_of(now), estimate.shown_ride_s);
    return ride_effort_for_w(road_for(now, leg, distance_m), rider, time_s) / watts;
}

Road road_for(const Situation& now, const Leg& leg, double distance_m) {
    const Wind wind{wind_of(now, leg), leg.wind_from_deg ? leg.wind_from_deg : now.weather.wind_from_deg};
    return now.course ? road_of(*now.course, leg.laps, wind)
                      : plain_road(distance_m, ascent_of(now, leg, distance_m), wind);
}

Estimate swim_estimate(const Situation& now, const Leg& leg) {
    const auto& athlete = now.athlete;
    Estimate estimate;
    if (const auto pool = from_results(athlete, now.event, Sport::swim, leg.distance_m))
        estimate = open_water(*pool, {"open water +5 %: sighting, no walls", "from memory"});
    else if (athlete.critical_swim_speed_m_s)
        estimate =
            open_water({scaled_time_s(Sport::swim, standard_swim_m / *athlete.critical_swim_speed_m_s,
                                      standard_swim_m, leg.distance_m),
                        0,
                        {{fmt::format("critical swim speed {:.2f} m/s held over 1.5 km, power law beyond",
                                      *athlete.critical_swim_speed_m_s),
                          "Wakayoshi 1993; Riegel 1981"}},
                        false},
                       {"open water +5 %: sighting, no walls", "from memory"});
    else
        estimate = from_field(now, Sport::swim, leg.distance_m);
    dress(estimate, now, leg.distance_m);
    return estimate;
}

Estimate bike_estimate(const Situation& now, const Leg& leg) {
    auto [watts, estimate] = power_of(now, leg.distance_m);
    if (const double share = altitude_share(now); share < 1) {
        watts *= share;
        estimate.because.push_back({fmt::format("at {:.0f} m above the sea: {:.1f} % less power",
                                                altitude_of(now), (1 - share) * 100),
                                    "Wehrlin & Hallen 2006 (from memory), not acclimatised"});
    }
    const auto rider =
        ride_of(now.athlete, now.weather, now.event.draft_legal, altitude_of(now), estimate.shown_ride_s);
    const auto road = road_for(now, leg, leg.distance_m);
    estimate.time_s = ride(road, rider, watts).time_s;
    estimate.because.push_back(
        {fmt::format("road-cycling power balance at {:.0f} W: drag area {:.2f} m2, {}, wind {:.0f} m/s",
                     watts, rider.cda_m2, course_words(now, leg), wind_of(now, leg)),
         "Martin 1998"});
    if (now.event.draft_legal)
        tell_drafting(estimate,
                      ride(road,
                           ride_of(now.athlete, now.weather, false, altitude_of(now), estimate.shown_ride_s),
                           watts)
                          .time_s);
    slow_by_heat(estimate, now, 0.5);
    return estimate;
}

Estimate run_estimate(const Situation& now, const Leg& leg) {
    Estimate estimate = run_alone(now, leg.distance_m);
    if (now.bike_before_m > 0) {
        const double factor = run_off_bike_factor(now.athlete.level, now.bike_before_m);
        estimate.time_s *= factor;
        estimate.log_sd = root_sum({estimate.log_sd, estimate.of_field ? 0.0 : sd_after_bike});
        estimate.because.push_back({fmt::format("run off the bike: times {:.2f}", factor),
                                    "Suriano 2010; Hausswirth 1997 (by level: our choice)"});
    }
    const double hilly_s = run(road_for(now, leg, leg.distance_m), leg.distance_m / estimate.time_s).time_s;
    if (const double factor = hilly_s / estimate.time_s; std::abs(factor - 1) > 1e-9) {
        estimate.time_s = hilly_s;
        estimate.because.push_back({fmt::format("{}: times {:.3f}", course_words(now, leg), factor),
                                    "Minetti 2002 (cost by slope; downhill capped, our choice)"});
    }
    if (now.ride_over > 1) {
        const double factor = 1 + run_slower_per_ride * (now.ride_over - 1);
        estimate.time_s *= factor;
        estimate.because.push_back(
            {fmt::format("after a ride {:.0f} % above what its length sustains: times {:.3f}",
                         (now.ride_over - 1) * 100, factor),
             "Suriano 2010 (beyond 100 % of a time trial: our choice)"});
    }
    if (const double share = altitude_share(now); share < 1) {
        const double factor = 1 / (1 - (1 - share) / 2); // speed loses less than power, our choice
        estimate.time_s *= factor;
        estimate.because.push_back(
            {fmt::format("at {:.0f} m above the sea: times {:.3f}", altitude_of(now), factor),
             "Wehrlin & Hallen 2006 (from memory; half of it, our choice)"});
    }
    slow_by_heat(estimate, now, 1.0);
    return estimate;
}

Estimate transition_estimate(const Situation& now, LegKind kind) {
    const auto& athlete = now.athlete;
    const auto standard = standard_times(athlete.level);
    const double time_s = (kind == LegKind::t1 ? standard.t1_s : standard.t2_s) * transition_scale(now.event);
    const double sd = athlete.level == Level::unknown ? sd_transition : sd_transition * stated_level;
    return {time_s,
            sd,
            {{fmt::format("{} of the {:.0f}th percentile over the standard distance, scaled by the event",
                          kind == LegKind::t1 ? "T1" : "T2", percentile_of(athlete.level)),
              results_source}},
            true};
}

} // namespace tuck::effort
