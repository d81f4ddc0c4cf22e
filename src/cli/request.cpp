#include "cli/request.hpp"

#include "cli/plan_options.hpp"
#include "io/pantry.hpp"
#include "tuck/compose.hpp"

#include <CLI/CLI.hpp>

namespace tuck::cli {

void add_request(CLI::App& command, Request& request) {
    command.add_option("event", request.event_file, "event file (JSON)")->type_name("EVENT.json");
    command.add_option("--foods", request.foods, "folder of the pantry");
    command.add_option("--own-foods", request.own_foods, "file of your own foods (see tuck foods add)");
    add_plan_options(command, request.options);
}

Plan plan_of(const Request& request) {
    const auto file =
        request.event_file.empty() ? std::nullopt : std::optional<std::string>(request.event_file);
    const auto input = io::plan_input(file, request.options);
    auto pantry = io::load_pantry(io::pantry_folder(request.foods));
    for (const auto& path : request.own_foods)
        io::add_foods(pantry, path);
    io::check_foods(input, pantry);
    return compose_plan(input.athlete, input.event, pantry);
}

} // namespace tuck::cli
