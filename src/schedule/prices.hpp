// What a schedule costs: one sum of integers, in thousandths of a point (our choice, no source).
// One gram of carbohydrate off at the end of a leg is 10 points; a line more to remember is worth six grams.
#pragma once

#include <cstdint>

namespace tuck::schedule::price {

using Cost = std::int64_t;

inline constexpr Cost line = 60'000;      // one instruction more to keep in mind
inline constexpr Cost odd_feed = 60'000;  // a single feed on a long ride, apart from every rhythm
inline constexpr double odd_from_s = 90 * 60;
inline constexpr Cost kind = 10'000;      // one kind of food or drink more on a leg, to pack and to tell apart
inline constexpr Cost rank = 2'000;       // for each place down the athlete's (or the usual) order of liking
inline constexpr Cost item = 10'000;      // to find, open and chew, against a swallow from the bottle
inline constexpr Cost one_swallow = 160'000; // hardly worth the reach
inline constexpr Cost dry_per_min = 4'000;   // of the bike without a drink beyond `dry_from_s`
inline constexpr double dry_from_s = 40 * 60;

// Carbohydrate off the need's curve, per mg: at each full hour outside the dead band of a feed, and at the end
// of the leg little within a third of a feed and much beyond it.
inline constexpr Cost carb_hour_per_mg = 3, carb_near_per_mg = 2, carb_far_per_mg = 10;
inline constexpr int carb_hour_band_mg = 15'000, carb_end_band_mg = 8'000;
// Drink below the aim, per ml: at the end of the leg (25 ml weigh as much as a gram of carbohydrate), and at
// each full hour beyond one feed.
inline constexpr Cost fluid_end_per_ml = 400, fluid_hour_per_ml = 100;
inline constexpr int fluid_hour_band_ml = 150;
inline constexpr int hot_weight = 2; // of both where the air is this warm, our choice
inline constexpr double hot_c = 25;
// Sodium in drink below the need at the end of the leg, per mg, beyond what a bar brings: no benefit is
// claimed, so it only parts drinks that are otherwise alike.
inline constexpr Cost sodium_per_mg = 10;
inline constexpr int sodium_band_mg = 150;

/// Of a rhythm on the bike: hands off the bar every 10 minutes tire, 15 is the usual one.
constexpr Cost rhythm(int minutes) {
    return minutes <= 10 ? 100'000 : minutes <= 15 ? 0 : 3'000;
}

} // namespace tuck::schedule::price
