// The item lines of a leg, listed once for all drink lines.
#pragma once

#include "schedule/program.hpp"

#include <span>
#include <vector>

namespace tuck::schedule {

/// A line that may be chosen, with all that does not hang on the drink.
struct Move {
    ItemLine line;
    Cost points = 0; // without its kind
    int items = 0;   // from the belt
    std::int64_t carb_mg = 0;
    size_t group = 0; // lines of one food and step from one slot: each is the one before and a feed more
    std::span<const size_t> slots; // at which it feeds, extra ones included
};

/// Every item line of a leg on a grid, by first slot, food, step and length.
class Moves {
public:
    Moves(const LegProgram& leg, const Grid& grid);
    const std::vector<Move>& all() const { return moves_; }
    size_t groups() const { return groups_; }

private:
    std::vector<std::vector<size_t>> slots_;
    std::vector<Move> moves_;
    size_t groups_ = 1;
};

} // namespace tuck::schedule
