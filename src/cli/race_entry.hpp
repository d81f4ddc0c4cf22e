// `tuck diary add race`: the race as it was, against its plan.
#pragma once

#include "cli/command.hpp"

namespace tuck::cli {

Command race_entry_command();

} // namespace tuck::cli
