// The card as plain text, for screen readers and for a screen.
#pragma once

#include "tuck/plan.hpp"

#include <string>

namespace tuck::faces {

/// What the paper card says, in the same order and in full; lines of at most 60 columns. Throws as
/// card_content does.
std::string card_text(const Plan& plan);

} // namespace tuck::faces
