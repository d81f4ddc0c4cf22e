// What a schedule costs: one sum of integers, in hundred-thousandths of a point (our choice, no source). A
// line more to remember is worth some five percent of the leg's carbohydrate.
#pragma once

#include <algorithm>
#include <cstdint>

namespace tuck::schedule::price {

using Cost = std::int64_t;
inline constexpr Cost point = 100'000;

inline constexpr Cost line = 30 * point; // one instruction more to keep in mind
inline constexpr Cost kind = 10 * point; // one kind of food or drink more on a leg, to pack and to tell apart
inline constexpr Cost rank = 20 * point; // for each place down the athlete's (or the usual) order of liking
inline constexpr Cost item = 8 * point;  // to find, open and chew, against a swallow from the bottle
// Of the same sweet gels for hours one has enough: each costs this much more on a ride that is long enough
// for bars.
inline constexpr Cost gel_on_a_long_ride = 6 * point;
inline constexpr Cost lone_solid = 60 * point;    // one bite of something chewed, and never again
inline constexpr Cost second_gel = 100 * point;   // two sorts of gel in one pocket, to tell apart
inline constexpr Cost crowded = 60 * point;       // something to unwrap every quarter of an hour
inline constexpr Cost odd_interval = 60 * point;  // every 45 minutes: no clock shows it
inline constexpr Cost late_start = 15 * point;    // "from 0:15": one word more on the card
inline constexpr Cost unusual = 130 * point;      // a clock, drink or food that is not usual for such a race
inline constexpr Cost hand_up = 20 * point;       // each bottle that is taken up on the way
inline constexpr Cost brief_hand_up = 60 * point; // and for a mouthful or two
inline constexpr Cost two_cups = 100 * point;     // at each station, in mild air
inline constexpr Cost ends_early = 40 * point;    // the bottle is empty before the end
inline constexpr Cost one_swallow = 250 * point;  // hardly worth the reach
inline constexpr Cost big_gulp = 40 * point;      // five swallows at once
inline constexpr Cost dry_per_min = 4 * point;    // of the bike without a drink beyond `dry_from_s`
inline constexpr double dry_from_s = 40 * 60;
inline constexpr Cost plain_bottle = 200 * point; // water where the bottle could bring carbohydrate and salt
inline constexpr Cost disliked = 300 * point;     // a generic food where the athlete has one of that form

// Off the aim of a leg, for each percent of it: within a band below it, within one above it (66 is 60 to
// every coach, so more allowed is not less given), and beyond either. `carb_near_up_to`: where the aim is 'up
// to'.
inline constexpr Cost carb_near_pct = 9 * point, carb_over_pct = 1 * point, carb_far_pct = 18 * point;
inline constexpr double carb_near = 0.05, carb_near_over = 0.08, carb_near_up_to = 0.5;
inline constexpr Cost fluid_pct = 2 * point; // a ceiling is no target
inline constexpr Cost sodium_pct =
    2 * point / 5; // no benefit is claimed: it parts drinks that are otherwise alike
/// In heat drink and sodium count for more, the whole of it at `hot_c`; by degrees, so that one degree
/// changes no food.
inline constexpr int hot_weight = 2, hot_sodium_weight = 4;
inline constexpr double mild_c = 18, hot_c = 32;
/// 100 in mild air, `weight` times as much in the hottest.
constexpr Cost in_heat(Cost price, int heat_pct, int weight) {
    return price * (100 + heat_pct * (weight - 1)) / 100;
}
// Of an hour's carbohydrate, for each percent of the hourly aim below the share that it should hold.
inline constexpr Cost hour_pct = 2 * point, last_bike_hour_pct = 8 * point;
inline constexpr double first_hour_share = 0.5, hour_share = 0.75;

/// On the run, for each percent of the leg that lies on the wrong side of evenly spread items.
inline constexpr Cost uneven_pct = point;

/// Of stops on a ride with both hands on the bar: each takes its time.
constexpr Cost stopping(int minutes) {
    return minutes < 40 ? 60 * point : 0;
}

/// Of a drink line that leaves out beats.
constexpr Cost beats_left_out(int step) {
    return step <= 1 ? 0 : 20 * (step - 1) * point;
}

/// And stations: "each station" is the easiest to keep, every third is hardly a rhythm.
constexpr Cost stations_left_out(int step) {
    return step <= 1 ? 0 : (120 * (step - 1) - 60) * point;
}

/// Of a clock on the bike: hands off the bar every 10 minutes tire, but over a short ride a mouthful every 10
/// is easier than much at once; 15 is the usual one.
constexpr Cost rhythm(int minutes, double leg_s) {
    const bool brief = leg_s < 60 * 60;
    if (minutes <= 10)
        return brief ? 0 : 250 * point;
    return minutes <= 15 ? (brief ? 20 * point : 0) : 150 * point;
}

/// Per unit, where `aim` units are a hundred percent.
constexpr Cost per_unit(Cost per_pct, std::int64_t aim) {
    return aim <= 0 ? 0 : std::max<Cost>(1, (100 * per_pct + aim / 2) / aim);
}

} // namespace tuck::schedule::price
