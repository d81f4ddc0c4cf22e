// The lines of the race's plan on a shorter session: the same foods, bottles, rhythm and grams per hour.
#pragma once

#include "tuck/event.hpp"
#include "tuck/plan.hpp"

#include <vector>

namespace tuck::diary {

/// How a line is called that comes later in the race than the session lasts: the first food of the run.
inline constexpr char brought_forward[] = "brought forward from later in the race";

/// Length of the parts of a session; 0: that part does not take place.
struct SessionParts {
    double ride_s = 0, run_s = 0;
    double run_km = 0; // of road in that time
};

/// What stands in the session's event for the plan of the race.
struct SessionLines {
    std::vector<OwnLine> lines;
    std::vector<OwnBottle> bottles;
    std::vector<double> bike_bottles_ml;
    int bottles_more = 0; // of these, laid out on the way: the race hands up what they hold
};

/// The session is the first and the last part of the race's ride, without the middle, and the beginning of
/// its run. Moments keep their beat; a food of the race that would fall into what is left out comes nearby,
/// so that all of them are rehearsed. What stations hand up on the bike comes from bottles laid out on the
/// way. `drink_share`: of the race's swallows, where the day of the session allows less. `stations_of_run`:
/// whether the session's run has the race's stations. Pure.
SessionLines session_lines(const Plan& race, const SessionParts& parts, double drink_share);

} // namespace tuck::diary
