// A card's content broken into sides: each a column of blocks, not yet placed on paper.
#pragma once

#include "card/card_blocks.hpp"

#include <optional>

namespace tuck::faces {

/// One athlete's card, set in type.
struct SetCard {
    CardSize size; // as laid: the other way round from what was asked where that holds more
    TypeSizes type;
    double margin_mm = quiet_zone_mm; // left and right of the text
    std::string race, athlete, title;
    bool run_apart = true;                 // what follows the bike has sides of its own
    bool parted = false;                   // the rows of a leg go on on another side
    double row_lines = 0;                  // height of all rows in lines of a row
    std::vector<std::vector<Block>> sides; // from top to bottom; the last block of each is STOP
};

/// The fewest sides that hold the card, with the largest letters that leave air between the rows; nothing
/// when `most_sides` are not enough with letters at their floors.
std::optional<SetCard> set_card(const CardContent& content, const Fonts& fonts, const CardOptions& options,
                                const CardSize& size, std::size_t most_sides);

/// Puts one side into `trim` as side `number` of the sheet.
void place_side(const SetCard& card, std::size_t side, const Trim& trim, int number, CardLayout& layout);

} // namespace tuck::faces
