// Which days, and which rate on each. Common practice, no source.
#include "base/dates.hpp"
#include "tuck/figures.hpp"
#include "tuck/rehearsal.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

constexpr int last_before_race_days = static_cast<int>(figure("ladder.no_new_step_days")) + 1;
constexpr int good_sessions_a_step = static_cast<int>(figure("ladder.good_before_step"));
constexpr double step_g_per_h = figure("ladder.large_step_g_per_h");
constexpr unsigned sunday = 0, saturday = 6;

unsigned weekday_of(const std::string& date) {
    return std::chrono::weekday(std::chrono::sys_days(date_of(date).value())).c_encoding();
}

Weekdays days_or_weekend(const Weekdays& days, const std::string& race_date) {
    if (!days.empty())
        return days;
    const unsigned race_day = weekday_of(race_date);
    return {race_day == sunday ? sunday : saturday};
}

/// Oldest first.
std::vector<std::string> dates_until(const std::string& race_date, int weeks, const Weekdays& days) {
    std::vector<std::string> out;
    for (int before = 7 * weeks; before >= last_before_race_days; --before) {
        const auto date = date_minus(race_date, before);
        if (std::find(days.begin(), days.end(), weekday_of(date)) != days.end())
            out.push_back(date);
    }
    return out;
}

std::string session_text(const Rehearsal& first, double rate, bool last) {
    std::string length;
    if (first.ride_min > 0)
        length = fmt::format("{:.0f} min ride", first.ride_min);
    if (first.run_min > 0)
        length += fmt::format("{}{:.0f} min run", length.empty() ? "" : ", then ", first.run_min);
    const std::string what = rate > 0 ? fmt::format("race food at {:.0f} g/h", rate) : "drink to thirst";
    return fmt::format(
        "{}, {}{}", length, what,
        last ? ", as the race: its clothes, its breakfast, its hour; no new step after this one."
             : ", race effort at the end.");
}

} // namespace

RehearsalSeries rehearsal_series(const Rehearsal& first, const Learned& learned, int weeks,
                                 const std::string& race_date, const Weekdays& days) {
    RehearsalSeries out;
    const auto dates = dates_until(race_date, weeks, days_or_weekend(days, race_date));
    double rate = first.session_carb_g_per_h;
    const auto& gut = learned.bike.carb_g_per_h > 0 ? learned.bike : learned.run;
    int good = std::abs(gut.carb_g_per_h - rate) < step_g_per_h / 4 ? gut.good_at_this_rate : 0;
    for (const auto& date : dates) {
        if (good >= good_sessions_a_step && rate < first.race_carb_g_per_h) {
            rate = std::min(rate + step_g_per_h, first.race_carb_g_per_h);
            good = 0;
        }
        const bool last = date == dates.back();
        out.days.push_back({date, rate, last, session_text(first, rate, last)});
        ++good;
    }
    out.reached_g_per_h = rate;
    if (dates.empty()) {
        out.notes = {"The race is too near for a rehearsal: none in the last ten days at a new step. Race "
                     "food at a rate "
                     "that went well before is fine."};
        return out;
    }
    if (out.days.front().carb_g_per_h >= first.race_carb_g_per_h - 0.5)
        return out; // each of them is at the race's rate
    out.notes = {"The rates rise only if each session goes well: worst symptom at most 3, 90 % taken, with "
                 "the run. Steps of 10 g/h where the worst symptom is at most 1, else 5; none in the last "
                 "ten days (common practice, no source)."};
    if (rate < first.race_carb_g_per_h - 0.5)
        out.notes.push_back(
            fmt::format("By then {:.0f} g/h can be reached, not {:.0f}: the race is planned at "
                        "what was rehearsed.",
                        rate, first.race_carb_g_per_h));
    return out;
}

} // namespace tuck
