// The body stage: from speed and weather to what is used and lost.
#include "tuck/body.hpp"

#include "base/conditions.hpp"
#include "base/sources.hpp"
#include "body/energy.hpp"
#include "body/sweat.hpp"
#include "body/water.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

using namespace body;

constexpr double gross_efficiency = 0.20; // Moseley & Jeukendrup 2001: 19.8 % in trained men
constexpr double kcal_per_joule = 1 / 4184.0;
constexpr double kcal_per_g_carb = 4.0;
constexpr double transition_w_per_kg = 6.0; // brisk walking and changing, about 5 MET

// Athletes of one sport differ by an SD of 45 % of the mean (Barnes 2019: 1.28 +- 0.57 L/h). After a test in
// like weather the day-to-day difference is about 0.15 L/h (Smith 2021), some 15 % of it.
constexpr double sweat_cv_untested = 0.45, sweat_log_sd_tested = 0.15;
constexpr double z20 = -0.8416212335729143; // 20th percentile of the standard normal
constexpr double usual_sweat_sodium_mmol_per_l = 40;

// Glycogen: leg muscle 21.4 % of body mass at 80 kcal/kg on an ordinary diet, liver 9.0 kcal/kg of body mass.
constexpr double leg_muscle_share = 0.214, muscle_kcal_per_kg = 80, liver_kcal_per_kg = 9.0;

double log_sd_of_cv(double cv) {
    return std::sqrt(std::log(1 + cv * cv));
}

/// Air speed over the body: own speed, and wind from all sides of a course.
double air_speed_m_s(double own_m_s, double wind_m_s) {
    return std::hypot(own_m_s, wind_m_s);
}

double metabolic_w(LegKind kind, double speed_m_s, double power_w, double mass_kg) {
    switch (kind) {
    case LegKind::swim:
        return swim_metabolic_power_w(speed_m_s, mass_kg);
    case LegKind::bike:
        return cycle_metabolic_power_w(power_w, gross_efficiency);
    case LegKind::run:
        return run_vo2_ml_per_kg_min(speed_m_s * 60, 0) * mass_kg / 1000 / 60 * joule_per_l_o2;
    default:
        return transition_w_per_kg * mass_kg;
    }
}

struct Air {
    double temperature_c, humidity_pct, wind_m_s;
};

/// Mean sweat rate by the model, ml/h.
double modelled_sweat_ml_per_h(const Athlete& athlete, const LegEffort& leg, double metabolic, const Air& air,
                               double water_c) {
    if (leg.kind == LegKind::swim)
        return 1000 * swim_sweat_l_per_h(athlete.mass_kg, water_c);
    LandHeat heat;
    heat.metabolic_w = metabolic;
    heat.mechanical_w = leg.power_w;
    heat.mass_kg = athlete.mass_kg;
    heat.height_m = height_m(athlete);
    heat.air_c = air.temperature_c;
    heat.humidity_pct = air.humidity_pct;
    heat.air_speed_m_s = air_speed_m_s(std::max(leg.speed_m_s, 1.0), air.wind_m_s);
    return 1000 * land_sweat_l_per_h(heat);
}

Air air_of(const Weather& weather) {
    return {weather.temperature_c, humidity_pct(weather), wind_m_s(weather)};
}

