// The rules of safety and the sums of one plan, written from the rules themselves: it shares no code and no
// table with the stages.
#pragma once

#include "tuck/ask.hpp"

#include <string>
#include <vector>

namespace tuck::properties {

/// Every rule that the plan breaks, "rule: numbers"; empty: it holds.
std::vector<std::string> judge(const Asked& asked, const Plan& plan);

} // namespace tuck::properties
