// Feeds that the athlete wants whatever the plan would choose.
#pragma once

#include "schedule/budget.hpp"
#include "schedule/frames.hpp"
#include "tuck/schedule.hpp"

#include <vector>

#include <vector>

namespace tuck::schedule {

/// Fixes every pin that no rule forbids. The others are kept out, each with the rule that forbids it.
std::vector<KeptOut> fix_pins(const Setting& setting, const std::vector<Pin>& pins, Program& program,
                              WorkBudget& budget);

} // namespace tuck::schedule
