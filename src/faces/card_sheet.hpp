// What stands on the sheet around the card and is read at home.
#pragma once

#include "faces/card_blocks.hpp"

namespace tuck::faces {

/// Whose card it is, the check bar, and the cut marks of the sides in `layout`.
void add_sheet_head(const CardContent& card, const Fonts& fonts, CardLayout& layout);

/// Below the card: how to print, cut and seal it, how large its letters are, and the cautions.
void add_sheet_notes(const CardContent& card, const TypeSizes& sizes, const CardOptions& options,
                     const Fonts& fonts, CardLayout& layout);

} // namespace tuck::faces
