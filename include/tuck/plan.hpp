// The plan: everything a face needs. Faces read it and compute nothing.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/event.hpp"
#include "tuck/food.hpp"
#include "tuck/reason.hpp"
#include "tuck/schedule.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck {

/// 10th, 50th and 90th percentile, in seconds.
struct Spread {
    double p10_s = 0, p50_s = 0, p90_s = 0;
};

struct PlanDuration {
    int leg_index = 0;
    LegKind leg = LegKind::bike;
    Spread time;
    double distance_m = 0;
    double starts_s = 0; // after the start of the day, at the median
};

/// Sums since the start at one moment of the median day. A feed is a step: two points at one moment.
struct DayPoint {
    double at_s = 0;
    double carb_g = 0, carb_need_g = 0;      // eaten and drunk; what the need asks by then
    double fluid_ml = 0, fluid_up_to_ml = 0; // drunk; the ceiling by then
    double sweat_ml = 0;                     // median prediction
};

/// What to take per hour of one leg. Fluid is a ceiling ('up to'), never a target.
struct PlanNeed {
    int leg_index = 0;
    LegKind leg = LegKind::bike;
    double carb_g_per_h = 0;
    double fluid_ml_per_h = 0;
    double sodium_mg_per_h = 0;
    double sweat_ml_per_h = 0; // median prediction
    std::vector<Reason> because;
};

struct PlanTotals {
    double carb_g = 0, fluid_ml = 0, sodium_mg = 0, caffeine_mg = 0, sweat_ml = 0;
};

/// What must be in the house of one food, over all bags and bottles.
struct ShoppingItem {
    std::string food; // id
    double amount = 0;
    std::string unit; // "g" of what is weighed, else that of the pieces: "gel"
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
};

struct Percentiles {
    double p05 = 0, p50 = 0, p95 = 0;
};

/// What the simulated days look like at one moment; times run on the clock of the median day.
struct OutlookBand {
    double at_s = 0;
    Percentiles mass_change_pct, glycogen_g, gut_fluid_ml; // gut: stomach and intestine
};

/// One row of the table of limits: how often something happened, and from where it is a caution or refused.
struct OutlookChance {
    std::string code; // "water_gain", as in the plan's JSON
    std::string what;
    double chance = 0, error = 0;   // 0..1; one standard error of the simulation
    double caution = 0, refuse = 0; // 0..1; above 1: never
    std::string because;
    bool of_mass = false; // speaks of a percentage of body mass
};

/// The moment at which most of a limit was used up, as the median of the days.
struct OutlookWorst {
    double at_s = 0;
    std::string clock; // local time, where the start is known
    std::string cause; // "water lost", "a full stomach", "low blood sodium", "empty stores"
    double share = 0;  // of the days on which this was the cause
};

/// How much of the spread of a result one input explains, 0..1 (see outlook/drivers.hpp).
struct OutlookDriver {
    std::string input;
    double share = 0; // mean of the three
    double of_mass = 0, of_sodium = 0, of_glycogen = 0;
};

struct PlanOutlook {
    int days = 0;
    Percentiles mass_change_pct, water_change_pct, serum_sodium_mmol_per_l, glycogen_left_g;
    Percentiles mass_error_pct, water_error_pct, serum_error_mmol_per_l, glycogen_error_g; // Monte Carlo
    double mass_gain = 0, water_gain = 0, water_gain_over_1pct = 0; // percentages: of body mass
    double water_loss_over_2pct = 0, water_loss_over_4pct = 0;
    double low_sodium = 0, glycogen_gone = 0, stomach_full = 0;
    double low_sodium_by_drinking = 0;  // on days that also gain water
    std::vector<OutlookChance> chances; // all of the above, with error and limits
    std::vector<OutlookBand> bands;     // every 5 min and at the finish
    OutlookWorst worst;
    std::vector<OutlookDriver> drivers; // largest first
    double drunk_ml_p50 = 0;            // planned or not
    std::string sentence;               // what the day probably holds
    std::vector<std::string> assumptions;
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
    bool mass_hidden = false; // no mass and no percentages on any face

    // The answer.
    bool refused = false; // the plan itself would harm: exit code 1
    bool fuelling_needed = false;
    std::vector<Reason> fuelling_because;
    std::vector<std::string> still_matters; // when no fuelling is needed
    std::vector<PlanDuration> durations;
    Spread total;
    std::vector<PlanNeed> needs;
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
