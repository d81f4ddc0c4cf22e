// Numbers out of text, with a point whatever the locale. By a library: not every compiler's own reads
// doubles.
#pragma once

#include <fast_float/fast_float.h>

namespace tuck {

/// As std::from_chars for doubles.
using fast_float::from_chars;

} // namespace tuck
