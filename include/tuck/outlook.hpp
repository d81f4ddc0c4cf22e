// Outlook: simulated race days of a finished schedule.
#pragma once

#include "tuck/need.hpp"
#include "tuck/plan.hpp"
#include "tuck/schedule.hpp"

namespace tuck {

/// `event.days` days drawn from `event.seed`: duration, sweat, sweat sodium, carbohydrate share, starting
/// glycogen, missed feeds and gut limits from their published spreads. Whole-leg sums, no minutes yet.
/// Same input, same output. days 0: an empty outlook.
PlanOutlook look_ahead(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                       const Schedule& schedule);

/// Limits on the chances of the outlook (our choice, no source), in one table.
struct OutlookLimit {
    const char* what;
    double caution, refuse; // chance, 0..1; refuse above 1: never
};
inline constexpr OutlookLimit water_gain_limit{"body water at the finish above the start", 0.05, 0.20};
inline constexpr OutlookLimit low_sodium_limit{"serum sodium below 135 mmol/L from planned drinking", 0.05,
                                               0.10};
inline constexpr OutlookLimit stomach_limit{"stomach overfull", 0.10, 2.0};
inline constexpr OutlookLimit water_loss_limit{"body water more than 4 % of body mass down", 0.10, 2.0};
inline constexpr OutlookLimit glycogen_limit{"glycogen gone before the finish", 0.25, 2.0};

} // namespace tuck
