// What the simulated days say, in words.
#pragma once

#include "tuck/event.hpp"
#include "tuck/outlook.hpp"

#include <string>
#include <vector>

namespace tuck::outlook {

/// One sentence on what the day probably holds. `hidden`: no mass and no percentage of it.
std::string sentence_of(const PlanOutlook& outlook, bool hidden);

/// What the simulated athlete does that the plan does not say.
std::vector<std::string> assumptions_of(const Event& event);

} // namespace tuck::outlook
