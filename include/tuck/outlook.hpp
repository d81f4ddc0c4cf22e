// Outlook: simulated race days of a finished schedule.
#pragma once

#include "tuck/figures.hpp"
#include "tuck/need.hpp"
#include "tuck/quantity.hpp"
#include "tuck/schedule.hpp"

#include <string>
#include <vector>

namespace tuck {

struct Percentiles {
    double p05 = 0, p50 = 0, p95 = 0;
};

/// What the simulated days look like at one moment; times run on the clock of the median day.
struct OutlookBand {
    Seconds at_s = 0;
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
    Seconds at_s = 0;
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
    Millilitres drunk_ml_p50 = 0;       // planned or not
    std::string sentence;               // what the day probably holds
    std::vector<std::string> assumptions;
};

/// `event.days` days drawn from `event.seed`, each in steps of a minute of the median day through the whole
/// race: weather, pace of every leg, sweat, sweat sodium, fuel, stores, hydration, gut, missed and late
/// feeds.
///
/// Two sets of the same days. As lived: drinking to thirst around the plan; of these are the percentiles, the
/// bands, water loss, glycogen. The plan drunk whole, on time and nothing else: of these are the gains and
/// `low_sodium_by_drinking` and the full stomach, for they judge the plan; gains do not count urine, which is
/// their margin. `low_sodium` counts a day on which either happened. Same input, same bytes on every
/// processor. days 0: an empty outlook.
PlanOutlook look_ahead(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                       const Schedule& schedule);

/// Limits on the chances of the outlook, in one table. All are our choice, no source.
struct OutlookLimit {
    const char* code;
    const char* what;
    double caution, refuse; // chance, 0..1; above 1: never
    const char* because;
};
inline constexpr double never = 2;
inline constexpr OutlookLimit much_gain_limit{
    "water_gain_over_1pct", "body water at the finish more than 1 % of body mass above the start",
    figure("limit.much_gain_caution"), figure("limit.much_gain_refuse"),
    "whoever drinks more than is lost is at risk of low blood sodium (Almond 2005, Noakes 2005)"};
inline constexpr OutlookLimit low_sodium_limit{
    "low_sodium_by_drinking", "serum sodium below 135 mmol/L from planned drinking",
    figure("limit.low_sodium_caution"), figure("limit.low_sodium_refuse"),
    "the plan itself must not bring hyponatraemia (threshold: EAH consensus 2015)"};
inline constexpr OutlookLimit salty_limit{"low_sodium", "serum sodium below 135 mmol/L, whatever the cause",
                                          figure("limit.low_sodium_caution"), never,
                                          "salty sweat dilutes too; the day's doing: warned"};
inline constexpr OutlookLimit stomach_limit{"stomach_full", "stomach overfull",
                                            figure("limit.stomach_caution"), never,
                                            "smaller doses; no harm beyond discomfort"};
inline constexpr OutlookLimit water_loss_limit{
    "water_loss_over_4pct", "body water more than 4 % of body mass down", figure("limit.water_loss_caution"),
    never, "heat and effort, not the plan: warned"};
inline constexpr OutlookLimit glycogen_limit{"glycogen_gone", "glycogen gone before the finish",
                                             figure("limit.glycogen_caution"), never,
                                             "the estimate is wide: warned"};
inline constexpr OutlookLimit water_gain_limit{"water_gain", "body water at the finish above the start",
                                               never, never, "shown; a little more water is no harm"};
inline constexpr OutlookLimit mass_gain_limit{"mass_gain", "body mass at the finish above the start", never,
                                              never, "shown; the limit reads body water"};
inline constexpr OutlookLimit small_loss_limit{"water_loss_over_2pct",
                                               "body water more than 2 % of body mass down", never, never,
                                               "shown; a guideline, not a limit (Beis 2012)"};

} // namespace tuck
