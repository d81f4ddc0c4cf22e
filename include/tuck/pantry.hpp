// The pantry for users of the library.
#pragma once

#include "tuck/food.hpp"

#include <string>

namespace tuck {

/// Reads and checks every *.json of a folder of foods (the installed ones: share/tuck/foods). Throws
/// std::runtime_error, one line per fault: file, place, what is wrong, what is allowed.
Pantry load_pantry(const std::string& folder);

} // namespace tuck
