// The paper of a rehearsal: its card, and a log sheet with boxes to tick.
#pragma once

#include "paper/pdf.hpp"
#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// PDF, A4: the pages of the card as they are, then the log with a row for each feed. Same input, same bytes.
std::string rehearsal_pdf(const Plan& plan, const std::string& title, std::vector<pdf::Page> card);

} // namespace tuck::faces
