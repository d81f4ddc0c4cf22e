// tuck: fuel and drink for swim, bike and run. Arguments, streams and exit codes only.
#include "base/utf8.hpp"
#include "cli/command.hpp"
#include "cli/tell.hpp"
#include "io/fault.hpp"
#include "tuck/version.hpp"

#include <csignal>
#include <cstdio>
#include <fmt/format.h>
#include <new>
#include <stdexcept>

namespace {

constexpr int bad_input = 2, own_fault = 70; // 70: EX_SOFTWARE of BSD's sysexits.h

int run(int argc, char** argv) {
    using namespace tuck::cli;
    const Command program{
        .name = "tuck",
        .help = "Fuel and drink for swim, bike and run: a plan, and a card for the top tube.\n"
                "Exit codes: 0 done; 1 a plan that is refused as unsafe; 2 bad use or bad input; "
                "70 a fault of this program.",
        .footer = "First: tuck new. Manual page: tuck help --manual. Completion: tuck completion bash (zsh, "
                  "fish).\n"
                  "Licences of all that is in it: tuck help --licences.",
        .options = {{"--quiet", &quiet(), "no notes and warnings on standard error; faults are still told"}},
        .commands = {plan_command(), card_command(), squad_command(), explain_command(), course_command(),
                     foods_command(), model_command(), sweat_test_command(), diary_command(),
                     rehearse_command(), new_command()},
    };
    const std::string commit = TUCK_COMMIT; // of the sources when they were configured; empty outside a clone
    return run_command_line(
        program, std::string("tuck ") + tuck::version() + (commit.empty() ? "" : ", commit " + commit), argc,
        argv);
}

/// What was said is on its way: a full disk or a closed pipe is told, whatever the command.
int flushed(int code) {
    if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0)
        return code;
    fmt::print(stderr, "tuck: standard output: cannot be written\n");
    return bad_input;
}

} // namespace

int main(int argc, char** argv) {
    std::signal(SIGXFSZ, SIG_IGN); // a file that may not grow is told as a full disk is, and nothing stays
    try {
        return flushed(run(argc, argv));
    } catch (const tuck::io::InputError& error) {
        for (const auto& fault : first_of(error.faults))
            fmt::print(stderr, "tuck: {}\n", line_of(fault));
    } catch (const std::invalid_argument& error) { // a model that these conditions are beyond
        fmt::print(stderr, "tuck: {}\n", tuck::told_line(error.what()));
    } catch (const std::logic_error& error) {
        fmt::print(
            stderr,
            "tuck: this is our fault, not yours: {}. Nothing was written that you may use. Please report it "
            "with what you asked for.\n",
            error.what());
        return own_fault;
    } catch (const std::bad_alloc&) {
        fmt::print(stderr, "tuck: there is not enough memory for this\n");
    } catch (const std::exception& error) {
        if (std::ferror(stdout) != 0)
            return flushed(bad_input);
        fmt::print(stderr, "tuck: {}\n", tuck::told_line(error.what()));
    }
    return bad_input;
}
