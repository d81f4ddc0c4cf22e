// What stands on the sheet around the card and is read at home.
#pragma once

#include "card/card_blocks.hpp"

namespace tuck::faces {

/// Whose card it is, the check bar, and the cut marks of the sides in `layout`.
void add_sheet_head(const CardContent& card, const Fonts& fonts, CardLayout& layout);

/// Below the card: how to print, cut and seal it, how large its letters are, and the cautions.
void add_sheet_notes(const CardContent& card, const TypeSizes& sizes, bool several_sides,
                     const CardOptions& options, const Fonts& fonts, CardLayout& layout);

/// The head and the cut marks of a sheet of a squad: what it is, which sheet, and the check bar.
void add_squad_head(const std::string& title, std::size_t sheet, const Fonts& fonts, CardLayout& layout);

/// The last page of a squad: how to cut and seal, and the cautions.
void add_squad_notes(const std::vector<std::string>& cautions, const Fonts& fonts, CardLayout& layout);

} // namespace tuck::faces
