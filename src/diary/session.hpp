// The model's view of a session that was weighed: the energy it took and the sweat it should have cost.
#pragma once

#include "tuck/diary.hpp"

namespace tuck::diary {

struct SessionModel {
    double energy_kcal = 0;
    double sweat_ml_per_h = 0; // model's mean
    std::vector<Reason> because;
    std::vector<std::string> assumptions;
};

/// Runs the effort and body stages over one leg of the test's length, power or distance. Indoors the air is
/// still, or moved by a fan, whatever the speed. Pure.
SessionModel model_session(const Athlete& athlete, const SweatTest& test);

/// Effort of that session, for other weather.
struct SessionEffort {
    Event event;
    Effort effort;
};
SessionEffort effort_of_session(const Athlete& athlete, const SweatTest& test);

/// Sweat and ceiling of a session like `test` that goes on for four hours, for an athlete of whom this is
/// known.
SweatOutlook four_hours_of(const Athlete& athlete, const SweatTest& test);

/// The model's mean of a whole race as it was, transitions left out. Zero where no leg has its time.
SessionModel model_race(const Athlete& athlete, const RaceRecord& race);

} // namespace tuck::diary
