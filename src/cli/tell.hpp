// What goes to standard error beside the answer.
#pragma once

#include "tuck/reason.hpp"

#include <vector>

namespace tuck::cli {

/// One line each: "tuck: code: text".
void tell_warnings(const std::vector<Warning>& warnings);

} // namespace tuck::cli
