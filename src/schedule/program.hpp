// The program of a day's feeding: what is decided, what is forbidden, what it costs.
//
// A leg that feeds is a row of slots: every 10, 15 or 20 minutes on the bike (one rhythm a leg, a grid each),
// aid stations or a rhythm on the run, one slot in a transition. Decided are lines that a tired person can
// follow:
//
//   D[l,g,d,n,k,s,e]  drink line: n swallows (cups) of drink d every k slots from slot s on, to the end of
//   the
//                     leg (or, where watery gels may follow, an hour before it) or as long as the drink
//                     lasts; when the own bottles are empty, from handed-up ones
//   I[l,g,p,k,s,e]    item line: one portion p every k slots from s to e; it lasts 40 minutes, or to the last
//                     slot where p can be taken, or it is a single feed
//
// At most one drink line a leg, and item lines that do not overlap: so a feed is at most one item and five
// swallows. On busy slots a line skips. Every rule is a row over slots lo..hi of one leg:
//
//   sum over feeds in lo..hi of amount[resource]  <=  slack        (see rows.hpp)
//
// for rolling hours (carbohydrate, both sugar paths, fluid, caffeine), drink since the start below sweat,
// water for gels, no gel with a concentrated drink, mass in pockets and room in the belt, on three days at
// once: the fast (p10), the likely (p50) and the slow one (p90), all legs stretched together. Bike feeds hold
// their clock time, run feeds their kilometre. A feed after the end of a leg is dropped; on the slow day the
// last lines of a bike leg go on (`extra` slots).
//
// The cost is one sum of integers: lines, kinds, items, and distance from the need's curves (prices.hpp).
// Curves start anew with each leg: grams that one leg could not take are not chased on the next (common
// practice). Drink and sodium hang on the drink line alone, so they are part of its price.
#pragma once

#include "schedule/menu.hpp"
#include "schedule/prices.hpp"
#include "schedule/timeline.hpp"

#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace tuck::schedule {

using price::Cost;

/// The fast, the likely and the slow day.
inline constexpr size_t days = 3, fast = 0, likely = 1, slow = 2;
using DayTimes = std::array<double, days>; // s from the start of the race; `never`: the athlete is not there
inline constexpr double same_moment_s = 60; // what is fixed this near to a slot moves to it
inline constexpr double never = -1;

/// What one feed uses of each limit. mg; fluid in mg of water (1 ml = 1000); caffeine in
/// micrograms; `mass` and `room` on regular slots
/// only.
/// `gel`: 1 for a gel or chews.
enum Resource { carb, glucose, fructose, fluid, caffeine, gel_water, mass, room, gel, resources };
using Amounts = std::array<std::int32_t, resources>;
Amounts amounts_of(const Dose& dose);

/// A moment at which a leg can feed.
struct Slot {
    double at_s = 0; // from the start of the leg on the likely day
    double km = 0;
    DayTimes clock_s{never, never, never};
    bool drink_ok = true;    // false: a drink line skips this slot
    bool skip_item = false;  // true: an item line may skip this slot
    std::uint32_t foods = 0; // bit p: food p of the leg may be taken here
    bool extra = false;      // only on the slow day, after the likely end
    std::string beside;      // "before the descent at km 12": moved off its rhythm
};

struct Grid {
    double every_s = 0; // 0: at aid stations
    Cost points = 0;
    std::vector<Slot> slots; // regular ones first, then the extra ones
    size_t regular = 0;
};

struct FoodChoice {
    Portion portion;
    Amounts amounts{};
    Cost points = 0;     // of the kind, once a leg
    bool served = false; // handed out at a station, not carried
};

struct DrinkChoice {
    Drink drink;
    Dose sip; // one swallow or cup
    Amounts amounts{};
    Cost points = 0; // of the kind
    double added_sodium_mg_per_ml = 0; // salt to weigh in
    bool concentrated = false;         // serves no gel as water, and is never taken together with one
};

/// Something that is taken whatever else is decided: a pin, a gel with caffeine.
struct FixedItem {
    size_t leg = 0;
    double at_s = 0;
    DayTimes clock_s{never, never, never};
    Portion portion;
    Amounts amounts{};
    bool pinned = false;
    double km = 0;
    bool served = false; // handed out at a station, not carried
};

