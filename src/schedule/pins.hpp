// Feeds that the athlete wants whatever the plan would choose.
#pragma once

#include "schedule/frames.hpp"

#include <string>
#include <vector>

namespace tuck::schedule {

/// Fixes every pin that no rule forbids. The others are refused, each in a sentence that names the rule.
std::vector<std::string> fix_pins(const Setting& setting, Program& program);

} // namespace tuck::schedule
