// The options that say how a card is cut, printed and read. Shared by `card` and `squad`.
#pragma once

#include "card/card.hpp"
#include "cli/command.hpp"
#include "tuck/ask.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::cli {

struct CardWords {
    std::string size = "strip", paper = "a4";
    std::optional<std::string> distance, tilt, tube;
    bool simpler = false, holes = false, glue = false;
};

OptionTable card_option_table(CardWords& words);

/// Throws io::InputError that names the option.
faces::CardOptions card_options_of(const CardWords& words);

/// What is to be told of the card as it was asked for: how much of it a tube turns away.
std::vector<std::string> notes_on(const faces::CardOptions& card);

/// For a simpler plan: how many lines one side of the card holds. Two are always allowed, one to drink and
/// one to eat.
CardLimits limits_of(const faces::CardOptions& card);

} // namespace tuck::cli
