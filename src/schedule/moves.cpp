#include "schedule/moves.hpp"

namespace tuck::schedule {

Moves::Moves(const LegProgram& leg, const Grid& grid) {
    size_t g = 0;
    while (&leg.grids[g] != &grid)
        ++g;
    const auto lines = item_lines(leg, g);
    slots_.reserve(lines.size());
    moves_.reserve(lines.size());
    for (const auto& line : lines) {
        const auto& amounts = leg.foods[static_cast<size_t>(line.food)].amounts;
        const size_t step = line.single ? 0 : static_cast<size_t>(line.step);
        const size_t group = static_cast<size_t>(line.food) + step * leg.foods.size();
        groups_ = std::max(groups_, group + 1);
        slots_.push_back(slots_of(grid, line));
        moves_.push_back({line, price_of(leg, line), amounts[room] * line.feeds,
                          std::int64_t{amounts[carb]} * line.feeds, group, slots_.back()});
    }
}

} // namespace tuck::schedule
