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

/// Air on a warmer or colder day: the same vapour, so that relative humidity falls as it warms; at most 100
/// %.
Air warmer_air(Air air, double by_c);

/// Fills the slope columns of `minutes`: secants of the heat balance over +-2.5 C (vapour kept), +-10 %
/// relative humidity and
/// +-5 % of pace, so that they hold over the spread of a day rather than at its middle alone.
void add_slopes(const Athlete& athlete, const Event& event, const Effort& effort,
                const std::vector<LegDrive>& drives, BodyMinutes& minutes);

} // namespace tuck::body
