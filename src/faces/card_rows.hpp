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
};

struct LegendEntry {
    std::string sign, meaning; // "3×B1", "3 swallows B1"
};

struct LegRows {
    std::vector<CardRow> rows;       // steady rhythms first, then by moment or kilometre
    std::vector<LegendEntry> legend; // signs used in these rows, in the order of their first use
};

/// The rows of one leg, shortened only as far as its longest row asks: swallows and cups first, then the
/// occasion, then the foods. A list of moments that does not fit becomes one row for each moment, with the
/// bottle that the feed of that moment names. A row that is still too long is split by item; a single word
/// that is too long stays as it is.
LegRows leg_rows(const Plan& plan, int leg_index);

/// Characters of a row as it is read: both halves and the blank between them.
int characters(const CardRow& row);

} // namespace tuck::faces
