// Outlook: simulated race days of a finished schedule.
#pragma once

#include "tuck/figures.hpp"
#include "tuck/need.hpp"
#include "tuck/plan.hpp"
#include "tuck/schedule.hpp"

namespace tuck {

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
