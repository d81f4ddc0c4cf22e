// Reasons and warnings: why a number is what it is, kept as data while deciding.
#pragma once

#include <string>
#include <vector>

namespace tuck {

/// One step of an argument: what was done, in words, and who says so (author and year, or
/// "common practice, no source", or "the athlete's own input").
struct Reason {
    std::string text;
    std::string source;
};

enum class Severity { note, caution, danger };
const char* to_string(Severity severity);

/// Something the athlete must be told. `code` is stable and meant for programs.
struct Warning {
    std::string code;
    Severity severity = Severity::note;
    std::string text;
};

} // namespace tuck
