// The files that documents name, handed over by a caller that has no disk.
#pragma once

#include "tuck/course.hpp"

#include <map>
#include <string>

namespace tuck {

/// By the name that the documents write. What is not here counts as missing: nothing is looked for elsewhere.
struct NamedFiles {
    std::map<std::string, std::string> athletes; // JSON, UTF-8
    std::map<std::string, Track> courses;        // as read from GPX
};

} // namespace tuck
