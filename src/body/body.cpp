// The body stage: from speed and weather to what is used and lost.
#include "tuck/body.hpp"

#include "base/conditions.hpp"
#include "base/day_sun.hpp"
#include "base/sources.hpp"
#include "body/body_reasons.hpp"
#include "body/energy.hpp"
#include "body/land_heat.hpp"
#include "body/race.hpp"
#include "body/race_drive.hpp"
#include "body/race_slopes.hpp"
#include "body/water.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

using namespace body;

constexpr double kcal_per_h_per_w = 3600 / 4184.0;
constexpr double z20 = -0.8416212335729143; // 20th percentile of the standard normal
constexpr double usual_sweat_sodium_mmol_per_l = 40;

// Glycogen: leg muscle 21.4 % of body mass at 80 kcal/kg on an ordinary diet, liver 9.0 kcal/kg of body mass.
constexpr double leg_muscle_share = 0.214, muscle_kcal_per_kg = 80, liver_kcal_per_kg = 9.0;

/// Mean of a column over the rows [first, last), weighted with their length; 0 for none.
double mean(const std::vector<double>& column, const BodyMinutes& m, std::size_t first, std::size_t last) {
    double sum = 0, length = 0;
    for (std::size_t i = first; i < last; ++i) {
        sum += column[i] * m.length_s[i];
        length += m.length_s[i];
    }
    return length > 0 ? sum / length : 0.0;
}

HeatBalance mean_heat(const BodyMinutes& m, std::size_t first, std::size_t last, const LegDrive& drive) {
    const auto of = [&](const std::vector<double>& column) { return mean(column, m, first, last); };
    HeatBalance heat;
    heat.metabolic_w = of(m.metabolic_w);
    heat.mechanical_w = of(m.mechanical_w);
    heat.respiratory_w = of(m.respiratory_w);
    heat.respiratory_evaporation_w = of(m.breath_ml_per_h) / 1000 * watt_per_l_per_h;
    heat.dry_w = of(m.dry_w);
    heat.stored_w = of(m.stored_w);
    heat.required_w = of(m.required_w);
    heat.evaporated_w = of(m.evaporated_w);
    heat.sun_w = of(m.solar_w_per_m2) * drive.area_m2;
    heat.sweat_w = of(m.sweat_ml_per_h) / drive.sweat_factor / 1000 * watt_per_l_per_h;
    return heat;
}

LegBody leg_body(const LegEffort& effort, const LegDrive& drive, const BodyMinutes& m, std::size_t first,
                 std::size_t last) {
    LegBody out;
    out.leg_index = effort.leg_index;
    out.kind = effort.kind;
    out.metabolic_w = drive.metabolic_w;
    out.energy_kcal_per_h = drive.metabolic_w * kcal_per_h_per_w;
    out.carb_share = carb_share_from_intensity(effort.intensity);
    out.carb_use_g_per_h = drive.carb_g_per_h;
    out.fat_use_g_per_h = drive.fat_g_per_h;
    out.heat = mean_heat(m, first, last, drive);
    out.sweat_ml_per_h = mean(m.sweat_ml_per_h, m, first, last);
    out.humidity_pct = mean(m.humidity_pct, m, first, last);
    out.wind_m_s = mean(m.wind_m_s, m, first, last);
    out.sun_w_m2 = mean(m.sun_w_m2, m, first, last);
    if (first < last) {
        out.air_first_c = m.air_c[first];
        out.air_last_c = m.air_c[last - 1];
    }
    return out;
}

void describe_legs(const Athlete& athlete, const Event& event, const Effort& effort, Body& body) {
    const auto own = sweat_factor(athlete, event, effort);
    std::vector<LegDrive> drives;
    for (const auto& leg : effort.legs)
        drives.push_back(leg_drive(athlete, event, leg));
    body.sweat_log_sd = std::hypot(sweat_log_sd(athlete, event), sun_log_sd(event, effort, drives));
    for (auto& drive : drives) {
        // The model is a mean; the median of a log-normal lies lower.
        const auto here = factor_on(own, drive.kind);
        const double log_sd = std::hypot(body.sweat_log_sd, here.more_log_sd);
        drive.sweat_factor = here.factor * std::exp(-log_sd * log_sd / 2);
        drive.sodium_mg_per_ml = body.sweat_sodium_mg_per_l / 1000;
    }
    body.minutes = race_path(event, effort, drives, body.glycogen_start_g);
    add_slopes(athlete, event, effort, drives, body.minutes);
    std::size_t row = 0;
    std::string too_hot, too_wet, outside;
    for (std::size_t i = 0; i < drives.size(); ++i) {
        const auto first = row;
        while (row < body.minutes.size() && body.minutes.leg_index[row] == effort.legs[i].leg_index)
            ++row;
        auto leg = leg_body(effort.legs[i], drives[i], body.minutes, first, row);
        const auto here = factor_on(own, effort.legs[i].kind);
        const double log_sd = std::hypot(body.sweat_log_sd, here.more_log_sd);
        leg.sweat_log_sd = log_sd;
        leg.sweat_p20_ml_per_h = leg.sweat_ml_per_h * std::exp(z20 * log_sd);
        leg.sweat_p80_ml_per_h = leg.sweat_ml_per_h * std::exp(-z20 * log_sd);
        leg.because = sweat_reasons(effort.legs[i], leg, event, here, drives[i].area_m2);
        leg.heat_because = heat_rows(effort.legs[i], leg, drives[i], body.minutes, first, row);
        if (beyond_sweat_model(leg, drives[i].area_m2) && !is_transition(leg.kind))
            too_hot += fmt::format("{}{}", too_hot.empty() ? "" : ", ", to_string(leg.kind));
        if (leg.sweat_ml_per_h > 0.99 * most_sweat_ml_per_h && !is_transition(leg.kind))
            too_wet += fmt::format("{}{}", too_wet.empty() ? "" : ", ", to_string(leg.kind));
        const double air_m_s = std::hypot(effort.legs[i].speed_m_s, leg.wind_m_s);
        if (const auto what = out_of_range(leg, air_m_s); !what.empty())
            outside += (outside.empty() ? "" : "; ") + what;
        body.legs.push_back(leg);
    }
    if (!outside.empty())
        body.assumptions.push_back(fmt::format(
            "Outside of what the sweat model was held against ({}): taken on along its lines.", outside));
    if (!too_wet.empty())
        body.assumptions.push_back(
            fmt::format("Hardly anybody was seen to sweat more than {:g} L/h ({}): the "
                        "rate is held there.",
                        most_sweat_ml_per_h / 1000, too_wet));
    if (!too_hot.empty())
        body.assumptions.push_back(
            fmt::format("It is hotter than the sweat model knows ({}): the rate is held.", too_hot));
}

