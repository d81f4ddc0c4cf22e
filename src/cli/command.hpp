// The commands as tables: each parses, calls the library once, prints. No arithmetic here.
#pragma once

#include "tuck/document.hpp"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace tuck::cli {

/// What the chosen command does once the command line has been read; returns the exit code
/// (0 done, 1 a plan that is refused, 2 bad use or bad input). io::InputError may be thrown: main prints it.
using Action = std::function<int()>;

/// Where the text of an option goes: a list grows with every use, a flag is set, a map keeps the text under
/// the option's name. It has to outlive the parsing.
struct TypedTarget {
    Typed* typed;
    bool many;
};
using Target =
    std::variant<TypedTarget, std::string*, std::optional<std::string>*, std::vector<std::string>*, bool*,
                 std::optional<int>*, std::optional<double>*, std::map<std::string, std::string>*>;

/// One option. All texts stand in the program itself: they are never freed.
struct Option {
    std::string_view name; // "--mass", "-o,--output"; without dashes a word known by its place
    Target target;
    std::string_view help;
    std::string_view kind = "TEXT"; // of value, for the help: "MASS", "FILE.pdf"; empty: it takes none
    std::string_view one_of = {};   // the only words allowed, parted by commas; empty: any
    std::string_view group = {};    // heading in the help
    bool required = false;
    bool value_optional = false; // "--indoors" alone means yes
    bool commas = false;         // a list: one text may hold several values
};
using OptionTable = std::vector<Option>;

/// The same options under one heading of the help.
OptionTable under(std::string_view group, OptionTable options);
OptionTable operator+(OptionTable first, const OptionTable& then);

struct Command {
    std::string_view name = {}, help = {}, footer = {};
    OptionTable options = {};
    std::vector<Command> commands = {}; // one of them has to be named; the options above may also follow it
    Action run = {};
};

Command plan_command();
Command card_command();
Command squad_command();
Command explain_command();
Command course_command();
Command foods_command();
Command model_command();
Command sweat_test_command();
Command diary_command();
Command rehearse_command();
Command new_command();

/// Reads the command line and runs the chosen command. Help and version go to standard output; what is wrong
/// with the line goes to standard error in one sentence (2).
int run_command_line(const Command& program, std::string_view version, int argc, char** argv);

} // namespace tuck::cli
