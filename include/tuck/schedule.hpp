// Schedule: which food, how much, at which minute or kilometre.
#pragma once

#include "tuck/event.hpp"
#include "tuck/food.hpp"
#include "tuck/quantity.hpp"
#include "tuck/reason.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace tuck {

struct Athlete;
struct Body;
struct Effort;
struct Need;

/// An amount of one food: 0.5 "bar", 1 "gel", 3 "swallow", 1 "cup".
struct FeedItem {
    std::string food;
    double amount = 0;
    std::string unit;
    std::string from;       // "B1", "pocket", "station"
    std::string label = {}; // short name of the food
};

/// One action at one moment. `at_s` counts from the start of its leg at the median duration.
struct PlanFeed {
    int leg_index = 0;
    LegKind leg = LegKind::bike;
    Seconds at_s = 0;
    double km = 0;
    bool by_place = false; // on another day it comes where the road is clear, not when the clock says
    std::vector<FeedItem> items;
    Grams carb_g = 0, glucose_g = 0, fructose_g = 0;
    Millilitres fluid_ml = 0;
    Milligrams sodium_mg = 0, caffeine_mg = 0;
};

/// How the moments of a line repeat, which is how it is said.
struct Rhythm {
    enum class Kind {
        moments,  // one by one
        every,    // every so many seconds of the leg
        stations, // at each station of the road, or each `step`th
    };
    Kind kind = Kind::moments;
    Seconds every_s =
        0;        // Kind::every: the beat of the line; its moments may be moved off it, see Line::beside
    int step = 1; // Kind::stations: 1 or more
    bool operator==(const Rhythm&) const = default;
};

/// One moment of a leg: seconds from its start at the median duration, and the kilometre there.
struct LegMoment {
    Seconds at_s = 0;
    double km = 0;
};

/// Where a rhythm begins and ends; nothing where it runs from the first beat of its leg, or to the last.
struct Window {
    std::optional<LegMoment> from, to;
};

/// Whence something is taken: "B1", "pocket", "station", from a moment of the line on.
struct LineSource {
    std::string name;
    std::size_t first = 0; // place in Line::at
};

/// What is taken at every moment of a line.
struct LineItem {
    std::string food;             // id
    std::string label;            // its short name
    double amount = 0;            // 0 or more
    std::string unit;             // "swallow", "cup", or the food's own: "bar", "gel"
    std::vector<LineSource> from; // in order, never empty: "B1", then "B2"
    bool drink() const { return unit == "swallow" || unit == "cup"; }
};

/// A moment of a line that falls off its rhythm, and why.
struct Beside {
    enum class Kind {
        before,   // moved before a stretch of road
        after,    // moved behind it
        left_out, // hands stay on the bar, and no clear road is near
        replaced, // another food is taken then
    };
    Kind kind = Kind::left_out;
    Seconds at_s = 0;
    std::string stretch; // "descent"; empty where a moment is left out or replaced
    double km = 0;       // of the stretch
};

/// One line that a tired person can follow: "every 20 min: 1/2 bar + 4 swallows B1".
struct Line {
    int leg_index = 0;
    LegKind leg = LegKind::bike;
    Rhythm rhythm;
    bool by_km = false; // counted along the road, not on the clock
    Window window;
    std::vector<LegMoment> at;   // every moment, in order of time
    Seconds goes_on_from_s = 0;  // its first beat past the last one, wherever the road moved that
    Seconds goes_on_every_s = 0; // past the last one until the leg is over, however slow the day; 0: it ends
    std::vector<LineItem> items; // food before drink
    std::vector<Beside> beside;
    bool stop =
        false; // both hands stay on the bar: taken standing, some 20 s, in a safe place or at a station
};

struct CarryItem {
    std::string food; // id, or empty for plain kit
    double amount = 0;
    std::string unit;
    std::string where; // "bike", "belt", "T1", "T2", "bike bag", "run bag"
    std::string text;
};

/// A stop for the athlete's own bag. What it holds stands among `carry` and `mix`.
struct BagStop {
    int leg_index = 0;
    LegKind leg = LegKind::bike;
    double km = 0;
    bool counted_on = false; // false: a spare; the plan holds without it
    std::string text;        // for the card
};

/// How to mix one bottle. Grams of every powder, salt included.
struct MixItem {
    std::string food;
    Grams grams = 0;
};
struct Mix {
    std::string bottle; // "B1"
    Millilitres volume_ml = 0;
    std::vector<MixItem> add;
    std::string text;
};

enum class Wanted { carbohydrate, drink, sodium };

/// What stays short of its aim on one leg, and what would help.
struct Unmet {
    Wanted what = Wanted::carbohydrate;
    LegKind leg = LegKind::bike;
    std::string need; // both in words: "carbohydrate on the bike"
    std::string rule;
    double cost_g_per_h = 0; // of drink: ml, taken as grams
    std::string lift;
    const char* unit = "g/h"; // of what is missing and of `lift_gives`
    double lift_gives = 0;    // how much more, solved again; 0: nothing was found that helps
};

/// A wish that is not in the plan. `danger`: it would have harmed, as an allergen does.
struct KeptOut {
    std::string said; // as it was asked for
    std::string why;
    bool danger = false;
};

/// A rule that feeds break, with its numbers.
struct Breach {
    std::string rule;   // "carb_hour"
    int leg_index = -1; // -1: of the day as a whole
    Seconds at_s = 0;   // from the start of its leg, on the likely day
    double value = 0, allowed = 0;
    std::string unit;    // of both; empty where nothing is counted
    std::string text;    // a sentence without its full stop
    bool danger = false; // not safe to eat or drink that much
};

struct Schedule {
    std::vector<PlanFeed> feeds; // in time order
    std::vector<Line> lines;     // their expansion, merged by moment, is exactly the feeds
    std::vector<Unmet> unmet;
    std::vector<CarryItem> carry;
    std::vector<Mix> mix;
    bool bike_stations = false; // something is handed up on the bike
    std::vector<BagStop> special_needs;
    std::string refill_note;
    std::vector<Warning> warnings;
    std::vector<std::string> assumptions;
    bool own = false;              // the athlete's own lines, as they stand
    std::vector<Breach> broken;    // rules that those break
    std::vector<KeptOut> kept_out; // pinned feeds that a rule forbids, and which
    std::vector<Reason> because;   // of the schedule as a whole
    std::string lp;                // where asked for, and where anything is scheduled
};

/// The lines, of all that obey every hard rule on a fast, a likely and a slow day, that follow the need best
/// and are easiest to keep: the optimum of the program in src/schedule/program.hpp, proven, or with the gap
/// named in `because`. Pure; the search stops after a fixed amount of work, not of time. `with_lp` adds the
/// program and what was found in the CPLEX LP format, for other solvers to check.
Schedule make_schedule(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                       const Need& need, const Pantry& pantry, bool with_lp = false);

/// For an answer at once, while a slider moves: the same lines, but `unmet` is empty. What would help is
/// found by solving many times more.
Schedule quick_schedule(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                        const Need& need, const Pantry& pantry);

namespace schedule {

/// Stations of a leg: as given, or typical ones if asked for.
std::vector<Station> stations_of(const Event& event, const Effort& effort, std::size_t leg);

} // namespace schedule

} // namespace tuck