/// Where the need's curve is compared.
struct Checkpoint {
    double at_s = 0; // from the start of the leg
    int carb_mg = 0, fluid_ml = 0, sodium_mg = 0;
    bool end = false;
};

struct DrinkLine;

struct LegProgram {
    size_t leg = 0; // index into effort.legs
    LegKind kind = LegKind::bike;
    DayTimes start_s{}, length_s{};
    std::vector<Grid> grids; // empty: nothing can be taken
    std::vector<FoodChoice> foods;
    std::vector<DrinkChoice> drinks;
    DrinkChoice station_drink; // once the own drink is gone
    double sip_ml = 30;
    std::string sip_unit = "swallow";
    int most_sips = 5;
    std::vector<int> item_steps; // k of item lines, in slots, for each grid the same
    double own_ml = 0;           // own drink at the likely duration, so that it lasts to the slow end
    bool bottles = false;        // own drink comes from the bike's bottles, which all bike legs share
    double per_station_ml = 0;   // handed up; 0: none
    std::vector<double> stations_s; // moments of those stations; one is assumed missed
    double bag_s = 0;            // when the special-needs bag is reached at the latest; 0: there is none
    double bag_ml = 0;           // own drink in it
    std::int32_t room_before_bag = -1; // of `room`, items in the belt until then; -1: all of them
    std::int32_t pocket_mg = -1; // -1: not looked at
    std::int32_t room = -1;      // items in the belt; -1: not looked at
    int max_lines = 6;
    std::int32_t fluid_most_mg = -1; // the printed ceiling times the likely length; -1: not looked at
    double drinks_from_s = 0;        // of the race's likely clock: what transitions before the leg drink counts too
    std::string vessel = "flask";    // what an own drink off the bike is in; one recipe each
    int fluid_weight = 1; // of the drink's prices: more on a hot day
    std::vector<Checkpoint> checkpoints;

    /// What a drink line gives at a slot at which it feeds.
    const DrinkChoice& drink_at(const DrinkLine& line, size_t slot) const;
};

struct Program {
    std::vector<LegProgram> legs; // every leg of the race, in order
    std::vector<FixedItem> fixed;
    IntakeLimits limits;
    std::array<FluidCurves, days> curves;
};

/// D. `last` is its last regular slot; `points` hold everything that hangs on the drink alone.
struct DrinkLine {
    int drink = -1, sips = 0; // -1: no drink line
    int step = 1, first = 0, last = -1;
    int handed_from = 1 << 20; // the first slot that drinks from stations
    double own_ml = 0;
    int lines = 0; // on the card
    Cost points = 0;
    bool feeds(const Grid& grid, size_t slot) const;
};
/// I. `first`, `last`: its first and last regular slot.
struct ItemLine {
    int food = 0, step = 1, first = 0, last = 0, feeds = 1;
    bool single = false, to_the_end = false; // to the end: goes on on the slow day
};

/// The one slot that a fixed item is taken with; the number of slots: none, it stands alone.
size_t slot_of(const Grid& grid, const FixedItem& item);
/// Moves a fixed item to the nearest moment that its leg has anyway, so that it is taken with what is taken there.
void snap(const LegProgram& leg, FixedItem& item);
/// How many regular slots come before the special-needs bag.
size_t slots_before_bag(const LegProgram& leg, const Grid& grid);
/// Every drink line of a leg on one grid, "none" first.
std::vector<DrinkLine> drink_lines(const LegProgram& leg, size_t grid);
/// Every item line, by its first slot.
std::vector<ItemLine> item_lines(const LegProgram& leg, size_t grid);
/// Price of an item line without its kind.
Cost price_of(const LegProgram& leg, const ItemLine& line);
/// The slots at which an item line feeds, extra ones included.
std::vector<size_t> slots_of(const Grid& grid, const ItemLine& line);

/// Price of `off_mg` of carbohydrate away from the curve.
constexpr Cost carb_off(const Checkpoint& point, std::int64_t off_mg) {
    const std::int64_t off = off_mg < 0 ? -off_mg : off_mg;
    const auto beyond = [off](std::int64_t band) { return off > band ? off - band : 0; };
    return point.end ? price::carb_near_per_mg * (off - beyond(price::carb_end_band_mg)) +
                           price::carb_far_per_mg * beyond(price::carb_end_band_mg)
                     : price::carb_hour_per_mg * beyond(price::carb_hour_band_mg);
}

} // namespace tuck::schedule
