// `tuck diary add race`: planned against happened.
#pragma once

#include "cli/command.hpp"

namespace tuck::cli {

void add_race_entry(CLI::App& add, Action& action);

} // namespace tuck::cli
