// The program of a day's feeding: what is decided, what is forbidden, what it costs.
//
// Legs are decided in order: the best plan of a leg, knowing what was taken before it. A leg that feeds is a
// row of slots, one clock: every 10, 15 or 20 minutes on the bike, aid stations or such a clock on the run,
// one slot in a transition. Decided are a few lines that a tired person can follow:
//
//   D[l,g,d,n,k]      drink line: n swallows (cups) of drink d on every k-th beat, to the end of the leg or
//   as
//                     long as the drink lasts; when the own bottles are empty, from handed-up ones
//   I[l,g,p,k,s,e]    item line: one portion p on every k-th beat from s to e, or once
//
// k is 1 to 4 beats, and of two lines one's interval divides the other's: one rhythm. On the bike an item is
// taken with a drink, so that it is never dry; the first item line may be solid, a second one is soft, of
// another kind and comes after it: solids early, liquids late. On the run there is one item line. Items stand
// 20 minutes apart or more. On busy slots a line skips. Every other rule is a row over slots lo..hi of one
// leg:
//
//   sum over feeds in lo..hi of amount[resource]  <=  slack        (see rows.hpp)
//
// for the gut (carbohydrate and its two paths: a rolling hour, two hours and the whole leg against the leg's
// rate, each with the tolerance of `Caps`), fluid (the printed ceiling over the leg with the transition
// before it, and over a rolling hour with two swallows more; never above sweat since the start), caffeine,
// water for gels, no gel with a concentrated drink, mass in pockets and room in the belt. The rows hold on
// the fast (p10), the likely (p50) and the slow day (p90), all legs stretched together. Bike feeds hold their
// clock time, run feeds their kilometre. A feed after the end of a leg is dropped; on the slow day the last
// lines of a bike leg go on (`extra` slots). On the fast day the gut's hours are held to the rate of the day
// instead of the leg's: who runs faster eats faster.
//
// The cost is one sum of integers (prices.hpp): lines, kinds and items; carbohydrate, drink and sodium off
// the leg's aim, in percent of it, so that a sprint and a long ride are judged alike; and hours that fall
// short of the hourly aim, the last one of the leg above all. Drink hangs on the drink line alone, so it is
// part of its price.
#pragma once

#include "schedule/menu.hpp"
#include "schedule/prices.hpp"
#include "schedule/timeline.hpp"
#include "tuck/schedule.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace tuck::schedule {

using price::Cost;

/// The fast, the likely and the slow day.
inline constexpr size_t days = 3, fast = 0, likely = 1, slow = 2;
using DayTimes = std::array<double, days>;  // s from the start of the race; `never`: the athlete is not there
inline constexpr double same_moment_s = 60; // what is fixed this near to a slot moves to it
inline constexpr double never = -1;

/// What one feed uses of each limit. mg; fluid in mg of water (1 ml = 1000); caffeine and sodium in
/// micrograms; `mass` and `room` on regular slots only. `gel`: 1 for a gel or chews.
enum Resource { carb, glucose, fructose, fluid, caffeine, sodium, gel_water, mass, room, gel, resources };
using Amounts = std::array<std::int32_t, resources>;
Amounts amounts_of(const Dose& dose);

/// A moment at which a leg can feed.
struct Slot {
    double at_s = 0; // from the start of the leg on the likely day
    double km = 0;
    DayTimes clock_s{never, never, never};
    bool drink_ok = true;         // false: a drink line skips this slot
    bool skip_item = false;       // true: an item line may skip this slot
    std::uint32_t foods = 0;      // bit p: food p of the leg may be taken here
    bool extra = false;           // only on the slow day, after the likely end
    std::optional<Beside> beside; // moved off its rhythm
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
    Cost points = 0;      // of the kind, once a leg
    Cost item_points = 0; // of each
    bool served = false;  // handed out at a station, not carried
};

struct DrinkChoice {
    Drink drink;
    Dose sip; // one swallow or cup
    Amounts amounts{};
    Cost points = 0;                   // of the kind
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
    bool served = false;   // handed out at a station, not carried
    bool by_place = false; // at a moment that was moved to a clear road
};

/// The most of one gut limit (carb, glucose, fructose), mg; `unlimited`: lifted.
struct Caps {
    std::array<std::int32_t, 3> hour{}, two_hours{}, leg{};
};
inline constexpr std::int32_t unlimited = 1'000'000'000;
/// Aim and cap are two numbers (common practice, no source): of a rate, and of a gut path's hourly capacity,
/// a leg's mean may reach 1.1 (of a full hour, where the leg is shorter), two hours 2.2, and a rolling hour
/// 15 g more but no more than 1.25.
Caps caps_of(double carb_g_per_h, double glucose_g_per_h, double fructose_g_per_h, double leg_s);

/// What a leg should bring; nothing where it is 0.
struct Aim {
    int carb_mg = 0, fluid_ml = 0, sodium_mg = 0;
    bool up_to = false; // short of it is hardly a shortfall (under two hours)
};
/// An hour of the leg, (from, to], in which carbohydrate below `least_mg` is priced.
struct Hour {
    double from_s = 0, to_s = 0;
    int least_mg = 0;
    Cost per_mg = 0;
    bool holds(double at_s) const { return at_s > from_s + 1e-6 && at_s <= to_s + 1e-6; }
};

struct DrinkLine;

