#include "effort/results.hpp"

#include "base/clock.hpp"
#include "base/dates.hpp"
#include "effort/scaling.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::effort {

namespace {

constexpr double swim_exponent = 1.03, bike_exponent = 1.05, run_exponent = 1.06, long_run_exponent = 1.11;
constexpr double half_marathon_m = 21097.5;
constexpr double sd_same_distance = 0.03, sd_per_log_distance = 0.044; // 0.07 for ln(42.2 / 10)
constexpr double sd_per_root_year = 0.04, undated_days = 183, sd_form = 0.02;
constexpr double days_in_year = 365.25;

double run_scaled_s(double time_s, double from_m, double to_m) {
    const double knee = std::clamp(half_marathon_m, std::min(from_m, to_m), std::max(from_m, to_m));
    const auto exponent = [](double a, double b) {
        return std::max(a, b) > half_marathon_m + 1 ? long_run_exponent : run_exponent;
    };
    const double to_knee = riegel_time_s(time_s, from_m, knee, exponent(from_m, knee));
    return riegel_time_s(to_knee, knee, to_m, exponent(knee, to_m));
}

/// The day against which age counts.
std::optional<std::string> reference_day(const Athlete& athlete, const Event& event) {
    if (event.date)
        return event.date;
    std::optional<std::string> newest;
    for (const auto& result : athlete.recent)
        if (result.date && (!newest || *result.date > *newest))
            newest = result.date;
    return newest;
}

double age_days(const RecentResult& result, const std::optional<std::string>& reference) {
    if (!result.date || !reference)
        return undated_days;
    const auto days = days_between(*result.date, *reference);
    return days ? std::max(0.0, static_cast<double>(*days)) : undated_days;
}

const char* source_of(Sport sport) {
    switch (sport) {
    case Sport::swim:
        return "Riegel 1981 (swim exponent 1.03 from memory)";
    case Sport::bike:
        return "Riegel 1981 (bike exponent 1.05 from memory)";
    default:
        return "Riegel 1981; beyond the half marathon Vickers 2016";
    }
}

} // namespace

double scaled_time_s(Sport sport, double time_s, double from_m, double to_m) {
    if (sport == Sport::run)
        return run_scaled_s(time_s, from_m, to_m);
    return riegel_time_s(time_s, from_m, to_m, sport == Sport::swim ? swim_exponent : bike_exponent);
}

double result_log_sd(double from_m, double to_m, double age_days) {
    return root_sum({sd_same_distance, sd_per_log_distance * std::log(to_m / from_m),
                     sd_per_root_year * std::sqrt(age_days / days_in_year)});
}

std::optional<Estimate> from_results(const Athlete& athlete, const Event& event, Sport sport,
                                     double distance_m) {
    struct Said {
        const RecentResult* result;
        double log_time, weight;
    };
    const auto reference = reference_day(athlete, event);
    std::vector<Said> all;
    double weights = 0, mean = 0;
    for (const auto& result : athlete.recent) {
        if (result.sport != sport)
            continue;
        const double sd = result_log_sd(result.distance_m, distance_m, age_days(result, reference));
        all.push_back({&result, std::log(scaled_time_s(sport, result.time_s, result.distance_m, distance_m)),
                       1 / (sd * sd)});
        weights += all.back().weight;
    }
    if (all.empty())
        return std::nullopt;
    for (const auto& said : all)
        mean += said.log_time * said.weight / weights;
    double disagreement = 0;
    for (const auto& said : all)
        disagreement += said.weight * std::pow(said.log_time - mean, 2);
    const double birge =
        all.size() > 1 ? std::max(1.0, disagreement / static_cast<double>(all.size() - 1)) : 1.0;
    std::vector<std::string> words;
    for (const auto& said : all)
        words.push_back(fmt::format(
            "{} in {}{}{}", km_text(said.result->distance_m), duration_text(said.result->time_s),
            said.result->date ? " on " + *said.result->date : "",
            all.size() > 1 ? fmt::format(" (weight {:.0f} %)", 100 * said.weight / weights) : ""));
    return Estimate{std::exp(mean),
                    root_sum({std::sqrt(birge / weights), sd_form}),
                    {{fmt::format("recent {}: {}; power law to {}", to_string(sport), fmt::join(words, ", "),
                                  km_text(distance_m)),
                      source_of(sport)}},
                    false};
}

} // namespace tuck::effort
