// What a schedule costs: one sum of integers, in hundred-thousandths of a point (our choice, no source). A
// line more to remember is worth some seven percent of the leg's carbohydrate.
#pragma once

#include <algorithm>
#include <cstdint>
#include <cstdlib>

namespace tuck::schedule::price {

using Cost = std::int64_t;
inline double knob(const char* name, double usual) {
    const char* v = std::getenv(name);
    return v ? std::atof(v) : usual;
}
inline constexpr Cost point = 100'000;

inline const Cost line = static_cast<Cost>(knob("P_line", static_cast<double>(50 * point) / point) *
                                           point); // one instruction more to keep in mind
inline const Cost kind =
    static_cast<Cost>(knob("P_kind", static_cast<double>(10 * point) / point) *
                      point); // one kind of food or drink more on a leg, to pack and to tell apart
inline const Cost rank =
    static_cast<Cost>(knob("P_rank", static_cast<double>(20 * point) / point) *
                      point); // for each place down the athlete's (or the usual) order of liking
inline const Cost item =
    static_cast<Cost>(knob("P_item", static_cast<double>(8 * point) / point) *
                      point); // to find, open and chew, against a swallow from the bottle
// Of the same sweet gels for hours one has enough: each costs this much more on a ride that is long enough
// for bars.
inline const Cost gel_on_a_long_ride =
    static_cast<Cost>(knob("P_gel_on_a_long_ride", static_cast<double>(6 * point) / point) * point);
inline const Cost lone_solid =
    static_cast<Cost>(knob("P_lone_solid", static_cast<double>(60 * point) / point) *
                      point); // one bite of something chewed, and never again
inline const Cost odd_interval =
    static_cast<Cost>(knob("P_odd_interval", static_cast<double>(60 * point) / point) *
                      point); // every 45 minutes: no clock shows it
inline const Cost late_start =
    static_cast<Cost>(knob("P_late_start", static_cast<double>(15 * point) / point) *
                      point); // "from 0:15": one word more on the card
inline const Cost unusual = static_cast<Cost>(
    knob("P_unusual", 120) * point); // a clock, drink or food that is not usual for such a race
inline const Cost hand_up = static_cast<Cost>(knob("P_hand_up", 20) * point),
                  two_cups = static_cast<Cost>(knob("P_two_cups", 100) * point);
inline const Cost ends_early =
    static_cast<Cost>(knob("P_ends_early", static_cast<double>(40 * point) / point) *
                      point); // the bottle is empty before the end
inline const Cost one_swallow = static_cast<Cost>(
    knob("P_one_swallow", static_cast<double>(250 * point) / point) * point); // hardly worth the reach
inline const Cost big_gulp = static_cast<Cost>(knob("P_big_gulp", static_cast<double>(40 * point) / point) *
                                               point); // five swallows at once
inline const Cost dry_per_min =
    static_cast<Cost>(knob("P_dry_per_min", static_cast<double>(4 * point) / point) *
                      point); // of the bike without a drink beyond `dry_from_s`
inline constexpr double dry_from_s = 40 * 60;
inline const Cost plain_bottle =
    static_cast<Cost>(knob("P_plain_bottle", static_cast<double>(200 * point) / point) *
                      point); // water where the bottle could bring carbohydrate and salt
inline const Cost disliked =
    static_cast<Cost>(knob("P_disliked", static_cast<double>(300 * point) / point) *
                      point); // a generic food where the athlete has one of that form

// Off the aim of a leg, for each percent of it.
inline const Cost carb_near_pct = static_cast<Cost>(knob("P_near", 4) * point),
                  carb_over_pct = static_cast<Cost>(knob("P_over", 1) * point),
                  carb_far_pct =
                      static_cast<Cost>(knob("P_far", 10) * point); // within and beyond `carb_near` of it
inline const double carb_near = knob("P_band", 0.05), carb_near_over = knob("P_bandover", 0.08),
                    carb_near_up_to = 0.5; // the second: where the aim is 'up to'
inline const Cost fluid_pct = static_cast<Cost>(
    knob("P_fluid_pct", static_cast<double>(3 * point / 2) / point) * point); // a ceiling is no target
inline const Cost sodium_pct =
    static_cast<Cost>(knob("P_sodium_pct", static_cast<double>(2 * point / 5) / point) *
                      point); // no benefit is claimed: it parts drinks that are otherwise alike
/// In heat drink and sodium count for more, the whole of it at `hot_c`; by degrees, so that one degree
/// changes no food.
inline constexpr int hot_weight = 2, hot_sodium_weight = 4;
inline constexpr double mild_c = 18, hot_c = 32;
/// 100 in mild air, `weight` times as much in the hottest.
inline Cost in_heat(Cost price, int heat_pct, int weight) {
    return price * (100 + heat_pct * (weight - 1)) / 100;
}
// Of an hour's carbohydrate, for each percent of the hourly aim below the share that it should hold.
inline const Cost hour_pct = static_cast<Cost>(knob("P_hour", 2) * point),
                  last_bike_hour_pct = static_cast<Cost>(knob("P_last", 6) * point);
inline constexpr double first_hour_share = 0.5, hour_share = 0.75;

/// On the run, for each percent of the leg that its longest stretch without an item is longer than an even
/// one.
inline const Cost uneven_pct =
    static_cast<Cost>(knob("P_uneven_pct", static_cast<double>(point / 2) / point) * point);

/// Of stops on a ride with both hands on the bar: each takes its time.
inline Cost stopping(int minutes) {
    return minutes < 40 ? 60 * point : 0;
}

/// Of a drink line that leaves out beats or stations: "each station" is the easiest to keep.
inline Cost beats_left_out(int step) {
    return step <= 1 ? 0 : static_cast<Cost>(knob("P_beats", 20) * (step - 1) * point);
}

/// Of a clock on the bike: hands off the bar every 10 minutes tire, but over a short ride a mouthful every 10
/// is easier than much at once; 15 is the usual one.
inline Cost rhythm(int minutes, double leg_s) {
    const bool brief = leg_s < 60 * 60;
    if (minutes <= 10)
        return brief ? 0 : static_cast<Cost>(knob("P_r10", 150) * point);
    return minutes <= 15 ? (brief ? 20 * point : 0) : static_cast<Cost>(knob("P_r20", 80) * point);
}

/// Per unit, where `aim` units are a hundred percent.
inline Cost per_unit(Cost per_pct, std::int64_t aim) {
    return aim <= 0 ? 0 : std::max<Cost>(1, (100 * per_pct + aim / 2) / aim);
}

} // namespace tuck::schedule::price