double metabolic_of(const Athlete& athlete, const LegEffort& leg) {
    return metabolic_w(leg.kind, leg.speed_m_s, leg.power_w, athlete.mass_kg);
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

struct SweatFactor {
    double factor = 1;
    std::vector<Reason> because;
};

/// A learned factor is a median; the stage carries means until the end.
SweatFactor learned_factor(const LearnedSweat& learned) {
    return {learned.factor * std::exp(learned.log_sd * learned.log_sd / 2),
            {{fmt::format("own sweat tests ({}): {:.2f} times the model, likely within {:.0f} % on a day",
                          learned.tests, learned.factor, 100 * std::expm1(learned.log_sd)),
              source::own_diary}}};
}

SweatFactor sweat_factor(const Athlete& athlete, const Event& event, const Effort& effort) {
    if (athlete.learned_sweat)
        return learned_factor(*athlete.learned_sweat);
    const LegEffort* leg = athlete.sweat ? leg_for_test(effort, athlete.sweat->sport) : nullptr;
    if (!leg)
        return {};
    Air air = air_of(event.weather);
    air.temperature_c = athlete.sweat->temperature_c.value_or(air.temperature_c);
    air.humidity_pct = athlete.sweat->humidity_pct.value_or(air.humidity_pct);
    // In cold air the model may give almost nothing; a quarter litre keeps the ratio sane (our choice).
    const double modelled =
        std::max(250.0, modelled_sweat_ml_per_h(athlete, *leg, metabolic_of(athlete, *leg), air,
                                                water_temperature_c(event.weather)));
    const double factor = athlete.sweat->sweat_ml_per_h / modelled;
    return {factor,
            {{fmt::format("own sweat test: {:.0f} ml/h at {:.0f} C, {:.2f} times the model there",
                          athlete.sweat->sweat_ml_per_h, air.temperature_c, factor),
              source::own_input}}};
}

std::vector<Reason> sweat_reasons(const LegEffort& leg, double metabolic, const Air& air, double water_c) {
    if (leg.kind == LegKind::swim)
        return {{fmt::format("swimming in water of {:.0f} C, scaled with body mass", water_c),
                 "Macaluso 2011 (below 23 C extrapolated, at least 100 ml/h)"}};
    return {
        {fmt::format(
             "heat balance: {:.0f} W used, {:.0f} W of it moves the bicycle, {:.0f} C, {:.0f} % humidity, "
             "{:.1f} m/s of air over the body",
             metabolic, leg.power_w, air.temperature_c, air.humidity_pct,
             air_speed_m_s(std::max(leg.speed_m_s, 1.0), air.wind_m_s)),
         "running: fitted to Sawka 2007 table 3 (from memory); other speeds and humidity: our extension"}};
}

LegBody leg_body(const Athlete& athlete, const Event& event, const LegEffort& leg, const SweatFactor& own,
                 double log_sd) {
    const Air air = air_of(event.weather);
    const double water_c = water_temperature_c(event.weather);
    LegBody out;
    out.leg_index = leg.leg_index;
    out.kind = leg.kind;
    out.metabolic_w = metabolic_of(athlete, leg);
    out.energy_kcal_per_h = out.metabolic_w * 3600 * kcal_per_joule;
    out.carb_share = carb_share_from_intensity(leg.intensity);
    out.carb_use_g_per_h = out.carb_share * out.energy_kcal_per_h / kcal_per_g_carb;
    const double mean = own.factor * modelled_sweat_ml_per_h(athlete, leg, out.metabolic_w, air, water_c);
    out.sweat_ml_per_h = mean * std::exp(-log_sd * log_sd / 2); // the model is a mean; the median lies lower
    out.sweat_p20_ml_per_h = out.sweat_ml_per_h * std::exp(z20 * log_sd);
    out.because = sweat_reasons(leg, out.metabolic_w, air, water_c);
    out.because.insert(out.because.end(), own.because.begin(), own.because.end());
    if (own.because.empty())
        out.because.push_back(
            {fmt::format("no sweat test: athletes differ by 45 %, so the 20th percentile is {:.0f} "
                         "ml/h and the median {:.0f} ml/h",
                         out.sweat_p20_ml_per_h, out.sweat_ml_per_h),
             "Barnes 2019"});
    return out;
}

void describe_sodium(const Athlete& athlete, Body& body) {
    const double mmol = athlete.sweat_sodium_mmol_per_l.value_or(usual_sweat_sodium_mmol_per_l);
    body.sodium_measured = athlete.sweat_sodium_mmol_per_l.has_value();
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

void note_assumptions(const Athlete& athlete, const Event& event, Body& body) {
    if (!athlete.height_m)
        body.assumptions.push_back(fmt::format("Height not given: {:.2f} m assumed.", height_m(athlete)));
    if (!event.weather.wind_m_s)
        body.assumptions.push_back(
            fmt::format("Wind not given: {:.0f} m/s assumed for cooling, none for times.", usual_wind_m_s));
    const bool swims = std::any_of(event.legs.begin(), event.legs.end(),
                                   [](const Leg& leg) { return leg.kind == LegKind::swim; });
    if (swims && !event.weather.water_temperature_c)
        body.assumptions.push_back(fmt::format("Water temperature not given: {:.0f} C assumed.",
                                               water_temperature_c(event.weather)));
}

} // namespace

Body describe_body(const Athlete& athlete, const Event& event, const Effort& effort) {
    Body body;
    body.sweat_measured = athlete.sweat || athlete.learned_sweat;
    body.sweat_log_sd = athlete.learned_sweat ? athlete.learned_sweat->log_sd
                        : body.sweat_measured ? sweat_log_sd_tested
                                              : log_sd_of_cv(sweat_cv_untested);
    const auto own = sweat_factor(athlete, event, effort);
    for (const auto& leg : effort.legs)
        body.legs.push_back(leg_body(athlete, event, leg, own, body.sweat_log_sd));
    describe_sodium(athlete, body);
    describe_water(athlete, body);
    body.glycogen_start_g =
        athlete.mass_kg * (leg_muscle_share * muscle_kcal_per_kg + liver_kcal_per_kg) / kcal_per_g_carb;
    body.glycogen_because = {
        {fmt::format("leg muscle and liver on an ordinary diet: {:.0f} g", body.glycogen_start_g),
         "Rapoport 2010 (21.4 % leg muscle at 80 kcal/kg; liver 9 kcal/kg)"}};
    note_assumptions(athlete, event, body);
    return body;
}

} // namespace tuck
