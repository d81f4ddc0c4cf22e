// The plan as JSON: the contract "tuck.plan/1".
#pragma once

#include "tuck/plan.hpp"

#include <string>

namespace tuck::faces {

/// One JSON document, two spaces of indent, ending in a newline. Numbers are rounded once, here: seconds, ml
/// and mg to whole or one decimal, chances to four.
std::string plan_json(const Plan& plan);
/// The same document on one line.
std::string plan_json_line(const Plan& plan);

} // namespace tuck::faces
