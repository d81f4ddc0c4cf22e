// The sentences of a plan in another language. The plan's own are English; a table beside them says each
// again.
#pragma once

#include "say/words.hpp"
#include "tuck/error.hpp"

#include <string>

namespace tuck::say {

struct Told {
    std::string text;
    Language language; // English where the table does not know the sentence
};

/// What stands between numbers and names is looked up; those stay as they are, except for "a to b" and "a and
/// b".
Told told(const std::string& sentence, Language language);

/// Several parted by "; ", as lists of risks are; known only where each of them is.
Told told_each(const std::string& sentences, Language language);

/// What is wrong, and what is allowed or was meant: words_of the fault.
Told told_fault(const Fault& fault, Language language);

} // namespace tuck::say
