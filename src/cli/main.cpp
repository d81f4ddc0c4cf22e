// tuck: fuel and drink for swim, bike and run. Arguments, streams and exit codes only.
#include "cli/command.hpp"
#include "io/fault.hpp"

#include <fmt/format.h>

namespace {

constexpr int bad_input = 2;

int run(int argc, char** argv) {
    using namespace tuck::cli;
    const Command program{
        .name = "tuck",
        .help = "Fuel and drink for swim, bike and run: a plan, and a card for the top tube.\n"
                "Exit codes: 0 done; 1 a plan that is refused as unsafe; 2 bad use or bad input.",
        .commands = {plan_command(), card_command(), squad_command(), explain_command(), course_command(),
                     foods_command(), model_command(), sweat_test_command(), diary_command(),
                     rehearse_command()},
    };
    return run_command_line(program, "tuck " TUCK_VERSION, argc, argv);
}

} // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const tuck::io::InputError& error) {
        for (const auto& fault : error.faults)
            fmt::print(stderr, "tuck: {}\n", line_of(fault));
    } catch (const std::exception& error) {
        fmt::print(stderr, "tuck: {}\n", error.what());
    }
    return bad_input;
}
