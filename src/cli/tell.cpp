#include "cli/tell.hpp"

#include <cstdio>
#include <fmt/format.h>

namespace tuck::cli {

void tell_notes(const std::vector<std::string>& notes) {
    for (const auto& note : notes)
        fmt::print(stderr, "tuck: {}\n", note);
}

void tell_warnings(const std::vector<Warning>& warnings) {
    for (const auto& warning : warnings)
        fmt::print(stderr, "tuck: {}: {}\n", warning.code, warning.text);
}

} // namespace tuck::cli
