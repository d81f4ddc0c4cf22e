// What drives each leg: power, fuel, and how this athlete sweats against the average one.
#pragma once

#include "body/race.hpp"

#include <optional>
#include <vector>

namespace tuck::body {

/// How far the true rate may lie from the predicted median, as SD of its logarithm; wider in heat, and for a
/// test that is carried to other weather.
double sweat_log_sd(const Athlete& athlete, const Event& event);

/// What a sun that was not given leaves open, as SD of the logarithm of the day's sweat: its share of a clear
/// sky even between 0 and 1. 0 where it was given.
double sun_log_sd(const Event& event, const Effort& effort, const std::vector<LegDrive>& drives);

/// Own rate per modelled mean rate, 1 without a test.
struct SweatFactor {
    double factor = 1;
    std::optional<LegKind> tested; // the kind of leg that the test stands for
    double more_log_sd = 0;        // beyond the spread of the day
    std::vector<Reason> because;
    std::optional<double> on_run; // a factor of its own there, where tests tell one
    double on_run_more_log_sd = 0;
    std::vector<Reason> on_run_because;
};
SweatFactor sweat_factor(const Athlete& athlete, const Event& event, const Effort& effort);

/// The factor for a leg of another kind than the tested one: half of it (on the log scale) is the person and
/// is carried over, half may be the sport or the model's error there (our choice).
SweatFactor factor_on(const SweatFactor& own, LegKind kind);

/// The share of energy from carbohydrate is that of the intensity through the leg: at 57 % of VO2max the
/// curve gives 45 %, what Watt 2002 measured from 150 to 240 min (65 % at 30 min), so a drift with time would
/// count twice. What the stores still give of it: glycogen_given.
LegDrive leg_drive(const Athlete& athlete, const Event& event, const LegEffort& leg);

} // namespace tuck::body
