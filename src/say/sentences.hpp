// The sentences of a plan in another language. The plan's own are English; a table beside them says each
// again.
#pragma once

#include "say/words.hpp"

#include <string>

namespace tuck::say {

struct Told {
    std::string text;
    Language language; // English where the table does not know the sentence
};

/// What stands between numbers and names is looked up; those stay as they are, except for "a to b" and "a and
/// b".
Told told(const std::string& sentence, Language language);

} // namespace tuck::say
