// What goes to standard error beside the answer.
#pragma once

#include "tuck/reason.hpp"

#include <string>
#include <vector>

namespace tuck::cli {

/// One line each: "tuck: note".
void tell_notes(const std::vector<std::string>& notes);

/// One line each: "tuck: code: text".
void tell_warnings(const std::vector<Warning>& warnings);

} // namespace tuck::cli