void describe_sodium(const Athlete& athlete, Body& body) {
    const double mmol = athlete.sweat_sodium_mmol_per_l.value_or(usual_sweat_sodium_mmol_per_l);
    body.sodium_measured = athlete.sweat_sodium_mmol_per_l.has_value();
    body.sodium_log_sd = body.sodium_measured ? athlete.sweat_sodium_log_sd.value_or(0) : 0;
    body.sweat_sodium_mg_per_l = mmol * mg_per_mmol_sodium;
    body.sodium_because = {
        body.sodium_measured
            ? Reason{fmt::format("own sweat sodium {:.0f} mmol/L", mmol), source::own_input}
            : Reason{"no sodium test: 40 mmol/L, where 18 to 71 is seen", "Baker 2016; Barnes 2019"}};
}

void describe_water(const Athlete& athlete, Body& body) {
    const bool known =
        athlete.sex != Sex::unspecified && athlete.height_m && (athlete.sex == Sex::female || athlete.age_y);
    if (!known) {
        body.total_body_water_l = 0.50 * athlete.mass_kg;
        body.water_because = {
            {"sex, age or height not given: half of the body mass, the low end for athletes",
             "Montain 2006 (bracket 50-63 %)"}};
        return;
    }
    body.total_body_water_l =
        athlete.sex == Sex::male
            ? total_body_water_male_l(*athlete.age_y, 100 * *athlete.height_m, athlete.mass_kg)
            : total_body_water_female_l(100 * *athlete.height_m, athlete.mass_kg);
    body.water_because = {{"total body water from sex, age, height and mass", "Watson 1980"}};
}

void note_hours(const Event& event, const BodyMinutes& minutes, Body& body) {
    const auto& hourly = event.weather.hourly;
    if (hourly.empty())
        return;
    if (!follows_hours(event)) {
        body.assumptions.push_back("Weather by the hour needs a start time: the one temperature is used.");
        return;
    }
    const double finish_hour =
        minutes.size() == 0 ? start_hour(event)
                            : start_hour(event) + (minutes.at_s.back() + minutes.length_s.back()) / 3600;
    if (start_hour(event) < hourly.front().hour || finish_hour > hourly.back().hour)
        body.assumptions.push_back("Weather by the hour does not cover the race: its ends are held.");
}

void note_assumptions(const Athlete& athlete, const Event& event, Body& body) {
    if (athlete.sweat && !athlete.sweat->sport && !athlete.learned_sweat)
        body.assumptions.push_back(
            "Sport of the sweat rate not given: taken as that of the longest ride or run. Say it: "
            "bike=1.2L/h or run=1.5L/h.");
    if (!athlete.height_m)
        body.assumptions.push_back(fmt::format("Height not given: {:.2f} m assumed.", height_m(athlete)));
    if (!event.weather.wind_m_s)
        body.assumptions.push_back(
            fmt::format("Wind not given: {:.0f} m/s assumed, from all sides.", usual_wind_m_s));
    if (sun_assumed(event.weather))
        body.assumptions.push_back(
            sun_has_clock(event) ? "Sun not given: half of a clear sky's for the hour and the place."
                                 : "Sun not given: half of a clear sky's, 45 degrees high (date, start and "
                                   "latitude would tell).");
    const bool swims = std::any_of(event.legs.begin(), event.legs.end(),
                                   [](const Leg& leg) { return leg.kind == LegKind::swim; });
    if (swims && !event.weather.water_temperature_c)
        body.assumptions.push_back(fmt::format("Water temperature not given: {:.0f} C assumed.",
                                               water_temperature_c(event.weather)));
    note_hours(event, body.minutes, body);
}

} // namespace

Body describe_body(const Athlete& athlete, const Event& event, const Effort& effort) {
    Body body;
    body.sweat_measured = athlete.sweat || athlete.learned_sweat;
    body.glycogen_start_g =
        athlete.mass_kg * (leg_muscle_share * muscle_kcal_per_kg + liver_kcal_per_kg) / kcal_per_g_carb;
    body.liver_glycogen_start_g = athlete.mass_kg * liver_kcal_per_kg / kcal_per_g_carb;
    body.glycogen_because = {
        {fmt::format("leg muscle and liver on an ordinary diet: {:.0f} g", body.glycogen_start_g),
         "Rapoport 2010 (21.4 % leg muscle at 80 kcal/kg; liver 9 kcal/kg)"}};
    describe_sodium(athlete, body);
    describe_water(athlete, body);
    describe_legs(athlete, event, effort, body);
    note_assumptions(athlete, event, body);
    return body;
}

} // namespace tuck
