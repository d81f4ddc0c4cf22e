#include "cli/help.hpp"

#include "text/page.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::cli {

namespace {

using faces::TextPage;

constexpr std::size_t help_column = 28;

bool by_place(const Option& option) {
    return option.name.front() != '-';
}

std::string kind_of(const Option& option) {
    const bool flag = std::holds_alternative<bool*>(option.target) || option.kind.empty();
    return flag ? "" : std::string(option.kind);
}

/// "-o, --output FILE.pdf".
std::string shown_name(const Option& option) {
    std::string name;
    for (const char c : option.name)
        name += c == ',' ? std::string(", ") : std::string(1, c);
    if (by_place(option))
        return kind_of(option);
    const auto kind = kind_of(option);
    return name + (kind.empty() ? "" : " " + kind);
}

std::string words_of(const CommandPath& path) {
    std::string out;
    for (const auto* command : path)
        out += (out.empty() ? "" : " ") + std::string(command->name);
    return out;
}

std::string usage(const CommandPath& path) {
    std::string out = words_of(path);
    const Command& command = *path.back();
    if (!command.commands.empty())
        return out + " COMMAND ...";
    for (const auto& option : command.options)
        if (by_place(option))
            out += option.required ? " " + kind_of(option) : " [" + kind_of(option) + "]";
    return out + " [OPTION ...]";
}

void write_option(const Option& option, TextPage& page) {
    const auto name = "  " + shown_name(option);
    const bool wide = name.size() + 2 > help_column;
    if (wide)
        page.line(name);
    page.item(faces::padded(wide ? "" : name, help_column), std::string(option.help));
}

/// Under its heading: each with its help, or the names alone.
void write_group(const OptionTable& options, std::string_view group, bool all, TextPage& page) {
    std::string names;
    page.head(group.empty() ? std::string("Options") : std::string(group));
    for (const auto& option : options) {
        if (option.group != group)
            continue;
        if (all || group.empty())
            write_option(option, page);
        else
            names += (names.empty() ? "" : " ") + std::string(option.name);
    }
    if (!names.empty())
        page.item("  ", names);
}

std::vector<std::string_view> groups_of(const OptionTable& options) {
    std::vector<std::string_view> groups;
    for (const auto& option : options)
        if (std::find(groups.begin(), groups.end(), option.group) == groups.end())
            groups.push_back(option.group);
    std::stable_sort(groups.begin(), groups.end(), [](auto a, auto b) { return a.empty() && !b.empty(); });
    return groups;
}

/// Lines as they stand, unless they are too long.
void write_as_is(std::string_view text, TextPage& page) {
    std::size_t at = 0;
    while (at <= text.size() && !text.empty()) {
        const auto end = std::min(text.find('\n', at), text.size());
        const std::string line(text.substr(at, end - at));
        line.size() <= 80 ? page.line(line) : page.item("", line);
        at = end + 1;
    }
}

} // namespace

CommandPath path_of(const Command& program, const std::vector<std::string>& words) {
    CommandPath path{&program};
    for (const auto& word : words) {
        const auto& inner = path.back()->commands;
        const auto named = std::find_if(inner.begin(), inner.end(),
                                        [&word](const Command& each) { return each.name == word; });
        if (named != inner.end())
            path.push_back(&*named);
    }
    return path;
}

std::string help_text(const CommandPath& path, bool all) {
    const Command& command = *path.back();
    TextPage page;
    write_as_is(command.help, page);
    page.head("Usage: " + usage(path));
    if (!command.commands.empty()) {
        page.head("Commands");
        for (const auto& inner : command.commands)
            page.item(faces::padded("  " + std::string(inner.name), 14), std::string(inner.help));
    }
    bool short_of = false;
    for (const auto group : groups_of(command.options)) {
        write_group(command.options, group, all, page);
        short_of = short_of || (!all && !group.empty());
    }
    if (!command.footer.empty()) {
        page.line("");
        write_as_is(command.footer, page);
    }
    if (command.run)
        page.item("\n", "Everywhere: --quiet tells no notes; a file - is standard input or output.");
    if (short_of)
        page.item("\n", fmt::format("Every option with its meaning: {} --help all", words_of(path)));
    else if (!command.commands.empty())
        page.item("\n", fmt::format("More of each: {} COMMAND --help", words_of(path)));
    return page.text();
}

