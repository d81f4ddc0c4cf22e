// tuck: fuel and drink for swim, bike and run. Arguments, streams and exit codes only.
#include "base/utf8.hpp"
#include "cli/command.hpp"
#include "io/fault.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <fmt/format.h>
#include <iostream>

namespace {

constexpr int bad_input = 2;

/// The innermost command that was named on the line.
const CLI::App& chosen(const CLI::App& app) {
    const auto used = app.get_subcommands();
    return used.empty() ? app : chosen(*used.front());
}

std::vector<std::string> option_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const auto* option : app.get_options())
        for (const auto& name : option->get_lnames())
            names.push_back("--" + name);
    return names;
}

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const auto* command : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(command->get_name());
    return names;
}

std::string did_you_mean(const std::string& word, const std::vector<std::string>& known) {
    const auto near = tuck::io::nearest_word(word, known);
    return near.empty() ? "" : fmt::format("; did you mean \"{}\"?", near);
}

/// What is wrong with the command line, in one sentence.
std::string what_is_wrong(const CLI::App& command, const CLI::ParseError& error, int argc, char** argv) {
    const auto options = option_names(command), commands = command_names(command);
    for (int i = 1; i < argc; ++i) {
        const std::string argument = argv[i];
        const std::string word = argument.substr(0, argument.find('='));
        const bool option = word.rfind("--", 0) == 0;
        if (option && std::find(options.begin(), options.end(), word) == options.end())
            return fmt::format("{} is not an option{}", word, did_you_mean(word, options));
        const bool names_command = !option && !commands.empty() && word != command.get_name();
        if (names_command && word.rfind("-", 0) != 0)
            return fmt::format("\"{}\" is not a command{}", word, did_you_mean(word, commands));
    }
    std::string text = error.what();
    while (!text.empty() && text.back() == '\n')
        text.pop_back();
    return text;
}

int complain(const CLI::App& app, const CLI::ParseError& error, int argc, char** argv) {
    if (error.get_exit_code() == 0)
        return app.exit(error) + (std::cout.flush() ? 0 : bad_input); // help and version
    const auto& command = chosen(app);
    fmt::print(stderr, "tuck: {}; see {} --help\n", tuck::shown(what_is_wrong(command, error, argc, argv)),
               command.get_parent() ? "tuck " + command.get_name() : "tuck");
    return bad_input;
}

/// An option with nothing in it is most likely a shell variable that was never set.
void require_values(const CLI::App& command) {
    for (const auto* option : command.get_options())
        for (const auto& text : option->results())
            if (text.empty() && option->get_expected_min() > 0 && option->get_name() != "--note")
                throw tuck::io::InputError(option->get_name(), "", "is empty; give a value, or leave it out");
}

int run(int argc, char** argv) {
    CLI::App app("Fuel and drink for swim, bike and run: a plan, and a card for the top tube.\n"
                 "Exit codes: 0 done; 1 a plan that is refused as unsafe; 2 bad use or bad input.",
                 "tuck");
    app.set_version_flag("--version", std::string("tuck ") + TUCK_VERSION);
    app.set_help_flag("-h,--help", "this help");
    app.require_subcommand(1);
    tuck::cli::Action action;
    tuck::cli::add_plan(app, action);
    tuck::cli::add_card(app, action);
    tuck::cli::add_squad(app, action);
    tuck::cli::add_explain(app, action);
    tuck::cli::add_course(app, action);
    tuck::cli::add_foods(app, action);
    tuck::cli::add_model(app, action);
    tuck::cli::add_sweat_test(app, action);
    tuck::cli::add_diary(app, action);
    tuck::cli::add_rehearse(app, action);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return complain(app, error, argc, argv);
    }
    require_values(chosen(app));
    return action();
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
    try {
        return flushed(run(argc, argv));
    } catch (const tuck::io::InputError& error) {
        for (const auto& fault : first_of(error.faults))
            fmt::print(stderr, "tuck: {}\n", line_of(fault));
    } catch (const std::exception& error) {
        if (std::ferror(stdout) != 0)
            return flushed(bad_input);
        fmt::print(stderr, "tuck: {}\n", tuck::shown(error.what()));
    }
    return bad_input;
}
