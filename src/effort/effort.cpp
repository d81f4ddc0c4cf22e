// The duration estimator.
#include "tuck/effort.hpp"

#include "base/clock.hpp"
#include "base/conditions.hpp"
#include "base/day_air.hpp"
#include "base/sources.hpp"
#include "effort/estimate.hpp"
#include "effort/levels.hpp"
#include "effort/water_rules.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <utility>

namespace tuck {

namespace effort {

double root_sum(std::initializer_list<double> parts) {
    double sum = 0;
    for (const double part : parts)
        sum += part * part;
    return std::sqrt(sum);
}

std::string km_text(double metres) {
    return fmt::format("{:.4g} km", metres / 1000);
}

} // namespace effort

namespace {

using namespace effort;

constexpr double z90 = 1.2815515655446004; // 90th percentile of the standard normal
constexpr double leg_correlation = figure("pace.leg_correlation");
constexpr double easy_factor = figure("pace.easy");
constexpr double plan_section_m = 250; // finer than the road's changes of speed: a feed's place hangs on it
constexpr int most_weather_rounds = 6;

template <typename Is>
bool any_wind(const Weather& weather, const Is& is) {
    return is(weather) || std::any_of(weather.hourly.begin(), weather.hourly.end(), is);
}

bool tells_wind(const Weather& weather) {
    return any_wind(weather, [](const auto& at) { return at.wind_m_s.has_value(); });
}

bool blows(const Weather& weather) {
    return any_wind(weather, [](const auto& at) { return at.wind_m_s.value_or(0) > 0; });
}

Estimate estimate_leg(const Situation& now, const Leg& leg) {
    switch (leg.kind) {
    case LegKind::swim:
        return swim_estimate(now, leg);
    case LegKind::bike:
        return bike_estimate(now, leg);
    case LegKind::run:
        return run_estimate(now, leg);
    default:
        return transition_estimate(now, leg.kind);
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

/// The estimate of a leg, or the time that was given for it.
Estimate settled(const Situation& now, const Leg& leg) {
    const bool sport = !is_transition(leg.kind);
    if (leg.time_s) {
        const double shown =
            leg.kind == LegKind::bike ? shown_ride_s(now.athlete, leg.distance_m, *leg.time_s) : 0;
        return {*leg.time_s,
                sport ? sd_given : sd_transition / 2,
                {{"time given", source::own_input}},
                false,
                shown};
    }
    auto estimate = estimate_leg(now, leg);
    if (!now.event.race && sport) {
        estimate.time_s *= easy_factor;
        estimate.because.push_back(
            {"a training session, ridden or run easier than a race: times 1.10", source::our_choice});
    }
    return estimate;
}

/// Mean power of a ride, and along a track what the road does to rider and runner.
void follow_road(const Situation& now, const Leg& leg, double timed_ride_s, LegEffort& out) {
    const auto road = road_for(now, leg, out.distance_m);
    Passage passage;
    if (leg.kind == LegKind::bike) {
        const auto rider =
            ride_of(now.athlete, now.weather, now.event.draft_legal, altitude_of(now), timed_ride_s);
        passage = ride(road, rider, ride_effort_for_w(road, rider, out.time.p50_s));
        out.power_w = passage.power_w;
    } else if (now.course) {
        passage = run(road, out.speed_m_s);
    }
    if (!now.course)
        return;
    const Sport sport = leg.kind == LegKind::bike ? Sport::bike : Sport::run;
    const auto described = describe(road, passage, sport, plan_section_m, out.time.p50_s);
    out.sections = described.sections;
    out.busy = described.busy;
}

/// The weather while the leg lasts. How long that is hangs on the weather again: the answer is sought in
/// rounds, and moves by minutes a degree, so few are enough.
void set_weather_of_leg(Situation& now, const Leg& leg, double start_s) {
    const auto points = air_points(now.event);
    const double start_h = start_hour(now.event) + start_s / 3600;
    double time_s = leg.time_s.value_or(0);
    for (int round = 0; round < most_weather_rounds; ++round) {
        Air air = mean_air(points, start_h, start_h + time_s / 3600);
        now.weather.temperature_c = air.temperature_c;
        if (now.event.weather.humidity_pct || follows_hours(now.event))
            now.weather.humidity_pct = air.humidity_pct;
        if (tells_wind(now.event.weather))
            now.weather.wind_m_s = air.wind_m_s;
        air.wind_m_s = leg.wind_m_s.value_or(air.wind_m_s);
        now.wbgt_c = wbgt_c(air);
        if (points.size() == 1)
            break;
        const double before_s = std::exchange(time_s, leg.time_s ? time_s : settled(now, leg).time_s);
        if (std::abs(time_s - before_s) < 1)
            break;
    }
}

std::string hour_text(double hour) {
    return hour_of_day_text(static_cast<int>(std::lround(hour * 60)));
}

void tell_hours(const Situation& now, double start_s, LegEffort& out) {
    const double from_h = start_hour(now.event) + start_s / 3600, to_h = from_h + out.time.p50_s / 3600;
    out.because.push_back(
        {fmt::format("air from {} to {}: {:.0f} C on average{}", hour_text(from_h), hour_text(to_h),
                     now.weather.temperature_c,
                     tells_wind(now.event.weather) ? fmt::format(", wind {:.0f} m/s", *now.weather.wind_m_s)
                                                   : ""),
         source::own_input});
}

LegEffort leg_effort(Situation now, const Leg& given, int index, double start_s) {
    Leg leg = given;
    leg.track.reset(); // the course stands for it
    if (now.course)
        leg.distance_m = now.course->length_m * leg.laps;
    const bool by_hour = follows_hours(now.event) && !is_transition(leg.kind);
    if (!is_transition(leg.kind))
        set_weather_of_leg(now, leg, start_s);
    if (!now.course && !is_transition(leg.kind) && leg.distance_m <= 0)
        leg.distance_m = distance_in(now, leg);
    const auto estimate = settled(now, leg);
    LegEffort out;
    out.leg_index = index;
    out.kind = leg.kind;
    out.distance_m = leg.distance_m;
    out.time = spread_from(estimate.time_s, estimate.log_sd);
    out.log_sd = estimate.log_sd;
    out.because = estimate.because;
    out.speed_m_s = is_transition(leg.kind) ? 0 : out.distance_m / estimate.time_s;
    if (leg.kind == LegKind::bike || leg.kind == LegKind::run)
        follow_road(now, leg, estimate.shown_ride_s, out);
    if (by_hour && leg.kind != LegKind::swim && !leg.time_s)
        tell_hours(now, start_s, out);
    return out;
}

/// Spread of the first `count` legs together.
double joint_log_sd(const std::vector<LegEffort>& legs, size_t count) {
    double variance = 0, total_s = 0;
    for (size_t i = 0; i < count; ++i) {
        total_s += legs[i].time.p50_s;
        for (size_t k = 0; k < count; ++k)
            variance += (i == k ? 1.0 : leg_correlation) * legs[i].log_sd * legs[k].log_sd *
                        legs[i].time.p50_s * legs[k].time.p50_s;
    }
    return std::sqrt(variance) / total_s;
}

void warn_of_cutoff(Effort& effort, const std::string& what, double cutoff_s, const Spread& spread) {
    if (spread.p90_s <= cutoff_s)
        return;
    const bool likely = spread.p50_s > cutoff_s;
    effort.warnings.push_back(
        {likely ? "cutoff_missed" : "cutoff_tight", Severity::caution,
         fmt::format("{} closes {} after the start; {} you are there after {}{}.", what,
                     duration_text(cutoff_s), likely ? "on the likely day" : "on a slow day",
                     duration_text(likely ? spread.p50_s : spread.p90_s),
                     likely ? ". Choose an easier course or a shorter event, or talk to the organiser"
                            : ": keep an eye on the clock, and do not stop to eat")});
}

void check_cutoffs(Effort& effort, const Event& event) {
    double so_far_s = 0;
    for (size_t i = 0; i < event.legs.size(); ++i) {
        so_far_s += effort.legs[i].time.p50_s;
        if (event.legs[i].cutoff_s)
            warn_of_cutoff(effort, fmt::format("The {}", to_string(event.legs[i].kind)),
                           *event.legs[i].cutoff_s, spread_from(so_far_s, joint_log_sd(effort.legs, i + 1)));
    }
    if (event.cutoff_s)
        warn_of_cutoff(effort, "The finish", *event.cutoff_s, effort.total);
}

void check_water(Effort& effort, const Event& event) {
    if (!event.race || !event.weather.water_temperature_c)
        return;
    for (const auto& leg : effort.legs)
        if (leg.kind == LegKind::swim)
            for (auto& warning : water_warnings(*event.weather.water_temperature_c, leg.distance_m))
                effort.warnings.push_back(std::move(warning));
}

/// A ride that is given harder than the athlete's numbers sustain is paid for on the run.
double ride_over(const Situation& now, const Leg& leg, const LegEffort& ridden) {
    if (leg.kind != LegKind::bike || !leg.time_s || !now.event.race)
        return 1;
    return std::max(1.0, ride_over_sustained(now, leg, ridden.distance_m, *leg.time_s).value_or(1));
}

void check_ride(Effort& effort, double over, const LegEffort& ridden, bool runs_after) {
    if (over < ride_too_hard)
        return;
    effort.warnings.push_back(
        {"ride_too_hard", Severity::caution,
         fmt::format(
             "The bike time asks for {:.0f} % more power than you sustain over {}{}. Ride easier, or plan a "
             "slower time.",
             (over - 1) * 100, km_text(ridden.distance_m), runs_after ? ": the run pays for it" : "")});
}

void check_pack(Effort& effort, const Event& event) {
    const bool rides = std::any_of(effort.legs.begin(), effort.legs.end(),
                                   [](const LegEffort& leg) { return leg.kind == LegKind::bike; });
    if (event.race && event.draft_legal && rides)
        effort.warnings.push_back({"pack_riding", Severity::note,
                                   "Draft-legal: nothing to eat or drink inside a pack, whatever the minute "
                                   "says; take it when you ride alone on calm road."});
}

void note_assumptions(Effort& effort, const Athlete& athlete, const Event& event) {
    const bool nothing_known = athlete.level == Level::unknown && athlete.recent.empty() &&
                               !athlete.threshold_power_w && !athlete.threshold_run_s_per_km &&
                               !athlete.critical_swim_speed_m_s;
    if (nothing_known)
        effort.assumptions.push_back(
            "No level and no results given: times are the middle of the field, and wide.");
    if (!event.weather.humidity_pct)
        effort.assumptions.push_back(
            fmt::format("Humidity not given: {:.0f} % assumed.", usual_humidity_pct));
}

void note_course(Effort& effort, const Leg& leg, const Course& course, const Event& event) {
    for (const auto& note : course.notes)
        effort.assumptions.push_back(fmt::format("{} course: {}", to_string(leg.kind), note));
    const bool wind = leg.wind_m_s ? *leg.wind_m_s > 0 : blows(event.weather);
    if (leg.kind == LegKind::bike && wind && !leg.wind_from_deg && !event.weather.wind_from_deg)
        effort.assumptions.push_back("Direction of the wind not given: half against you, half behind.");
}

} // namespace

Effort estimate_effort(const Athlete& athlete, const Event& event) {
    Effort effort;
    double bike_before_m = 0, total_s = 0, over = 1;
    for (size_t i = 0; i < event.legs.size(); ++i) {
        const auto& leg = event.legs[i];
        std::optional<Course> course;
        if (leg.track && (leg.kind == LegKind::bike || leg.kind == LegKind::run)) {
            course = course_of(*leg.track, leg.kind == LegKind::bike ? Sport::bike : Sport::run);
            note_course(effort, leg, *course, event);
        }
        const Situation now{
            athlete, event, event.weather, 0, bike_before_m, over, course ? &*course : nullptr};
        effort.legs.push_back(leg_effort(now, leg, static_cast<int>(i), total_s));
        effort.legs.back().starts_s = total_s;
        total_s += effort.legs.back().time.p50_s;
        if (leg.kind == LegKind::bike) {
            bike_before_m += effort.legs.back().distance_m;
            over = ride_over(now, leg, effort.legs.back());
            const bool runs_after =
                std::any_of(event.legs.begin() + static_cast<std::ptrdiff_t>(i), event.legs.end(),
                            [](const Leg& each) { return each.kind == LegKind::run; });
            check_ride(effort, over, effort.legs.back(), runs_after);
        }
    }
    effort.total_log_sd = joint_log_sd(effort.legs, effort.legs.size());
    effort.total = spread_from(total_s, effort.total_log_sd);
    const double intensity = race_intensity(total_s / 3600, athlete.level) - (event.race ? 0.0 : 0.10);
    for (auto& leg : effort.legs)
        leg.intensity = is_transition(leg.kind) ? 0.45 : intensity;
    check_cutoffs(effort, event);
    check_water(effort, event);
    check_pack(effort, event);
    note_assumptions(effort, athlete, event);
    return effort;
}

CourseRide ride_course(const Course& course, const Athlete& athlete, const Weather& weather, double effort_w,
                       double section_m) {
    const auto road = road_of(course, 1, {weather.wind_m_s.value_or(0), weather.wind_from_deg});
    const double altitude_m = course.heights_known ? std::max(0.0, course.mean_height_m) : 0;
    const auto passage = ride(road, ride_of(athlete, weather, false, altitude_m), effort_w);
    return describe(road, passage, Sport::bike, section_m, passage.time_s);
}

CourseRide run_course(const Course& course, double level_s_per_km, double section_m) {
    const auto road = road_of(course, 1, {});
    const auto passage = run(road, 1000 / level_s_per_km);
    return describe(road, passage, Sport::run, section_m, passage.time_s);
}

} // namespace tuck