namespace {

/// Of roff: a backslash is \e, a hyphen of an option \-, a leading point or apostrophe is no request.
std::string roff(std::string_view text) {
    std::string out;
    bool begins = true;
    for (const char c : text) {
        if (begins && (c == '.' || c == '\''))
            out += "\\&";
        out += c == '\\' ? std::string("\\e") : c == '-' ? std::string("\\-") : std::string(1, c);
        begins = c == '\n';
    }
    return out;
}

void write_options(const OptionTable& options, std::string& out) {
    for (const auto& option : options)
        out += ".TP\n.B " + roff(shown_name(option)) + "\n" + roff(option.help) + "\n";
}

void write_manual(const CommandPath& path, std::string& out) {
    const Command& command = *path.back();
    if (command.run) {
        out += ".SH " + roff(words_of(path)) + "\n" + roff(command.help) + ".\n.PP\n.B " + roff(usage(path)) +
               "\n";
        write_options(command.options, out);
        if (!command.footer.empty())
            out += ".PP\n.nf\n" + roff(command.footer) + "\n.fi\n";
    }
    for (const auto& inner : command.commands) {
        auto deeper = path;
        deeper.push_back(&inner);
        write_manual(deeper, out);
    }
}

// Completion.

struct Place {
    std::string words; // "foods add"
    const Command* command = nullptr;
};

void gather(const Command& command, const std::string& words, std::vector<Place>& out) {
    out.push_back({words, &command});
    for (const auto& inner : command.commands)
        gather(inner, words + (words.empty() ? "" : " ") + std::string(inner.name), out);
}

std::vector<std::string> names_of(const Option& option) {
    std::vector<std::string> names;
    std::size_t at = 0;
    while (at < option.name.size()) {
        const auto end = std::min(option.name.find(',', at), option.name.size());
        names.emplace_back(option.name.substr(at, end - at));
        at = end + 1;
    }
    return names;
}

/// The words that a value may be, where there are few: those of the table, or those that its help lists.
std::string values_of(const Option& option) {
    std::string_view from = option.one_of;
    const auto help = option.help;
    if (from.empty() && (option.kind == "WORD" || option.kind == "WORDS")) {
        const auto colon = help.rfind(": ");
        from = colon == std::string_view::npos ? help : help.substr(colon + 2);
        if (from.find(", ") == std::string_view::npos)
            return {};
    }
    std::string out;
    std::size_t at = 0;
    while (at < from.size()) {
        const auto end = std::min(from.find(", ", at), from.size());
        auto word = from.substr(at, end - at);
        word = word.substr(0, word.find(' '));
        if (!word.empty() && word.find('(') == std::string_view::npos)
            out += (out.empty() ? "" : " ") + std::string(word);
        at = end + 2;
    }
    return out;
}

bool takes_file(const Option& option) {
    const auto kind = kind_of(option);
    return kind.find("FILE") != std::string::npos || kind.find(".json") != std::string::npos ||
           kind.find("FOLDER") != std::string::npos;
}

std::string commands_of(const Command& command) {
    std::string out;
    for (const auto& inner : command.commands)
        out += (out.empty() ? "" : " ") + std::string(inner.name);
    return out;
}

std::string options_of(const Command& command) {
    std::string out = "--help";
    for (const auto& option : command.options)
        for (const auto& name : names_of(option))
            if (!by_place(option))
                out += " " + name;
    return out + (command.run ? " --quiet" : "");
}

std::string bash_completion(const Command& program) {
    std::vector<Place> places;
    gather(program, "", places);
    std::string out = "# bash completion of tuck; made by: tuck completion bash\n"
                      "_tuck() {\n"
                      "    local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} path= word\n"
                      "    for word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
                      "        case \"$path $word\" in\n";
    for (const auto& place : places)
        if (!place.words.empty()) {
            const auto blank = place.words.rfind(' ');
            const auto before = blank == std::string::npos ? "" : place.words.substr(0, blank);
            const auto last = blank == std::string::npos ? place.words : place.words.substr(blank + 1);
            out += fmt::format("        \"{} {}\") path=\"{}\" ;;\n", before, last, place.words);
        }
    out += "        esac\n    done\n    case \"$prev\" in\n";
    std::vector<std::string> seen;
    for (const auto& place : places)
        for (const auto& option : place.command->options)
            for (const auto& name : names_of(option)) {
                if (by_place(option) || std::find(seen.begin(), seen.end(), name) != seen.end())
                    continue;
                const auto values = values_of(option);
                if (values.empty() && option.kind != "FOODS")
                    continue;
                seen.push_back(name);
                out += option.kind == "FOODS"
                           ? fmt::format(
                                 "    {}) COMPREPLY=($(compgen -W \"$(tuck foods list 2>/dev/null | sed -n "
                                 "'s/^\\([a-z][a-z0-9_]*\\) .*/\\1/p')\" -- \"$cur\")); return ;;\n",
                                 name)
                           : fmt::format("    {}) COMPREPLY=($(compgen -W \"{}\" -- \"$cur\")); return ;;\n",
                                         name, values);
            }
    out += "    esac\n    case \"$path\" in\n";
    for (const auto& place : places)
        out += fmt::format("    \"{}\") words=\"{}\" ;;\n", place.words,
                           commands_of(*place.command) + (place.command->commands.empty() ? "" : " ") +
                               options_of(*place.command));
    return out + "    esac\n"
                 "    if [[ $cur == -* || -z $path ]]; then\n"
                 "        COMPREPLY=($(compgen -W \"$words\" -- \"$cur\"))\n"
                 "    else\n"
                 "        COMPREPLY=($(compgen -W \"${words%%--*}\" -- \"$cur\") $(compgen -f -- \"$cur\"))\n"
                 "    fi\n"
                 "}\n"
                 "complete -o filenames -F _tuck tuck\n";
}

std::string quoted(std::string_view text) {
    std::string out;
    for (const char c : text)
        out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return "'" + out + "'";
}

std::string fish_completion(const Command& program) {
    std::vector<Place> places;
    gather(program, "", places);
    std::string out = "# fish completion of tuck; made by: tuck completion fish\n";
    for (const auto& place : places) {
        const auto here = place.words.empty() ? std::string("__fish_use_subcommand")
                                              : "__fish_seen_subcommand_from " + place.words;
        for (const auto& inner : place.command->commands)
            out +=
                fmt::format("complete -c tuck -n '{}' -a {} -d {}\n", here, inner.name, quoted(inner.help));
        for (const auto& option : place.command->options) {
            if (by_place(option))
                continue;
            std::string names;
            for (const auto& name : names_of(option))
                names += name.rfind("--", 0) == 0 ? " -l " + name.substr(2) : " -s " + name.substr(1);
            const auto values = values_of(option);
            const bool value = !kind_of(option).empty();
            out += fmt::format("complete -c tuck -n '{}'{}{}{} -d {}\n", here, names,
                               value ? takes_file(option) ? " -r" : " -x" : "",
                               values.empty() ? "" : " -a '" + values + "'", quoted(option.help));
        }
    }
    return out;
}

} // namespace

