// Edits as they are typed, laid on what is known.
#pragma once

#include "tuck/ask.hpp"

namespace tuck::ask {

/// Throws Error that names the option.
void apply(const Edits& edits, Asked& asked);

} // namespace tuck::ask
