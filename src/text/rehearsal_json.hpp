// A rehearsal as JSON: the contract "tuck.rehearsal/1".
#pragma once

#include "tuck/plan.hpp"
#include "tuck/rehearsal.hpp"

#include <string>

namespace tuck::faces {

/// One JSON document, ending in a newline: what is asked, what the plan gives, the plan itself, and the
/// series where there is one. `tuck diary add rehearsal` reads it back.
std::string rehearsal_json(const Rehearsal& rehearsal, const Plan& plan, const RehearsalSeries* series);

} // namespace tuck::faces