/// What is usual on such a leg, see habit.hpp. Foods are those of the pantry.
struct Habit {
    double every_s = 0;          // of the clock; 0: at stations
    const Food* drink = nullptr; // nullptr: none, or water without a name
    int drink_step = 0;          // 0: no drink line
    struct Item {
        const Food* food = nullptr;
        int interval = 0; // s, or stations; 0: once
    };
    std::vector<Item> items;
};

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
    int most_item_step = 4;
    bool items_with_drink = false; // item lines feed on beats of the drink line
    double items_apart_s = 0;
    bool stops = false;             // both hands stay on the bar: the rider stops for it
    double own_ml = 0;              // own drink
    bool bottles = false;           // own drink comes from the bike's bottles, which all bike legs share
    double per_station_ml = 0;      // handed up; 0: none
    std::vector<double> stations_s; // those stations, on a slow day; one is assumed missed
    double bag_s = 0;               // when the special-needs bag is reached at the latest; 0: there is none
    double bag_ml = 0;              // own drink in it
    std::int32_t room_before_bag = -1; // of `room`, items in the belt until then; -1: all of them
    std::int32_t pocket_mg = -1;       // -1: not looked at
    std::int32_t room = -1;            // items in the belt; -1: not looked at
    int max_lines = 4, max_item_lines = 2;
    Aim aim;
    int heat_pct = 0; // 0 in mild air, 100 in the hottest
    std::vector<Hour> hours;
    Caps caps;
    double ceiling_ml_per_h = 0; // printed; 0: the leg has none of its own (a transition)
    double hour_over_ml = 0;     // that a rolling hour may hold above the ceiling
    std::optional<Habit> habit;
    std::string vessel = "flask"; // what an own drink off the bike is in; one recipe each

    /// What a drink line gives at a slot at which it feeds.
    const DrinkChoice& drink_at(const DrinkLine& line, size_t slot) const;
};

struct Program {
    std::vector<LegProgram> legs; // every leg of the race, in order
    std::vector<FixedItem> fixed;
    IntakeLimits limits;
    std::array<FluidCurves, days> curves;
    Caps day_caps; // by the rate of the day
};

/// D. `last` is its last regular slot; `points` hold everything that hangs on the drink alone.
struct DrinkLine {
    int drink = -1, sips = 0; // -1: no drink line
    int step = 1, first = 0, last = -1;
    int handed_from = 1 << 20; // the first slot that drinks from stations
    double own_ml = 0;         // own drink, to the end of a slow day
    bool filled_up = false;    // on a slow day a bottle is handed up in its place
    int lines = 0;             // on the card
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
/// Moves a fixed item to the nearest moment that its leg has anyway, so that it is taken with what is taken
/// there.
void snap(const LegProgram& leg, FixedItem& item);
/// How many regular slots come before the special-needs bag.
size_t slots_before_bag(const LegProgram& leg, const Grid& grid);
/// Every drink line of a leg on one grid, "none" first.
std::vector<DrinkLine> drink_lines(const LegProgram& leg, size_t grid);
/// Every item line, by its first slot.
std::vector<ItemLine> item_lines(const LegProgram& leg, size_t grid);
/// Whether an item line keeps the rhythm of a drink line.
bool in_rhythm(const LegProgram& leg, const DrinkLine& drink, const ItemLine& item);
/// Whether `second` may come after `first` on one leg.
bool may_follow(const LegProgram& leg, const Grid& grid, const ItemLine& first, const ItemLine& second);
/// Price of an item line with its kind.
Cost price_of(const LegProgram& leg, const Grid& grid, const ItemLine& line);
/// The habit that a food of the leg keeps: the same food, or another gel for a gel; nullptr: none.
const Habit::Item* usual(const LegProgram& leg, int food);
/// Price of two item lines beside that of each.
Cost price_of_both(const LegProgram& leg, int first_food, int second_food);
/// The slots at which an item line feeds, extra ones included.
std::vector<size_t> slots_of(const Grid& grid, const ItemLine& line);

/// Sets `hours` of a leg from its aim and length.
void set_hours(LegProgram& leg);

/// Price of carbohydrate off the aim, per mg: `near` within a band, `far` beyond it.
struct CarbPrice {
    std::int64_t band_mg = 0, band_over_mg = 0; // below and above the aim
    Cost near = 0, near_over = 0, far = 0;      // `near` below the aim
};
CarbPrice carb_price(const Aim& aim);
Cost sodium_price(const LegProgram& leg); // per mg below the aim
/// Price of what a leg brings off its aim: mg of carbohydrate and of sodium.
Cost carb_off(const Aim& aim, std::int64_t carb_mg);
Cost carb_off(const Aim& aim, const CarbPrice& price, std::int64_t carb_mg);
Cost sodium_off(const LegProgram& leg, std::int64_t sodium_mg);
/// Price of an hour that holds this much.
Cost hour_off(const Hour& hour, std::int64_t carb_mg);

/// One leg as it may be chosen.
struct LegSolution {
    size_t grid = 0;
    DrinkLine drink;
    std::vector<ItemLine> items; // in time order
};
/// What it brings on the likely day, fixed items included.
struct Taking {
    double at_s = 0;
    std::int32_t carb_mg = 0, sodium_mg = 0;
};
std::vector<Taking> takings(const Program& program, const LegProgram& leg, const LegSolution& choice);
/// What it costs, fixed items included.
Cost cost_of(const Program& program, const LegProgram& leg, const LegSolution& choice);

} // namespace tuck::schedule
