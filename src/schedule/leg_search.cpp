#include "schedule/leg_search.hpp"

#include <algorithm>

namespace tuck::schedule {

namespace {

constexpr int most_levels = 8;
constexpr double apart_s = 75 * 60; // no rolling hour of any day holds feeds that are further apart
constexpr std::int32_t saturated = std::numeric_limits<std::int32_t>::max() / 4;

std::int32_t saturate(Cost cost) {
    return static_cast<std::int32_t>(std::min<Cost>(cost, saturated));
}

} // namespace

Room::Room(const Rows& rows, const LegProgram& leg, const Grid& grid)
    : leg_(leg), grid_(grid), by_slot_(grid.slots.size()) {
    for (size_t r = 0; r < rows.rows.size(); ++r) {
        const Row& row = rows.rows[r];
        left_.push_back(row.slack);
        last_slot_.push_back(static_cast<size_t>(row.hi));
        for (int i = row.lo; i <= row.hi; ++i)
            by_slot_[static_cast<size_t>(i)].push_back({row.resource, r});
    }
}

bool Room::add(size_t slot, const Amounts& amounts) {
    bool fits = true;
    for (const auto& [resource, row] : by_slot_[slot]) {
        left_[row] -= amounts[static_cast<size_t>(resource)];
        fits = fits && (left_[row] >= 0 || amounts[static_cast<size_t>(resource)] == 0);
    }
    return fits;
}

void Room::remove(size_t slot, const Amounts& amounts) {
    for (const auto& [resource, row] : by_slot_[slot])
        left_[row] += amounts[static_cast<size_t>(resource)];
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

bool Room::fits(size_t slot, int food) const {
    const auto& amounts = leg_.foods[static_cast<size_t>(food)].amounts;
    for (const auto& [resource, row] : by_slot_[slot])
        if (const auto amount = amounts[static_cast<size_t>(resource)]; amount > 0 && left_[row] < amount)
            return false;
    return true;
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

LowerBound::LowerBound(const LegProgram& leg, const Grid& grid, const DrinkLine& drink, const Rows& rows,
                       const std::vector<ItemLine>& lines, const std::vector<FixedItem>& fixed, int step_mg,
                       bool with_meetings)
    : leg_(leg), grid_(grid), drink_(drink), step_mg_(step_mg), with_meetings_(with_meetings) {
    std::int64_t most = 0;
    for (const auto& row : rows.rows)
        if (row.resource == carb)
            most += row.slack; // generous: rolling hours overlap
    for (const auto& food : leg.foods)
        most = std::max<std::int64_t>(most, food.amounts[carb]);
    const std::int64_t wanted = leg.checkpoints.empty() ? 0 : leg.checkpoints.back().carb_mg;
    steps_ = static_cast<size_t>(std::min(most, 2 * wanted + 60'000) / step_mg) + 2;
    if (leg.room >= 0 && leg.room <= most_levels)
        levels_ = static_cast<size_t>(leg.room) + 1;
    place_checkpoints(fixed);
    Room room_left(rows, leg, grid);
    collect_moves(lines, room_left);
    build();
}

void LowerBound::place_checkpoints(const std::vector<FixedItem>& fixed) {
    points_.resize(grid_.regular + 1);
    passing_.resize(grid_.regular + 1);
    for (const auto& point : leg_.checkpoints) {
        size_t slot = 0;
        std::int64_t base = 0;
        for (; slot < grid_.regular && grid_.slots[slot].at_s <= point.at_s; ++slot)
            if (drink_.feeds(grid_, slot))
                base += (static_cast<int>(slot) >= drink_.handed_from
                             ? leg_.station_drink
                             : leg_.drinks[static_cast<size_t>(drink_.drink)])
                            .amounts[carb] *
                        drink_.sips;
        for (const auto& item : fixed)
            if (item.leg == leg_.leg && item.at_s <= point.at_s)
                base += item.amounts[carb];
        points_[slot].push_back({point, base});
    }
    for (size_t slot = 0; slot <= grid_.regular; ++slot) {
        if (points_[slot].empty())
            continue;
        passing_[slot].assign(steps_ + 1, saturated);
        for (size_t step = 0; step < steps_; ++step) {
            const std::int64_t low = static_cast<std::int64_t>(step) * step_mg_, high = low + step_mg_ - 1;
            Cost cost = 0;
            for (const auto& [point, base] : points_[slot]) {
                const std::int64_t wanted = point.carb_mg - base;
                cost += carb_off(point, wanted < low ? low - wanted : wanted > high ? wanted - high : 0);
            }
            passing_[slot][step] = saturate(cost);
        }
    }
}

Cost LowerBound::passing(size_t slot, std::int64_t carb_mg) const {
    Cost cost = 0;
    for (const auto& [point, base] : points_[slot])
        cost += carb_off(point, point.carb_mg - base - carb_mg);
    return cost;
}

size_t LowerBound::reach(size_t last) const {
    size_t out = 0;
    while (last + 1 + out < grid_.regular && grid_.slots[last + 1 + out].at_s - grid_.slots[last].at_s <= apart_s)
        ++out;
    return out;
}

std::uint64_t LowerBound::bits_after(size_t last, const Room& room_left) const {
    const size_t foods = leg_.foods.size();
    std::uint64_t bits = 0;
    for (size_t ahead = 0; ahead < reach(last); ++ahead)
        for (size_t food = 0; food < foods; ++food) {
            const size_t bit = ahead * foods + food;
            if (bit >= 64)
                return bits; // may_follow says yes beyond
            const size_t slot = last + 1 + ahead;
            if ((grid_.slots[slot].foods >> food & 1u) && room_left.fits(slot, static_cast<int>(food)))
                bits |= std::uint64_t{1} << bit;
        }
    return bits;
}

void LowerBound::keep(const ItemLine& line, const Room& room_left) {
    const size_t last = static_cast<size_t>(line.last);
    const std::uint64_t bits = with_meetings_ ? bits_after(last, room_left) : ~std::uint64_t{0};
    auto& known = meetings_[last];
    size_t meets = 0;
    while (meets < known.size() && known[meets].bits != bits)
        ++meets;
    if (meets == known.size())
        known.push_back({bits, {}});
    const auto& amounts = leg_.foods[static_cast<size_t>(line.food)].amounts;
    moves_[static_cast<size_t>(line.first)][static_cast<size_t>(line.food)].push_back(
        {line, price_of(leg_, line), amounts[room] * line.feeds, std::int64_t{amounts[carb]} * line.feeds, meets});
}

/// Lines that differ in their length alone stand one after the other: each adds its last feeds to the one before.
void LowerBound::collect_moves(const std::vector<ItemLine>& lines, Room& room_left) {
    moves_.assign(grid_.regular + 1, std::vector<std::vector<Move>>(leg_.foods.size()));
    meetings_.resize(grid_.regular);
    for (size_t i = 0; i < lines.size();) {
        const ItemLine& head = lines[i];
        std::vector<size_t> fed;
        bool fits = true;
        for (; i < lines.size() && lines[i].first == head.first && lines[i].food == head.food &&
               lines[i].step == head.step && lines[i].single == head.single;
             ++i) {
            const auto slots = slots_of(grid_, lines[i]);
            while (fits && fed.size() < slots.size()) {
                fits = room_left.take_feed(slots[fed.size()], head.food);
                if (fits)
                    fed.push_back(slots[fed.size()]);
            }
            if (fits)
                keep(lines[i], room_left);
        }
        for (const size_t slot : fed)
            room_left.give_back_feed(slot, head.food);
    }
}

bool LowerBound::may_follow(const Move& move, size_t slot, int food) const {
    const size_t last = static_cast<size_t>(move.line.last);
    const size_t bit = (slot - last - 1) * leg_.foods.size() + static_cast<size_t>(food);
    return slot > last + reach(last) || bit >= 64 || (meetings_[last][move.meets].bits >> bit & 1u);
}

void LowerBound::relax(size_t slot, const Move& move, Columns& best) {
    const auto& line = move.line;
    const std::int64_t each = leg_.foods[static_cast<size_t>(line.food)].amounts[carb];
    const size_t last = static_cast<size_t>(line.last);
    const auto& then = meetings_[last][move.meets].least;
    const size_t items = levels_ > 1 ? static_cast<size_t>(move.items) : 0;
    std::int64_t taken_mg = 0;
    auto& cost = scratch_;
    std::fill(cost.begin(), cost.end(), saturate(move.points));
    // What was taken lies somewhere in its step, so after a feed in that step or the next.
    const auto add = [&](const Column& column, Column& to) {
        const size_t shift = std::min(steps_, static_cast<size_t>(taken_mg / step_mg_));
        const size_t wide = taken_mg % step_mg_ == 0 ? 0 : 1;
        const std::int32_t* const low = column.data() + shift;
        const std::int32_t* const high = low + wide;
        const std::int32_t* const from = cost.data();
        std::int32_t* const out = to.data();
        const size_t inside = steps_ - shift;
        if (&to == &cost) {
            for (size_t i = 0; i < inside; ++i)
                out[i] = std::min(saturated, from[i] + std::min(low[i], high[i]));
            std::fill(out + inside, out + steps_, saturated);
        } else {
            for (size_t i = 0; i < inside; ++i)
                out[i] = std::min(out[i], from[i] + std::min(low[i], high[i]));
        }
    };
    for (size_t i = slot; i <= last; ++i) {
        const bool on_beat = (i - slot) % static_cast<size_t>(line.step) == 0;
        if (on_beat && (grid_.slots[i].foods >> line.food & 1u))
            taken_mg += each;
        if (i < last && !passing_[i + 1].empty())
            add(passing_[i + 1], cost);
    }
    for (size_t used = 0; used + items < levels_; ++used)
        add(then[used + items], best[used]);
}

void LowerBound::start(size_t slot) {
    starts_[slot].assign(leg_.foods.size(), Columns(levels_, Column(steps_ + 1, saturated)));
    for (size_t food = 0; food < leg_.foods.size(); ++food)
        for (const auto& move : moves_[slot][food])
            relax(slot, move, starts_[slot][food]);
}

/// After a line: the next one may start where its first feed gets on with this one.
void LowerBound::meet(size_t last, Meeting& meeting) {
    auto& out = meeting.least;
    out.assign(levels_, Column(steps_ + 1, saturated));
    auto& paused = scratch_;
    std::fill(paused.begin(), paused.end(), 0);
    for (size_t slot = last + 1; slot <= grid_.regular; ++slot) {
        const bool apart = slot < grid_.regular && slot > last + reach(last);
        const auto relax_with = [&](const Columns& columns) {
            for (size_t used = 0; used < levels_; ++used)
                for (size_t i = 0; i < steps_; ++i)
                    out[used][i] = std::min(out[used][i], paused[i] + columns[used][i]);
        };
        if (apart) {
            relax_with(free_[slot]);
            return;
        }
        if (!passing_[slot].empty())
            for (size_t i = 0; i < steps_; ++i)
                paused[i] = std::min(saturated, paused[i] + passing_[slot][i]);
        if (slot == grid_.regular) {
            for (auto& column : out)
                for (size_t i = 0; i < steps_; ++i)
                    column[i] = std::min(column[i], paused[i]);
            return;
        }
        for (size_t food = 0; food < leg_.foods.size(); ++food) {
            const size_t bit = (slot - last - 1) * leg_.foods.size() + food;
            if (!moves_[slot][food].empty() && (bit >= 64 || (meeting.bits >> bit & 1u)))
                relax_with(starts_[slot][food]);
        }
    }
}

void LowerBound::build() {
    scratch_.resize(steps_ + 1);
    free_.resize(grid_.regular + 1);
    starts_.resize(grid_.regular);
    Column zero(steps_ + 1, 0);
    zero.back() = saturated;
    for (size_t slot = grid_.regular + 1; slot-- > 0;) {
        const Column& here = passing_[slot].empty() ? zero : passing_[slot];
        if (slot == grid_.regular) {
            free_[slot].assign(levels_, here);
            continue;
        }
        for (auto& meeting : meetings_[slot])
            meet(slot, meeting);
        start(slot);
        free_[slot] = free_[slot + 1];
        for (size_t used = 0; used < levels_; ++used) {
            auto& column = free_[slot][used];
            for (const auto& columns : starts_[slot])
                for (size_t i = 0; i < steps_; ++i)
                    column[i] = std::min(column[i], columns[used][i]);
            for (size_t i = 0; i < steps_; ++i)
                column[i] = std::min(saturated, column[i] + here[i]);
        }
    }
}

Cost LowerBound::look_up(const Columns& columns, std::int64_t carb_mg, int items) const {
    const size_t step = static_cast<size_t>(carb_mg / step_mg_);
    const size_t used = levels_ > 1 ? static_cast<size_t>(items) : 0;
    return used < columns.size() && step < steps_ ? columns[used][step] : saturated;
}

Cost LowerBound::least() const {
    Cost best = 0, paused = 0;
    for (size_t slot = 0; slot <= grid_.regular; ++slot)
        best += passing(slot, 0); // nothing eaten
    for (size_t slot = 0; slot < grid_.regular; ++slot) {
        paused += passing(slot, 0);
        for (size_t food = 0; food < leg_.foods.size(); ++food)
            best = std::min(best, paused + leg_.foods[food].points + starting(slot, static_cast<int>(food), 0, 0));
    }
    return best;
}

Cost LowerBound::after(const Move& move, std::int64_t carb_mg, int items) const {
    return look_up(meetings_[static_cast<size_t>(move.line.last)][move.meets].least, carb_mg, items);
}

Cost LowerBound::starting(size_t slot, int food, std::int64_t carb_mg, int items) const {
    return look_up(starts_[slot][static_cast<size_t>(food)], carb_mg, items);
}

} // namespace tuck::schedule
