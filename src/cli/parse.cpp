// The one file that knows the library of the command line.
#include "base/utf8.hpp"
#include "cli/command.hpp"
#include "cli/help.hpp"
#include "cli/licences.hpp"
#include "io/fault.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <fmt/format.h>
#include <iostream>
#include <map>

namespace tuck::cli {

namespace {

constexpr int bad_use = 2;

std::vector<std::string> words_of(std::string_view commas) {
    std::vector<std::string> words;
    for (std::size_t at = 0; at < commas.size();) {
        const auto end = std::min(commas.find(", ", at), commas.size());
        words.emplace_back(commas.substr(at, end - at));
        at = end + 2;
    }
    return words;
}

/// Keeps what was typed; false where it is no such number.
struct Keep {
    const CLI::results_t& texts;
    const std::string name;

    bool operator()(TypedTarget to) const { return (*to.typed)[name] = texts, true; }
    bool operator()(std::string* to) const { return *to = texts.front(), true; }
    bool operator()(std::optional<std::string>* to) const { return *to = texts.front(), true; }
    bool operator()(std::vector<std::string>* to) const { return *to = texts, true; }
    bool operator()(std::map<std::string, std::string>* to) const {
        return (*to)[name] = texts.front(), true;
    }
    bool operator()(bool* to) const { return *to = true; }
    bool operator()(std::optional<int>* to) const { return number(to); }
    bool operator()(std::optional<double>* to) const { return number(to); }

    template <typename Number>
    bool number(std::optional<Number>* to) const {
        Number value{};
        const bool read = CLI::detail::lexical_cast(texts.front(), value);
        return *to = value, read;
    }
};

void add(CLI::App& app, const Option& option) {
    const std::string name(option.name), help(option.help);
    const auto keep = [target = option.target, name](const CLI::results_t& texts) {
        return std::visit(Keep{texts, name}, target);
    };
    CLI::Option* added = nullptr;
    const auto* typed = std::get_if<TypedTarget>(&option.target);
    if (bool* const* flag = std::get_if<bool*>(&option.target))
        added = app.add_flag(name, **flag, help);
    else if (typed && option.kind.empty())
        added = app.add_flag_callback(
            name, [typed = typed->typed, name] { (*typed)[name]; }, help);
    else
        added = app.add_option(name, keep, help)->type_name(std::string(option.kind));
    if (std::holds_alternative<std::vector<std::string>*>(option.target) || (typed && typed->many)) {
        // One value for each use, so that a list never swallows the event's file name.
        added->expected(1, CLI::detail::expected_max_vector_size)->allow_extra_args(name.front() != '-');
        if (option.commas)
            added->delimiter(',');
    }
    if (option.value_optional)
        added->expected(0, 1);
    if (!option.one_of.empty())
        added->check(CLI::IsMember(words_of(option.one_of)));
    if (!option.group.empty())
        added->group(std::string(option.group));
    added->required(option.required);
}

void add(CLI::App& parent, const Command& command, Action& chosen);

void fill(CLI::App& app, const Command& command, Action& chosen) {
    app.footer(std::string(command.footer));
    for (const auto& option : command.options)
        add(app, option);
    for (const auto& inner : command.commands)
        add(app, inner, chosen);
    if (!command.commands.empty())
        app.require_subcommand(1);
}

void add(CLI::App& parent, const Command& command, Action& chosen) {
    auto* app = parent.add_subcommand(std::string(command.name), std::string(command.help));
    app->fallthrough();
    fill(*app, command, chosen);
    if (command.run)
        app->callback([&chosen, run = command.run] { chosen = run; });
}

/// The innermost command that was named on the line.
const CLI::App& named(const CLI::App& app) {
    const auto used = app.get_subcommands();
    return used.empty() ? app : named(*used.front());
}

/// Of the command and of those that it stands in.
std::vector<std::string> option_names(const CLI::App* app) {
    std::vector<std::string> names;
    for (; app; app = app->get_parent())
        for (const auto* option : app->get_options())
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
    const auto near = io::nearest_word(word, known);
    return near.empty() ? "" : fmt::format(": did you mean \"{}\"", near);
}

/// What is wrong with the command line, in one sentence.
std::string what_is_wrong(const CLI::App& command, const CLI::ParseError& error, int argc, char** argv) {
    const auto options = option_names(&command), commands = command_names(command);
    for (int i = 1; i < argc; ++i) {
        const std::string argument = argv[i];
        const std::string word = argument.substr(0, argument.find('='));
        const bool option = word.starts_with("--");
        if (option && std::find(options.begin(), options.end(), word) == options.end())
            return fmt::format("{} is not an option{}", word, did_you_mean(word, options));
        const bool names_command = !option && !commands.empty() && word != command.get_name();
        if (names_command && !word.starts_with('-'))
            return fmt::format("\"{}\" is not a command{}", word, did_you_mean(word, commands));
    }
    std::map<std::string, int> times;
    for (int i = 1; i < argc; ++i)
        ++times[std::string(argv[i]).substr(0, std::string(argv[i]).find('='))];
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error))
        for (const auto& [word, count] : times)
            if (count > 1 && word.starts_with("--") &&
                std::string(error.what()).find(word) != std::string::npos)
                return fmt::format("{} is given {}; allowed: once", word,
                                   count == 2 ? "twice" : "several times");
    std::string text = error.what();
    while (!text.empty() && text.back() == '\n')
        text.pop_back();
    return text;
}

