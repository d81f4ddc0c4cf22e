// The options of every command that makes a plan.
#pragma once

#include "cli/command.hpp"
#include "cli/request.hpp"

namespace tuck::cli {

/// EVENT.json, the files, and the options of athlete, event and another plan.
OptionTable request_options(Request& request);

} // namespace tuck::cli
