#include "diary/session.hpp"

#include "base/conditions.hpp"
#include "base/day_sun.hpp"
#include "base/sources.hpp"
#include "body/sweat.hpp"
#include "diary/weighing.hpp"
#include "need/fluid.hpp"

#include <cmath>
#include <fmt/format.h>

namespace tuck::diary {

namespace {

constexpr double still_air_m_s = 0.5, fan_air_m_s = 3; // over the body indoors, our choice
constexpr double low_sd = 0.15;                        // any value: only the median is read

Athlete average_of(const Athlete& athlete, double mass_kg) {
    Athlete average = athlete;
    average.mass_kg = mass_kg;
    average.sweat.reset();
    average.learned_sweat = LearnedSweat{1, low_sd, 0}; // the model's mean, as a median
    return average;
}

double indoor_sweat_ml_per_h(const Athlete& athlete, const SweatTest& test, const LegBody& leg,
                             double power_w) {
    body::LandHeat heat;
    heat.metabolic_w = leg.metabolic_w;
    heat.mechanical_w = power_w;
    heat.mass_kg = athlete.mass_kg;
    heat.height_m = height_m(athlete);
    heat.air_c = test.temperature_c;
    heat.humidity_pct = test.humidity_pct.value_or(usual_humidity_pct);
    heat.shell_m2_k_per_w = body::shell_of(leg.kind);
    heat.air_speed_m_s = test.fan ? fan_air_m_s : still_air_m_s;
    heat.minutes = test.minutes;
    return 1000 * body::land_sweat_l_per_h(heat);
}

Reason energy_reason(const SweatTest& test, double kcal) {
    if (test.energy_kcal)
        return {fmt::format("{:.0f} kcal used, as given", kcal), source::own_input};
    if (test.power_w)
        return {fmt::format("{:.0f} kcal from {:.0f} W", kcal, *test.power_w),
                "ACSM cycling equation; Moseley & Jeukendrup 2001 (about 20 % efficiency)"};
    if (test.distance_m)
        return {fmt::format("{:.0f} kcal from {:.1f} km in {:.0f} min", kcal, *test.distance_m / 1000,
                            test.minutes),
                "the energy models of the plan"};
    return {fmt::format("{:.0f} kcal for this time at the athlete's level", kcal),
            "the energy models of the plan"};
}

} // namespace

SessionEffort effort_of_session(const Athlete& athlete, const SweatTest& test) {
    SessionEffort out;
    out.event.race = test.race_effort;
    out.event.days = 0;
    out.event.weather = {};
    out.event.weather.temperature_c = test.temperature_c;
    out.event.weather.humidity_pct = test.humidity_pct;
    out.event.weather.wind_m_s = test.wind_m_s;
    out.event.weather.water_temperature_c = test.water_temperature_c;
    out.event.weather.sun_share = test.indoors ? 0 : test.sun_share.value_or(usual_sun_share);
    Leg leg;
    leg.kind = to_leg_kind(test.sport);
    leg.time_s = test.minutes * 60;
    leg.distance_m = test.distance_m.value_or(0);
    out.event.legs = {leg};
    out.effort = estimate_effort(average_of(athlete, test.before_kg), out.event);
    auto& effort = out.effort.legs.front();
    if (test.power_w && test.sport == Sport::bike && effort.power_w > 0) {
        // Against air the power grows with the cube of the speed.
        effort.speed_m_s *= std::cbrt(*test.power_w / effort.power_w);
        effort.power_w = *test.power_w;
    }
    return out;
}

SessionModel model_session(const Athlete& athlete, const SweatTest& test) {
    const auto average = average_of(athlete, test.before_kg);
    const auto session = effort_of_session(athlete, test);
    const auto body = describe_body(average, session.event, session.effort);
    const auto& leg = body.legs.front();
    SessionModel out;
    out.energy_kcal = test.energy_kcal.value_or(leg.energy_kcal_per_h * test.minutes / 60);
    const bool still = test.indoors && test.sport != Sport::swim;
    out.sweat_ml_per_h = still
                             ? indoor_sweat_ml_per_h(average, test, leg, session.effort.legs.front().power_w)
                             : leg.sweat_ml_per_h;
    out.because.push_back(energy_reason(test, out.energy_kcal));
    if (!test.energy_kcal && !test.power_w && !test.distance_m)
        out.assumptions.push_back("Neither power, distance nor energy given: the energy is that of the "
                                  "athlete's level over this time.");
    if (!test.sun_share && !test.indoors && test.sport != Sport::swim)
        out.assumptions.push_back("Sun not given: half of a clear sky assumed.");
    if (!test.humidity_pct)
        out.assumptions.push_back(fmt::format("Humidity not given: {:.0f} % assumed.", usual_humidity_pct));
    if (!test.wind_m_s && !test.indoors && test.sport != Sport::swim)
        out.assumptions.push_back(fmt::format("Wind not given: {:.0f} m/s assumed.", usual_wind_m_s));
    return out;
}

namespace {

constexpr double long_race_h = 4;

/// The same session, gone on with for so long.
Effort lasting(double hours, Effort effort) {
    for (Spread* time : {&effort.legs.front().time, &effort.total})
        *time = {3600 * hours, 3600 * hours, 3600 * hours};
    return effort;
}

} // namespace

SweatOutlook four_hours_of(const Athlete& athlete, const SweatTest& test) {
    const auto session = effort_of_session(athlete, test);
    const auto body = describe_body(athlete, session.event, session.effort);
    const auto& leg = body.legs.front();
    const auto ceiling = need::fluid_ceiling(athlete, lasting(long_race_h, session.effort), body, leg, {});
    const double wide = std::exp(z95 * leg.sweat_log_sd);
    return {test.temperature_c, leg.sweat_ml_per_h,        leg.sweat_p20_ml_per_h,   ceiling.ml_per_h,
            test.sport,         leg.sweat_ml_per_h / wide, leg.sweat_ml_per_h * wide};
}

SessionModel model_race(const Athlete& athlete, const RaceRecord& race) {
    SessionModel out;
    Event event;
    event.days = 0;
    event.weather.temperature_c = race.temperature_c;
    event.weather.humidity_pct = race.humidity_pct;
    event.weather.sun_share = usual_sun_share;
    for (const auto& raced : race.legs)
        if (raced.time_s > 0) {
            Leg leg;
            leg.kind = to_leg_kind(raced.sport);
            leg.distance_m = raced.distance_m;
            leg.time_s = raced.time_s;
            leg.ascent_m = raced.ascent_m;
            event.legs.push_back(leg);
        }
    if (event.legs.empty())
        return out;
    const auto average = average_of(athlete, race.before_kg.value_or(athlete.mass_kg));
    const auto effort = estimate_effort(average, event);
    const auto body = describe_body(average, event, effort);
    double hours = 0;
    for (std::size_t i = 0; i < body.legs.size(); ++i) {
        const double leg_h = effort.legs[i].time.p50_s / 3600;
        hours += leg_h;
        out.energy_kcal += body.legs[i].energy_kcal_per_h * leg_h;
        out.sweat_ml_per_h += body.legs[i].sweat_ml_per_h * leg_h;
    }
    out.sweat_ml_per_h /= hours;
    return out;
}

} // namespace tuck::diary
