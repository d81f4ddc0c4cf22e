// The three days on which a finished schedule is judged.
#pragma once

#include "schedule/judge.hpp"

namespace tuck::schedule {

/// All legs fast, likely, or slow together.
enum class Which { p10, p50, p90 };
const char* to_string(Which which);

/// One item of a feed and what it brings: foods by the pantry, a drink by what the feed holds beside them.
struct Bite {
    FeedItem item;
    const Food* food = nullptr; // nullptr: not in the pantry
    bool drink = false;
    double carb_g = 0, glucose_g = 0, fructose_g = 0, fluid_ml = 0, sodium_mg = 0, caffeine_mg = 0;
};

/// One feed on the clock of the whole race.
struct Sitting {
    double clock_s = 0; // from the start of the race
    int leg_index = 0;
    LegKind leg = LegKind::bike;
    double at_s = 0; // on this day, from the start of its leg
    double km = 0;
    std::vector<Bite> bites;
    double sum(double Bite::*what) const;
};

struct JudgedDay {
    Which which = Which::p50;
    std::vector<double> starts_s, lengths_s; // by leg
    std::vector<Sitting> sittings;           // in time order
};

/// Bike feeds hold their clock, those that are tied to a place and all others their share of the leg. A bike
/// feed that the day has no time for is left out; on the slow day the lines that go on do so.
JudgedDay day_of(const Case& asked, Which which);

bool is_drink(const FeedItem& item);
bool is_solid(const Bite& bite); // must be chewed
/// A drink above 8 % carbohydrate (Murray 1999): it serves no gel as water.
bool is_strong(const Case& asked, const Bite& bite);
/// ml in one swallow or cup.
double sip_ml(const Case& asked, const FeedItem& item);

} // namespace tuck::schedule
