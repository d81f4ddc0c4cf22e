// The paper of a rehearsal: its card, and a log sheet of one page that can be filled from memory.
#pragma once

#include "paper/pdf.hpp"
#include "tuck/plan.hpp"
#include "tuck/rehearsal.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// PDF, A4: the pages of the card as they are, then the log: a box for every moment of a line, every bottle
/// before and after, a scale from 0 to 10 for every mark. `command`: puts it into a diary. Same input, same
/// bytes.
std::string rehearsal_pdf(const Rehearsal& rehearsal, const Plan& plan, const std::string& title,
                          const std::string& command, std::vector<pdf::Page> card);

} // namespace tuck::faces
