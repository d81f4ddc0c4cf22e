// The plan as text for people, at most 80 columns.
#pragma once

#include "tuck/plan.hpp"

#include <string>

namespace tuck::faces {

std::string plan_text(const Plan& plan);

/// The chain behind the numbers whose JSON pointer or plain words ("bike fluid") match `number`; everything
/// when it is empty. Empty result: nothing matches.
std::string explain_text(const Plan& plan, const std::string& number);
/// The same as JSON, "tuck.explain/1": those asked for, then what they come from.
std::string explain_json(const Plan& plan, const std::string& number);
/// The names that `explain_text` knows, one a line.
std::vector<std::string> explained_numbers(const Plan& plan);

} // namespace tuck::faces
