// How the sweat and the fuel of each minute change with the day: warmer, more humid, faster.
#pragma once

#include "body/race.hpp"
#include "tuck/athlete.hpp"

namespace tuck::body {

/// The leg at another pace, as the logarithm of speed over planned speed. A rider who is faster than planned
/// owes half of it to more power and half to the road, the wind and the position (our choice); power goes
/// with speed^2.4 on a road (Martin 1998, some 35 km/h). The share of VO2max stays: who turns out slower is
/// less fit, not lazier.
LegEffort at_pace(LegEffort leg, double log_pace);

/// Fills the slope columns of `minutes`: secants of the heat balance over +-3 C, +-10 % relative humidity and
/// +-5 % of pace, so that they hold over the spread of a day rather than at its middle alone.
void add_slopes(const Athlete& athlete, const Event& event, const Effort& effort,
                const std::vector<LegDrive>& drives, BodyMinutes& minutes);

} // namespace tuck::body
