// The plan: everything a face needs. Faces read it and compute nothing.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/effort.hpp"
#include "tuck/event.hpp"
#include "tuck/need.hpp"
#include "tuck/outlook.hpp"
#include "tuck/quantity.hpp"
#include "tuck/reason.hpp"
#include "tuck/schedule.hpp"
#include "tuck/spread.hpp"
#include "tuck/trace.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck {

/// Sums since the start at one moment of the median day. A feed is a step: two points at one moment.
struct DayPoint {
    Seconds at_s = 0;
    Grams carb_g = 0, carb_need_g = 0;            // eaten and drunk; what the need asks by then
    Millilitres fluid_ml = 0, fluid_up_to_ml = 0; // drunk; the ceiling by then
    Millilitres sweat_ml = 0;                     // median prediction
};

struct PlanTotals {
    Grams carb_g = 0;
    Millilitres fluid_ml = 0;
    Milligrams sodium_mg = 0, caffeine_mg = 0;
    Millilitres sweat_ml = 0;
};

/// What must be in the house of one food, over all bags and bottles.
struct ShoppingItem {
    std::string food; // id
    double amount = 0;
    std::string unit; // "g" of what is weighed, else that of the pieces: "gel"
    std::string name; // "Energy gel", "iso drink"
    std::string text; // "6 x Energy gel", "192 g iso drink, to mix"
};

/// Something to do before or after; `clock` is local time when the start is known.
struct Moment {
    std::string when;
    std::string clock;
    std::string text;
    std::string source;
};

struct IfThen {
    std::string when;
    std::string text;
    bool of_the_bike = false; // says nothing to a runner
    std::string brief = {};   // for a card with little room; empty: the text
};

/// What the plan stands on, under its key in the athlete's or the event's file: a number, or a word.
struct PlanInput {
    std::string key;
    std::optional<double> number;
    std::string word;
};

struct Plan {
    // What it is for.
    std::string event_name, athlete_name, bib, wave, date, start_clock;
    bool race = true;
    std::string version; // short fingerprint of the inputs and the plan, printed on the card
    std::vector<PlanInput> inputs;
    Weather weather;
    Units units = Units::metric; // of what people read; the numbers here are metric
    bool mass_hidden = false;    // no mass and no percentages on any face

    // The answer.
    bool refused = false; // the plan itself would harm: exit code 1
    bool fuelling_needed = false;
    std::vector<Reason> fuelling_because;
    std::vector<std::string> still_matters; // when no fuelling is needed
    std::vector<LegEffort> durations;       // as the effort stage left them
    Spread total;
    std::vector<LegNeed> needs; // as the need stage left them; drink is a ceiling, never a target
    std::vector<PlanFeed> feeds;
    std::vector<Line> lines;
    PlanTotals totals;
    std::vector<DayPoint> day_sums; // in order of time, with every start and end of a leg
    std::vector<CarryItem> carry;
    std::vector<Mix> mix;
    std::vector<ShoppingItem> shopping; // sums over `carry` and `mix`
    std::vector<BagStop> special_needs;
    std::vector<Moment> before, after;
    PlanOutlook outlook;
    std::vector<IfThen> if_then;
    bool own = false;                 // the athlete's own lines, as they stand
    std::vector<Breach> broken_rules; // that those break, dangers first
    std::vector<Unmet> unmet;
    std::vector<std::string> assumptions;
    std::vector<Warning> warnings;
    std::vector<std::string> cautions;

    // For the card.
    std::string clock_note;  // "bike clock from the mount line, auto-pause off"
    std::string refill_note; // refill and last station
    std::string stop_line;

    std::vector<Trace> traces;
};

} // namespace tuck
