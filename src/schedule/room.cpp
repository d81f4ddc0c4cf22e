#include "schedule/room.hpp"

namespace tuck::schedule {

Room::Room(const Rows& rows, const LegProgram& leg, const Grid& grid)
    : leg_(leg), grid_(grid) {
    for (auto& of_resource : rows_at_)
        of_resource.resize(grid.slots.size());
    for (size_t r = 0; r < rows.rows.size(); ++r) {
        const Row& row = rows.rows[r];
        left_.push_back(row.slack);
        last_slot_.push_back(static_cast<size_t>(row.hi));
        for (int i = row.lo; i <= row.hi; ++i)
            rows_at_[static_cast<size_t>(row.resource)][static_cast<size_t>(i)].push_back(r);
    }
}

bool Room::add(size_t slot, const Amounts& amounts) {
    bool fits = true;
    for (size_t r = 0; r < resources; ++r)
        if (amounts[r] != 0)
            for (const size_t row : rows_at_[r][slot]) {
                left_[row] -= amounts[r];
                fits = fits && left_[row] >= 0;
            }
    return fits;
}

void Room::remove(size_t slot, const Amounts& amounts) {
    for (size_t r = 0; r < resources; ++r)
        if (amounts[r] != 0)
            for (const size_t row : rows_at_[r][slot])
                left_[row] += amounts[r];
}

bool Room::take(const ItemLine& line) {
    const auto& amounts = leg_.foods[static_cast<size_t>(line.food)].amounts;
    const auto slots = slots_of(grid_, line);
    for (size_t i = 0; i < slots.size(); ++i)
        if (!add(slots[i], amounts)) {
            for (size_t j = 0; j <= i; ++j)
                remove(slots[j], amounts);
            return false;
        }
    return true;
}

void Room::give_back(const ItemLine& line) {
    const auto& amounts = leg_.foods[static_cast<size_t>(line.food)].amounts;
    for (const size_t slot : slots_of(grid_, line))
        remove(slot, amounts);
}

bool Room::take_feed(size_t slot, int food) {
    const auto& amounts = leg_.foods[static_cast<size_t>(food)].amounts;
    if (add(slot, amounts))
        return true;
    remove(slot, amounts);
    return false;
}

void Room::give_back_feed(size_t slot, int food) {
    remove(slot, leg_.foods[static_cast<size_t>(food)].amounts);
}

std::uint64_t Room::open_from(size_t slot) const {
    std::uint64_t hash = 1469598103934665603u; // FNV-1a by words, mixed
    for (size_t row = 0; row < left_.size(); ++row)
        if (last_slot_[row] >= slot) {
            hash = (hash ^ static_cast<std::uint32_t>(left_[row])) * 1099511628211u;
            hash ^= hash >> 29;
        }
    return hash;
}

} // namespace tuck::schedule
