// One step aside in one input: what must only grow does, and nothing leaps without a rule that has a name.
#pragma once

#include "properties/draw.hpp"
#include "tuck/ask.hpp"

#include <string>
#include <vector>

namespace tuck::properties {

struct Steps {
    int monotone = 0, near = 0; // looked at
    std::vector<std::string> faults;
};

/// Effort, body and need of the case against those of one neighbour drawn for each of the two questions.
Steps step_aside(const Asked& asked, Draw& draw);

} // namespace tuck::properties
