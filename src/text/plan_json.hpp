// The plan as JSON: the contract "tuck.plan/1".
#pragma once

#include "tuck/plan.hpp"

#include <string>

namespace tuck::faces {

/// `text`: two spaces of indent. `line`: all on one line.
enum class JsonForm { text, line };

/// One JSON document, ending in a newline. Numbers are rounded once, here: seconds, ml and mg to whole or one
/// decimal, chances to four.
std::string plan_json(const Plan& plan, JsonForm form = JsonForm::text);

} // namespace tuck::faces
