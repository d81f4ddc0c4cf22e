// The rows of the card: when + what + how much in at most 14 characters, and the legend of what was
// shortened.
#pragma once

#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// Longest row of the card in characters, the blank between its halves included.
inline constexpr int row_characters = 14;

struct CardRow {
    std::string when, what;
    std::vector<std::string> above =
        {}; // lines that belong to the row: a window of time, the first moments of a list
};

struct LegendEntry {
    std::string sign, meaning; // "3×B1", "3 swallows B1"
};

struct LegRows {
    std::vector<CardRow> rows;       // steady rhythms first, then by when they begin
    std::vector<LegendEntry> legend; // signs used in these rows, in the order of their first use
};

/// How feeds at single moments stand: each moment on its own row; moments of one kind as a list, which takes
/// fewer lines; or such lists with every food by its sign, which takes the fewest.
enum class RowForm { one_each, listed, signs };

/// The rows of one leg, shortened only as far as its longest row asks: swallows and cups first, then the
/// occasion, then the foods. What is taken at one moment stands together where that saves rows, with the
/// bottle that the feed of that moment names. A row that is still too long is split by item; a single word
/// that is too long stays as it is.
LegRows leg_rows(const Plan& plan, int leg_index, RowForm form = RowForm::one_each);

/// Lines that the rows take.
std::size_t lines_of(const std::vector<CardRow>& rows);

/// Characters of a row's last line as it is read: both halves and the blank between them.
int characters(const CardRow& row);

} // namespace tuck::faces
