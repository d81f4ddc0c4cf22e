// Help, manual page and completion, all made of the command tables.
#pragma once

#include "cli/command.hpp"

#include <string>
#include <vector>

namespace tuck::cli {

/// The commands on the way to one of them, the program first.
using CommandPath = std::vector<const Command*>;

/// The commands that the words of a line name, as far as they do.
CommandPath path_of(const Command& program, const std::vector<std::string>& words);

/// One screen, at most 80 columns: what the command does, its options, an example. Options under a heading
/// are named alone, unless `all`.
std::string help_text(const CommandPath& path, bool all);

/// The manual page of the whole program, for man(1).
std::string manual_page(const Command& program, const std::string& version);

/// The completion of a shell: "bash", "zsh" or "fish". Throws std::invalid_argument for another.
std::string completion(const Command& program, const std::string& shell);

} // namespace tuck::cli
