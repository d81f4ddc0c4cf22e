// What goes to standard error beside the answer.
#pragma once

#include "tuck/reason.hpp"

#include <string>
#include <vector>

namespace tuck::cli {

/// What --quiet sets: notes and warnings are not told. Faults are.
bool& quiet();

/// One line each: "tuck: note".
void tell_notes(const std::vector<std::string>& notes);

/// One line each: "tuck: code: text".
void tell_warnings(const std::vector<Warning>& warnings);

} // namespace tuck::cli
