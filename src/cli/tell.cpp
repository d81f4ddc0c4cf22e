#include "cli/tell.hpp"

#include <cstdio>
#include <fmt/format.h>

namespace tuck::cli {

void tell_warnings(const std::vector<Warning>& warnings) {
    for (const auto& warning : warnings)
        fmt::print(stderr, "tuck: {}: {}\n", warning.code, warning.text);
}

} // namespace tuck::cli
