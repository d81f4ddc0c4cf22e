// The options that say how a card is cut, printed and read. Shared by `card` and `squad`.
#pragma once

#include "faces/card.hpp"

#include <optional>
#include <string>

namespace CLI {
class App;
}

namespace tuck::cli {

struct CardWords {
    std::string size = "strip", paper = "a4";
    std::optional<std::string> distance, tilt;
};

void add_card_options(CLI::App& command, CardWords& words);

/// Throws io::InputError that names the option.
faces::CardOptions card_options_of(const CardWords& words);

/// Throws io::InputError when the file of a preview is not an SVG. Empty: no preview.
void require_svg(const std::string& option, const std::string& file);

} // namespace tuck::cli
