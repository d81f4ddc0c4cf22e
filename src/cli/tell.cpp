#include "cli/tell.hpp"

#include "base/utf8.hpp"

#include <cstdio>
#include <fmt/format.h>

namespace tuck::cli {

bool& quiet() {
    static bool asked = false;
    return asked;
}

void tell_notes(const std::vector<std::string>& notes) {
    if (quiet())
        return;
    for (const auto& note : notes)
        fmt::print(stderr, "tuck: {}\n", told_line(note));
}

void tell_warnings(const std::vector<Warning>& warnings) {
    if (quiet())
        return;
    for (const auto& warning : warnings)
        fmt::print(stderr, "tuck: {}: {}\n", warning.code, told_line(warning.text));
}

} // namespace tuck::cli
