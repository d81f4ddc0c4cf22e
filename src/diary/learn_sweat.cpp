#include "diary/learning.hpp"
#include "diary/session.hpp"
#include "diary/weighing.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::diary {

namespace {

constexpr double field_sweat_cv = figure("people.sweat_cv");
constexpr double day_to_day_ml_per_h = figure("test.day_to_day_ml_per_h");
constexpr double day_log_sd = 0.15; // the same, on the day of a plan
// The model's slope over temperature is known to 0.10-0.40 L/h per 10 C: one SD of an even spread, as a share
// of about 1 L/h.
constexpr double weather_log_sd = 0.09;
constexpr double sport_log_sd = figure("test.sport_log_sd");
constexpr double least_ml_per_h = 250; // keeps ratios sane where hardly any sweat is expected, our choice
constexpr int rounds = 20;             // far more than it takes to stand still
constexpr double race_drink_cv = figure("test.race_drink_cv");
constexpr double far_off = 3; // SD from what the others say

constexpr double usual_sodium_mmol_per_l = figure("people.sodium_mmol_per_l");
constexpr double field_sodium_cv = figure("people.sodium_cv");

// A good test that has not been done yet: 75 min, a 50 g scale, 1 L/h.
constexpr double good_test_log_sd = 0.06;

double log_variance_of_cv(double cv) {
    return std::log(1 + cv * cv);
}

SweatBelief field_sweat() {
    SweatBelief belief;
    const double variance = log_variance_of_cv(field_sweat_cv);
    belief.mean = {-variance / 2, 0, 0}; // the mean multiple is 1
    belief.covariance[0][0] = variance;
    belief.covariance[1][1] = weather_log_sd * weather_log_sd;
    belief.covariance[2][2] = sport_log_sd * sport_log_sd;
    return belief;
}

double log_multiple(const std::array<double, 3>& weights, const SweatBelief& belief) {
    double sum = 0;
    for (std::size_t i = 0; i < 3; ++i)
        sum += weights[i] * belief.mean[i];
    return sum;
}

/// A test that lies far from what all the others say is kept, and named.
void name_outliers(const std::vector<const DiaryEntry*>& entries, const std::vector<SweatReading>& readings,
                   Learned& learned) {
    for (std::size_t i = 0; readings.size() > 2 && i < readings.size(); ++i) {
        const auto& reading = readings[i];
        auto others = readings;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
        const auto belief = believe(others, reading.temperature_c, reading.sport);
        const double expected = reading.modelled * std::exp(belief.mean[0]);
        const double sd = std::hypot(expected * std::sqrt(belief.covariance[0][0]), reading.sd);
        if (std::abs(reading.measured - expected) > far_off * sd)
            learned.warnings.push_back(
                {"odd_sweat_test", Severity::caution,
                 fmt::format("The sweat test of {} (line {}) is far from the others. Check its numbers; "
                             "\"tuck diary correct {}\" puts it right.",
                             entries[i]->date, entries[i]->id, entries[i]->id)});
    }
}

} // namespace

SweatReading reading_of(const Athlete& athlete, const SweatTest& test) {
    const auto model = model_session(athlete, test);
    return {sweat_ml(test, model.energy_kcal) * 60 / test.minutes,
            std::max(least_ml_per_h, model.sweat_ml_per_h),
            std::hypot(sweat_sd_ml_per_h(test, model.energy_kcal), day_to_day_ml_per_h), test.temperature_c,
            test.sport};
}

SweatBelief believe(const std::vector<SweatReading>& readings, double temperature_c, Sport sport) {
    SweatBelief belief = field_sweat();
    for (int round = 0; round < rounds; ++round) {
        SweatBelief next = field_sweat();
        for (const auto& reading : readings) {
            const std::array<double, 3> weights{1, (reading.temperature_c - temperature_c) / 10,
                                                reading.sport == sport ? 0.0 : 1.0};
            // Near `around` a relative error of the rate is an error of its logarithm.
            const double around = log_multiple(weights, belief);
            const double rate = reading.modelled * std::exp(around);
            next.observe(weights, around + (reading.measured - rate) / rate, std::pow(reading.sd / rate, 2));
        }
        belief = next;
    }
    return belief;
}

Known known_from(double log_mean, double log_variance, int tests) {
    const double sd = std::sqrt(log_variance);
    return {std::exp(log_mean), std::exp(log_mean - z95 * sd), std::exp(log_mean + z95 * sd), sd, tests};
}

std::optional<SweatReading> reading_of(const Athlete& athlete, const RaceRecord& race) {
    if (!race.before_kg || !race.after_kg)
        return std::nullopt;
    double minutes = 0, bike_min = 0;
    for (const auto& leg : race.legs) {
        if (leg.time_s <= 0 && leg.planned_s > 0)
            return std::nullopt; // the length of the day is not known
        minutes += leg.time_s / 60;
        bike_min += leg.sport == Sport::bike ? leg.time_s / 60 : 0;
    }
    const auto model = model_race(athlete, race);
    if (minutes <= 0 || model.sweat_ml_per_h <= 0)
        return std::nullopt;
    SweatTest whole;
    whole.before_kg = *race.before_kg;
    whole.after_kg = *race.after_kg;
    whole.drank_ml = race.bike.fluid_ml + race.run.fluid_ml;
    whole.food_g = race.bike.carb_g + race.run.carb_g;
    whole.urine_ml = race.urine_ml;
    whole.minutes = minutes;
    const double cups = race_drink_cv * whole.drank_ml * 60 / minutes;
    return SweatReading{sweat_ml(whole, model.energy_kcal) * 60 / minutes,
                        std::max(least_ml_per_h, model.sweat_ml_per_h),
                        std::hypot(sweat_sd_ml_per_h(whole, model.energy_kcal), day_to_day_ml_per_h, cups),
                        race.temperature_c, 2 * bike_min > minutes ? Sport::bike : Sport::run};
}

