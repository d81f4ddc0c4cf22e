// The commands: each parses, calls the library once, prints. No arithmetic here.
#pragma once

#include <functional>

namespace CLI {
class App;
}

namespace tuck::cli {

/// What the chosen command does once the command line has been read; returns the exit code
/// (0 done, 1 a plan that is refused, 2 bad use or bad input). io::InputError may be thrown: main prints it.
using Action = std::function<int()>;

void add_plan(CLI::App& app, Action& action);
void add_card(CLI::App& app, Action& action);
void add_squad(CLI::App& app, Action& action);
void add_explain(CLI::App& app, Action& action);
void add_course(CLI::App& app, Action& action);
void add_foods(CLI::App& app, Action& action);
void add_model(CLI::App& app, Action& action);
void add_sweat_test(CLI::App& app, Action& action);
void add_diary(CLI::App& app, Action& action);
void add_rehearse(CLI::App& app, Action& action);

} // namespace tuck::cli
