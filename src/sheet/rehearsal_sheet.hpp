// The paper of a rehearsal: its card, and a log sheet with boxes to tick.
#pragma once

#include "tuck/rehearsal.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// PDF, A4: the card true to size, then the log. Same input, same bytes. Throws as card_layout does.
std::string rehearsal_pdf(const Plan& plan, const std::vector<LogRow>& rows);

} // namespace tuck::faces
