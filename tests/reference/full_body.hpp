// Simulated days whose weather and pace go through the whole body stage, instead of along its slopes.
#pragma once

#include "reference/outlook_reference.hpp"
#include "tuck/body.hpp"
#include "tuck/schedule.hpp"

namespace tuck::reference {

struct Race {
    Athlete athlete;
    Event event; // humidity and water temperature given, so that a warmer day moves the air alone
    Effort effort;
    Body body;
    Schedule schedule;
};

/// The day with the same draws, its body described for its own weather and pace.
Day full_body_day(const Race& race, const outlook::RaceGrid& grid, std::uint32_t day);

} // namespace tuck::reference
