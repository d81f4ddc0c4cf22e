// The best pattern of feeds for one leg: every combination of rhythm, drink, swallows and food is priced,
// and the cheapest that breaks no rule is taken.
#pragma once

#include "schedule/menu.hpp"
#include "schedule/timeline.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace tuck::schedule {

/// A moment at which the athlete may feed, from the start of the leg.
struct Slot {
    double at_s = 0;
    double km = 0;
    bool item_ok = true;  // something to unwrap or tear open
    bool solid_ok = true; // something to chew
};

/// One rhythm that may be chosen, with its slots. `every_s` 0: at aid stations.
struct Rhythm {
    double every_s = 0;
    std::vector<Slot> slots;
    int points = 0; // price of the rhythm itself
};

/// What can be drunk on a leg: own bottles first, then what stations hand out.
struct Supply {
    double own_ml = 0;                     // at the median duration, so that it lasts to p90
    double per_station_ml = 0;             // 0: nothing handed out that lasts
    std::vector<double> stations_s;        // moments of the stations; one is assumed missed
    double drunk_by_ml(double at_s) const; // most that can have been drunk by then
};

struct LegFrame {
    size_t leg = 0; // index into effort.legs
    LegKind kind = LegKind::bike;
    double start_s = 0, duration_s = 0;
    double carb_g_per_h = 0, fluid_aim_ml_per_h = 0;
    std::vector<Rhythm> rhythms;
    std::vector<Portion> solids, soft; // soft: gels, chews, food for the run
    std::optional<Portion> caffeine;
    std::vector<Drink> drinks; // own; at a station: what it serves
    Drink station_drink;       // once the own drink is gone
    double sip_ml = 30;        // a swallow, or a cup
    std::string sip_unit = "swallow";
    int most_sips = 5;
    int most_items = 1000;  // that can be carried or handed out
    double most_food_g = 0; // mass that pockets and box hold; 0: not looked at
    Supply supply;
};

/// -1 for no solid or no soft food.
struct Pattern {
    size_t rhythm = 0, drink = 0;
    int sips = 0, item_sips = 0;
    int solid = -1, soft = -1;
    int every = 1, offset = 0; // items at slots offset, offset + every, ...
    int caffeine_slot = -1;    // the item of this slot is the caffeinated one
};

struct LegChoice {
    Pattern pattern;
    bool any = false; // false: nothing at all is the best
    double carb_g = 0;
    double points = 0;
    std::array<double, static_cast<size_t>(Rule::none)> blocked; // cheapest pattern that each rule forbade
    std::vector<Dose> doses;
};

/// What happens at one slot of a pattern.
struct SlotFeed {
    bool feeds = false;
    const Portion* item = nullptr;
    int sips = 0;
    bool own_drink = true;
    double own_before_ml = 0; // own drink already drunk on this leg
};
/// One entry a slot of the pattern's rhythm.
std::vector<SlotFeed> expand(const LegFrame& frame, const Pattern& pattern);

/// The doses of a pattern, one for each slot that feeds.
std::vector<Dose> doses_of(const LegFrame& frame, const Pattern& pattern);

LegChoice search_leg(const LegFrame& frame, const std::vector<Dose>& before, const IntakeLimits& limits,
                     const FluidCurves& curves);

} // namespace tuck::schedule