namespace {

/// A belief after one more good test in this weather.
SweatBelief after_a_test(SweatBelief belief, bool same_sport) {
    const std::array<double, 3> weights{1, 0, same_sport ? 0.0 : 1.0};
    double mean = 0;
    for (std::size_t i = 0; i < 3; ++i)
        mean += weights[i] * belief.mean[i];
    belief.observe(weights, mean, std::pow(std::hypot(good_test_log_sd, day_log_sd), 2));
    return belief;
}

/// Most that a plan of four hours lets one drink while this is known.
double ceiling_ml_per_h(Athlete athlete, Sport sport, double temperature_c, double factor, double log_sd,
                        int tests) {
    athlete.learned_sweat = LearnedSweat{factor, std::hypot(log_sd, day_log_sd), tests, std::nullopt, 0};
    SweatTest usual;
    usual.before_kg = athlete.mass_kg;
    usual.sport = sport;
    usual.temperature_c = temperature_c;
    usual.race_effort = true;
    return four_hours_of(athlete, usual).drink_up_to_ml_per_h;
}

/// Of a test in one sport: what it would add to the ceilings of both.
void propose_test(const std::vector<SweatReading>& readings, const Athlete& athlete, Sport tested,
                  Learned& learned) {
    NextTest next;
    next.text = fmt::format("A sweat test at about {:.0f} C, {}, at race effort, 60 to 90 min.",
                            learned.temperature_c,
                            tested == Sport::run    ? "running"
                            : tested == Sport::swim ? "swimming"
                                                    : "riding");
    for (const Sport sport : {Sport::bike, Sport::run}) {
        const auto belief = believe(readings, learned.temperature_c, sport);
        const auto then = after_a_test(belief, sport == tested);
        const int tests = static_cast<int>(readings.size());
        const double sd_now = std::sqrt(belief.covariance[0][0]), sd_then = std::sqrt(then.covariance[0][0]);
        const double now =
            ceiling_ml_per_h(athlete, sport, learned.temperature_c, std::exp(belief.mean[0]), sd_now, tests);
        const double more =
            ceiling_ml_per_h(athlete, sport, learned.temperature_c, std::exp(then.mean[0]), sd_then, tests) -
            now;
        (sport == Sport::bike ? next.more_bike_ml_per_h : next.more_run_ml_per_h) = more;
        if (sport == tested) {
            next.log_sd_now = sd_now;
            next.log_sd_then = sd_then;
        }
    }
    learned.next.push_back(next);
}

} // namespace

void learn_sweat(const std::vector<DiaryEntry>& entries, const Athlete& athlete, Learned& learned) {
    std::vector<const DiaryEntry*> tests;
    std::vector<SweatReading> readings;
    for (const auto& entry : entries) {
        std::optional<SweatReading> reading;
        if (const auto* test = std::get_if<SweatTest>(&entry.what))
            reading = reading_of(athlete, *test);
        else if (const auto* race = std::get_if<RaceRecord>(&entry.what))
            reading = reading_of(athlete, *race);
        if (!reading)
            continue;
        tests.push_back(&entry);
        readings.push_back(*reading);
    }
    const auto known = [&](Sport sport) {
        const auto belief = believe(readings, learned.temperature_c, sport);
        return known_from(belief.mean[0], belief.covariance[0][0], static_cast<int>(readings.size()));
    };
    learned.sweat_factor = known(learned.sport);
    learned.sweat_factor_on_run = known(Sport::run);
    learned.sweat_day_log_sd = std::hypot(learned.sweat_factor.log_sd, day_log_sd);
    for (const Sport sport : {Sport::bike, Sport::run})
        if (sport == Sport::run || learned.sport == Sport::bike)
            propose_test(readings, athlete, sport, learned);
    name_outliers(tests, readings, learned);
}

void learn_sodium(const std::vector<DiaryEntry>& entries, Learned& learned) {
    Belief<1> belief;
    belief.mean = {std::log(usual_sodium_mmol_per_l)};
    belief.covariance[0][0] = log_variance_of_cv(field_sodium_cv);
    int tests = 0;
    for (const auto& entry : entries)
        if (const auto* test = std::get_if<SweatTest>(&entry.what); test && test->sodium) {
            const auto reading = read_sodium(*test->sodium);
            belief.observe({1}, std::log(reading.mmol_per_l),
                           std::pow(reading.sd_mmol_per_l / reading.mmol_per_l, 2));
            ++tests;
        }
    learned.sodium_mmol_per_l = known_from(belief.mean[0], belief.covariance[0][0], tests);
    auto then = belief;
    then.observe({1}, then.mean[0], repeat_sodium_cv * repeat_sodium_cv);
    learned.next.push_back({"A sweat sodium test of the whole body, or a patch on the forearm.",
                            learned.sodium_mmol_per_l.log_sd, std::sqrt(then.covariance[0][0])});
}

} // namespace tuck::diary
