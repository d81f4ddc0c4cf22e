// tuck: fuel and drink for swim, bike and run. Arguments, streams and exit codes only.
#include "cli/command.hpp"
#include "io/fault.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <fmt/format.h>

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

/// The word on the command line that nobody knows, with the nearest known one.
std::string suggestion(const CLI::App& app, int argc, char** argv) {
    const auto& command = chosen(app);
    const auto options = option_names(command), commands = command_names(command);
    for (int i = 1; i < argc; ++i) {
        const std::string word(argv[i], std::string(argv[i]).find('=') == std::string::npos
                                            ? std::string(argv[i]).size()
                                            : std::string(argv[i]).find('='));
        const auto& known = word.rfind("--", 0) == 0 ? options : commands;
        if (std::find(known.begin(), known.end(), word) != known.end())
            continue;
        const auto near = tuck::io::nearest_word(word, known);
        if (!near.empty())
            return fmt::format("; did you mean \"{}\"?", near);
    }
    return "";
}

int complain(const CLI::App& app, const CLI::ParseError& error, int argc, char** argv) {
    if (error.get_exit_code() == 0)
        return app.exit(error); // help and version
    std::string text = error.what();
    while (!text.empty() && text.back() == '\n')
        text.pop_back();
    fmt::print(stderr, "tuck: {}{}; see {} --help\n", text, suggestion(app, argc, argv),
               chosen(app).get_parent() ? "tuck " + chosen(app).get_name() : "tuck");
    return bad_input;
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
    tuck::cli::add_explain(app, action);
    tuck::cli::add_foods(app, action);
    tuck::cli::add_model(app, action);
    tuck::cli::add_sweat_test(app, action);
    tuck::cli::add_diary(app, action);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return complain(app, error, argc, argv);
    }
    return action();
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
