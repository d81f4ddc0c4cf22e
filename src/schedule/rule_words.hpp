// How the hard rules are said.
#pragma once

#include "schedule/timeline.hpp"

namespace tuck::schedule {

struct RuleWords {
    const char* rule;
    const char* lift; // what would allow more
};
RuleWords words_of(Rule rule);

} // namespace tuck::schedule