/// "tuck foods add".
std::string words_of(const CLI::App& command) {
    const auto* parent = command.get_parent();
    return parent ? words_of(*parent) + " " + command.get_name() : command.get_name();
}

int complain(const CLI::App& app, const CLI::ParseError& error, int argc, char** argv) {
    const auto& command = named(app);
    fmt::print(stderr, "tuck: {}; see {} --help\n", told_line(what_is_wrong(command, error, argc, argv)),
               words_of(command));
    return bad_use;
}

/// Help, version, manual page and completion, wherever they stand on the line.
std::optional<std::string> told_at_once(const Command& program, std::string_view version, int argc,
                                        char** argv) {
    const std::vector<std::string> words(argv + std::min(argc, 1), argv + argc);
    if (words.empty())
        return std::nullopt;
    const auto at = std::find_if(words.begin(), words.end(),
                                 [](const std::string& word) { return word == "--help" || word == "-h"; });
    if (at != words.end()) {
        const bool all = at + 1 != words.end() && at[1] == "all";
        return help_text(path_of(program, {words.begin(), at}), all);
    }
    if (words[0] == "--version" || words[0] == "-V" || words[0] == "version")
        return std::string(version) + "\n";
    if (words[0] == "help") {
        if (words.size() > 1 && words[1] == "--manual")
            return manual_page(program, std::string(version.substr(0, version.find('\n'))));
        if (words.size() > 1 && words[1] == "--licences")
            return licences_text();
        return help_text(path_of(program, words), words.back() == "all");
    }
    if (words[0] == "completion")
        return completion(program, words.size() > 1 ? words[1] : "");
    return std::nullopt;
}

/// "--mass=": the parser would take the next word for its value.
void refuse_bare_equals(int argc, char** argv) {
    for (int i = 1; i < argc; ++i) {
        const std::string word = argv[i];
        if (word.starts_with("--") && word.size() > 3 && word.find('=') == word.size() - 1)
            throw io::InputError(word.substr(0, word.size() - 1), "",
                                 "is empty; give a value, or leave it out");
    }
}

/// An option with nothing in it is most likely a shell variable that was never set.
void require_values(const CLI::App& command) {
    for (const auto* option : command.get_options())
        for (const auto& text : option->results())
            if (text.empty() && option->get_expected_min() > 0 && option->get_name() != "--note")
                throw io::InputError(option->get_name(), "", "is empty; give a value, or leave it out");
}

} // namespace

OptionTable under(std::string_view group, OptionTable options) {
    for (auto& option : options)
        option.group = group;
    return options;
}

OptionTable operator+(OptionTable first, const OptionTable& then) {
    first.insert(first.end(), then.begin(), then.end());
    return first;
}

int run_command_line(const Command& program, std::string_view version, int argc, char** argv) {
    if (const auto answer = told_at_once(program, version, argc, argv))
        return std::fputs(answer->c_str(), stdout), 0;
    refuse_bare_equals(argc, argv);
    CLI::App app(std::string(program.help), std::string(program.name));
    app.set_help_flag();
    Action chosen;
    fill(app, program, chosen);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return complain(app, error, argc, argv);
    }
    require_values(named(app));
    return chosen();
}

} // namespace tuck::cli
