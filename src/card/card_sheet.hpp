// What stands on the sheet around the card and is read at home.
#pragma once

#include "card/card_blocks.hpp"

namespace tuck::faces {

/// Whose card it is, the check bar, and the cut marks of the sides in `layout`.
void add_sheet_head(const CardContent& card, const Fonts& fonts, CardLayout& layout);

/// Below the card: how to print, cut and seal it, how large its letters are, and the cautions.
void add_sheet_notes(const CardContent& card, const TypeSizes& sizes, bool several_sides,
                     const CardOptions& options, const Fonts& fonts, CardLayout& layout);

/// The head of a sheet of a squad: what it is, which sheet, and the check bar.
void add_squad_head(const std::string& title, std::size_t sheet, const Fonts& fonts, CardLayout& layout);

/// Where to cut the sides of `layout`, which stand edge to edge, and where to fold: on the right of `folds`.
void add_cuts(const CardSize& size, const std::vector<Trim>& folds, CardLayout& layout);

/// The last pages of a squad: how to cut and seal, the cautions, and on which sheet everybody's card stands.
std::vector<CardLayout> squad_notes(const std::vector<std::string>& cautions,
                                    const std::vector<std::pair<std::string, std::size_t>>& index,
                                    const Paper& paper, const Fonts& fonts);

/// Four holes for zip ties in the margins of a side.
void add_holes(const Trim& side, CardLayout& layout);

/// A tab to be glued under, left of every first side of a row: a pair folded at its right edge closes there.
void add_glue_tabs(const Fonts& fonts, CardLayout& layout);

} // namespace tuck::faces