std::string manual_page(const Command& program, const std::string& version) {
    std::string out = fmt::format(".TH TUCK 1 \"\" \"{}\" \"User commands\"\n.SH NAME\ntuck \\- {}\n",
                                  roff(version), "fuel and drink for swim, bike and run");
    out += ".SH SYNOPSIS\n.B tuck\n.I COMMAND ...\n.SH DESCRIPTION\n" + roff(program.help) + "\n";
    out += ".PP\nA file called \\- is standard input or output.\n.SH OPTIONS OF EVERY COMMAND\n";
    write_options(program.options, out);
    for (const auto& command : program.commands)
        write_manual({&program, &command}, out);
    return out + ".SH NOT MEDICAL ADVICE\nA plan does not replace a doctor, a dietitian or the rules of the "
                 "event.\n";
}

std::string completion(const Command& program, const std::string& shell) {
    if (shell == "bash")
        return bash_completion(program);
    if (shell == "zsh") // its own emulation of bash's
        return "#compdef tuck\nautoload -U +X bashcompinit && bashcompinit\n" + bash_completion(program);
    if (shell == "fish")
        return fish_completion(program);
    throw std::invalid_argument("\"" + shell + "\" is no shell that is known here; allowed: bash, zsh, fish");
}

} // namespace tuck::cli
