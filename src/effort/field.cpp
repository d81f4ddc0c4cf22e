#include "effort/field.hpp"

#include "effort/levels.hpp"
#include "effort/results.hpp"

#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <optional>

namespace tuck::effort {

namespace {

double spread_of(Sport sport) {
    return sport == Sport::swim ? sd_swim_results : sport == Sport::bike ? sd_bike_results : sd_run_results;
}

double standard_m(Sport sport) {
    return sport == Sport::swim ? standard_swim_m : sport == Sport::bike ? standard_bike_m : standard_run_m;
}

double sex_factor(Sport sport, const Athlete& athlete, double distance_m, bool alone) {
    return athlete.sex == Sex::female ? womens_time_factor(sport, distance_m, alone) : 1;
}

/// Time of the athlete's level over the standard distance. The results hold runs off the bike: that is taken
/// out, so that every way meets at the same point.
double standard_time_s(Sport sport, const Athlete& athlete, bool alone) {
    const auto times = standard_times(athlete.level);
    const double mens_s = sport == Sport::swim ? times.swim_s
                          : sport == Sport::bike
                              ? times.bike_s
                              : times.run_s / run_off_bike_factor(athlete.level, standard_bike_m);
    return mens_s * sex_factor(sport, athlete, standard_m(sport), alone);
}

/// The same time as far as the athlete's own numbers tell it.
std::optional<double> shown_time_s(const Situation& now, Sport sport) {
    const auto& athlete = now.athlete;
    const double open = sport == Sport::swim ? open_water_factor : 1.0;
    if (const auto estimate = from_results(athlete, now.event, sport, standard_m(sport)))
        return estimate->time_s * open;
    if (sport == Sport::swim && athlete.critical_swim_speed_m_s)
        return standard_swim_m / *athlete.critical_swim_speed_m_s * open;
    if (sport == Sport::run && athlete.threshold_run_s_per_km)
        return scaled_time_s(sport, 3600, 3600e3 / *athlete.threshold_run_s_per_km, standard_run_m);
    if (sport == Sport::bike && athlete.threshold_power_w) {
        const double power =
            *athlete.threshold_power_w * bike_intensity_factor(athlete.level, standard_bike_m);
        return ride(ordinary_road(standard_bike_m), ride_of(athlete, now.weather, false, 0), power).time_s;
    }
    return std::nullopt;
}

Reason level_reason(const Athlete& athlete) {
    const std::string who =
        athlete.level != Level::unknown
            ? fmt::format("level \"{}\"", to_string(athlete.level))
            : std::string("nothing known of the athlete's speed, so the middle of the field");
    return {fmt::format("{}: the {:.0f}th percentile of total time over the standard distance", who,
                        percentile_of(athlete.level)),
            results_source};
}

/// The results at hand are men's. Women's places are taken from them, slower as the sexes differ.
void take_womens(Estimate& estimate, const Athlete& athlete, Sport sport, double distance_m, bool alone) {
    if (athlete.sex != Sex::female)
        return;
    estimate.log_sd = root_sum({estimate.log_sd, sd_sex});
    estimate.because.push_back(
        {fmt::format("women's results at hand are few: the men's, times {:.2f}, and a wider spread",
                     womens_time_factor(sport, distance_m, alone)),
         alone && sport == Sport::run
             ? "finishers of 784 marathons, 2014-2017, as told by a reader"
             : "open results (one country, 2023-2025); Rust 2013 (elites); Lepers 2019 (non-elite, long)"});
}

} // namespace

double split_correlation(Sport a, Sport b) {
    if (a == b)
        return 1;
    if (a != Sport::swim && b != Sport::swim)
        return 0.61;
    return a == Sport::bike || b == Sport::bike ? 0.52 : 0.56;
}

Place expected_place(Sport sport, const std::vector<std::pair<Sport, double>>& known) {
    if (known.empty())
        return {};
    const double a = split_correlation(sport, known[0].first);
    if (known.size() == 1)
        return {a * known[0].second, std::sqrt(1 - a * a)};
    const double b = split_correlation(sport, known[1].first);
    const double between = split_correlation(known[0].first, known[1].first);
    const double share = 1 - between * between;
    const double on_a = (a - b * between) / share, on_b = (b - a * between) / share;
    return {on_a * known[0].second + on_b * known[1].second, std::sqrt(1 - on_a * a - on_b * b)};
}

namespace {

Estimate place_in_field(const Situation& now, Sport sport, double distance_m) {
    const auto& athlete = now.athlete;
    const bool alone = now.bike_before_m <= 0;
    const double time_s =
        scaled_time_s(sport, standard_time_s(sport, athlete, alone), standard_m(sport), distance_m) *
        sex_factor(sport, athlete, distance_m, alone) / sex_factor(sport, athlete, standard_m(sport), alone);
    if (athlete.level != Level::unknown)
        return {time_s, spread_of(sport) * stated_level, {level_reason(athlete)}, true};
    std::vector<std::pair<Sport, double>> known;
    std::vector<std::string> words;
    for (const Sport other : {Sport::swim, Sport::bike, Sport::run}) {
        const auto shown = other == sport ? std::nullopt : shown_time_s(now, other);
        if (!shown)
            continue;
        known.emplace_back(other,
                           std::log(*shown / standard_time_s(other, athlete, alone)) / spread_of(other));
        words.push_back(fmt::format("the {} is {:.1f} SD {} than the middle of the field", to_string(other),
                                    std::abs(known.back().second),
                                    known.back().second < 0 ? "faster" : "slower"));
    }
    if (known.empty())
        return {time_s, spread_of(sport), {level_reason(athlete)}, true};
    const auto place = expected_place(sport, known);
    return {time_s * std::exp(place.z * spread_of(sport)),
            place.spread * spread_of(sport),
            {{fmt::format("nothing known of the {}; {}, and log splits correlate 0.52-0.61: {:.1f} SD {}",
                          to_string(sport), fmt::join(words, ", "), std::abs(place.z),
                          place.z < 0 ? "faster" : "slower"),
              results_source}},
            true};
}

} // namespace

Estimate from_field(const Situation& now, Sport sport, double distance_m) {
    auto estimate = place_in_field(now, sport, distance_m);
    take_womens(estimate, now.athlete, sport, distance_m, now.bike_before_m <= 0);
    return estimate;
}

} // namespace tuck::effort
