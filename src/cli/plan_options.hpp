// The options that describe an athlete and an event in one line.
#pragma once

#include "io/options.hpp"

namespace CLI {
class App;
}

namespace tuck::cli {

void add_plan_options(CLI::App& app, io::PlanOptions& options);

} // namespace tuck::cli
