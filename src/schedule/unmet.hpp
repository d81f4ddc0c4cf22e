// What a plan leaves open, what binds there, and what would help: each found by lifting it and solving again.
#pragma once

#include "schedule/budget.hpp"
#include "schedule/lines.hpp"

#include <vector>

namespace tuck::schedule {

/// Shortfalls of carbohydrate, drink and sodium by 15 % of the aim or more, on the legs that feed. Nothing is
/// named as binding or as a help that would not bring a twentieth of the aim.
std::vector<Unmet> find_unmet(const Setting& setting, const Program& program,
                              const std::vector<Decided>& legs, WorkBudget& budget);

} // namespace tuck::schedule
