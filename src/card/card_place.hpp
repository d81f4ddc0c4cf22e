// Where the sides of cards stand on a sheet. Shared by the single card and the cards of a squad.
#pragma once

#include "card/card_sides.hpp"

namespace tuck::faces {

inline constexpr double sheet_margin_mm = 12;
// Two cut marks end between two sides.
inline constexpr double between_sides_mm = 12;

struct Grid {
    std::size_t columns = 1, rows = 1;
};

/// How many sides stand beside each other on a sheet of this width, and how many rows of them in `height_mm`;
/// at least one of each.
Grid grid(double sheet_width_mm, double height_mm, const CardSize& size);

/// The first `count` places of the grid, row by row, centred on the sheet.
std::vector<Trim> trims(double sheet_width_mm, double top_mm, const CardSize& size, const Grid& grid,
                        std::size_t count);

/// Throws std::runtime_error when an option is out of its range.
void require_in_range(const CardOptions& options);

/// The plan's card, set; `content` is filled on the way. Throws as card_layouts does.
SetCard set_plan(const Plan& plan, const CardOptions& options, const Fonts& fonts, CardContent& content);

} // namespace tuck::faces
