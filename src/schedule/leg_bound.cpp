#include "schedule/leg_bound.hpp"

#include <algorithm>

namespace tuck::schedule {

namespace {

constexpr size_t most_levels = 8;

std::int32_t saturate(Cost cost) {
    return static_cast<std::int32_t>(std::min<Cost>(cost, out_of_reach));
}

/// More than any item lines can bring: rolling hours side by side.
std::int64_t most_carb_mg(const Rows& rows, const LegProgram& leg, const Grid& grid) {
    std::int64_t most = 0, largest = 0;
    for (const auto& food : leg.foods)
        largest = std::max<std::int64_t>(largest, food.amounts[carb]);
    for (int slot = 0; slot < static_cast<int>(grid.regular);) {
        const Row* widest = nullptr;
        for (const auto& row : rows.rows)
            if (row.resource == carb && row.lo <= slot && row.hi >= slot && (!widest || row.hi > widest->hi))
                widest = &row;
        most += widest ? widest->slack : largest;
        slot = widest ? widest->hi + 1 : slot + 1;
    }
    return std::max(most, largest);
}

} // namespace

LegBound::LegBound(const LegProgram& leg, const Grid& grid, const DrinkLine& drink, const Rows& rows,
                   const Moves& moves, const std::vector<FixedItem>& fixed, Precision precision)
    : leg_(leg), grid_(grid), drink_(drink), precision_(precision), room_(rows, leg, grid),
      groups_(moves.groups()) {
    const std::int64_t wanted = leg.checkpoints.empty() ? 0 : leg.checkpoints.back().carb_mg;
    steps_ = static_cast<size_t>(std::min(most_carb_mg(rows, leg, grid), 2 * wanted + 60'000) /
                                 precision.step_mg) +
             2;
    if (leg.room >= 0 && leg.room <= static_cast<std::int32_t>(most_levels))
        levels_ = static_cast<size_t>(leg.room) + 1;
    wide_ = steps_ + 1;
    tails_.resize(1);
    place_checkpoints(fixed);
    liken_foods();
    link_slots(rows);
    collect_moves(moves);
    build();
    by_group_ = {}; // most of the memory, and only for building
}

void LegBound::place_checkpoints(const std::vector<FixedItem>& fixed) {
    points_.resize(grid_.regular + 1);
    passing_.resize(grid_.regular + 1);
    for (const auto& point : leg_.checkpoints) {
        size_t slot = 0;
        std::int64_t base = 0;
        for (; slot < grid_.regular && grid_.slots[slot].at_s <= point.at_s; ++slot)
            if (drink_.feeds(grid_, slot))
                base += leg_.drink_at(drink_, slot).amounts[carb] * drink_.sips;
        for (const auto& item : fixed)
            if (item.leg == leg_.leg && item.at_s <= point.at_s)
                base += item.amounts[carb];
        points_[slot].push_back({point, base});
    }
    for (size_t slot = 0; slot <= grid_.regular; ++slot) {
        if (points_[slot].empty())
            continue;
        passing_[slot].assign(steps_ + 1, out_of_reach);
        for (size_t step = 0; step < steps_; ++step) {
            const std::int64_t low = static_cast<std::int64_t>(step) * precision_.step_mg;
            const std::int64_t high = low + precision_.step_mg - 1;
            Cost cost = 0;
            for (const auto& [point, base] : points_[slot]) {
                const std::int64_t wanted = point.carb_mg - base;
                cost += carb_off(point, wanted < low ? low - wanted : wanted > high ? wanted - high : 0);
            }
            passing_[slot][step] = saturate(cost);
        }
    }
}

/// Lines that differ in their length alone stand one after the other: each adds its last feeds to the one
/// before.
void LegBound::collect_moves(const Moves& moves) {
    const auto& all = moves.all();
    const size_t foods = leg_.foods.size();
    moves_from_.assign(grid_.regular * foods + 1, 0);
    size_t at = 0; // of slot and food
    for (size_t i = 0; i < all.size();) {
        const Move& head = all[i];
        for (const size_t here =
                 static_cast<size_t>(head.line.first) * foods + static_cast<size_t>(head.line.food);
             at < here;)
            moves_from_[++at] = moves_.size();
        size_t fed = 0;
        std::span<const size_t> longest = head.slots;
        bool fits = true;
        for (; i < all.size() && all[i].line.first == head.line.first && all[i].group == head.group; ++i) {
            if (!fits)
                continue;
            while (fits && fed < all[i].slots.size()) {
                fits = room_.take_feed(all[i].slots[fed], head.line.food);
                fed += fits ? 1 : 0;
            }
            longest = all[i].slots;
            if (fits)
                moves_.push_back(&all[i]);
        }
        for (size_t j = 0; j < fed; ++j)
            room_.give_back_feed(longest[j], head.line.food);
    }
    while (at + 1 < moves_from_.size())
        moves_from_[++at] = moves_.size();
}

std::span<const Move* const> LegBound::moves(size_t slot, int food) const {
    const size_t at = slot * leg_.foods.size() + static_cast<size_t>(food);
    return {moves_.data() + moves_from_[at], moves_.data() + moves_from_[at + 1]};
}

LegBound::Columns LegBound::nothing_yet() const {
    return Columns(levels_ * wide_, out_of_reach);
}

const LegBound::Columns& LegBound::columns_of(size_t last, Tail tail) const {
    return tail == 0 ? free_[last + 1] : tails_[tail].least;
}

void LegBound::lower(Columns& out, const Column& paused, const Columns& by) {
    work_ += static_cast<long long>(levels_ * (1 + steps_ / 256));
    for (size_t used = 0; used < levels_; ++used) {
        std::int32_t* const to = out.data() + used * wide_;
        const std::int32_t* const from = by.data() + used * wide_;
        const std::int32_t* const before = paused.data();
        for (size_t i = 0; i < steps_; ++i)
            to[i] = std::min(to[i], before[i] + from[i]);
    }
}

void LegBound::relax(size_t slot, const Move& move, const Columns& then, Columns& best) {
    const auto& line = move.line;
    const std::int64_t each = leg_.foods[static_cast<size_t>(line.food)].amounts[carb];
    const size_t last = static_cast<size_t>(line.last);
    const size_t items = levels_ > 1 ? static_cast<size_t>(move.items) : 0;
    std::int64_t taken_mg = 0;
    auto& cost = scratch_;
    std::fill(cost.begin(), cost.end(), saturate(move.points));
    work_ += static_cast<long long>(levels_ * (1 + steps_ / 256));
    // What was taken lies somewhere in its step, so after a feed in that step or the next.
    const auto add = [&](const std::int32_t* column, std::int32_t* const out) {
        const size_t shift = std::min(steps_, static_cast<size_t>(taken_mg / precision_.step_mg));
        const size_t wide = taken_mg % precision_.step_mg == 0 ? 0 : 1;
        const std::int32_t* const low = column + shift;
        const std::int32_t* const high = low + wide;
        const std::int32_t* const from = cost.data();
        const size_t inside = steps_ - shift;
        if (out == cost.data()) {
            for (size_t i = 0; i < inside; ++i)
                out[i] = std::min(out_of_reach, from[i] + std::min(low[i], high[i]));
            std::fill(out + inside, out + steps_, out_of_reach);
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
            add(passing_[i + 1].data(), cost.data());
    }
    for (size_t used = 0; used + items < levels_; ++used)
        add(then.data() + (used + items) * wide_, best.data() + used * wide_);
}

void LegBound::start(size_t slot) {
    starts_[slot].assign(leg_.foods.size(), nothing_yet());
    by_group_[slot].resize(groups_);
    const size_t looked_back = slot == 0 ? 0 : reaches_[slot - 1];
    const Column zero(steps_ + 1, 0);
    for (size_t food = 0; food < leg_.foods.size(); ++food)
        for (const Move* at : moves(slot, static_cast<int>(food))) {
            const Move& move = *at;
            const auto last = static_cast<size_t>(move.line.last);
            const Tail tail = tail_of(last, feeds_after({}, move));
            auto& starts = by_group_[slot][move.group];
            const bool apart = last < looked_back && slot > 0;
            if (!precision_.tails) {
                relax(slot, move, free_[last + 1], starts_[slot][food]);
                continue;
            }
            if (apart) {
                starts.single.push_back(nothing_yet());
                relax(slot, move, columns_of(last, tail), starts.single.back());
                lower(starts_[slot][food], zero, starts.single.back());
                continue;
            }
            if (!starts.any_rest)
                starts.rest = nothing_yet();
            starts.any_rest = true;
            relax(slot, move, columns_of(last, tail), starts.rest);
        }
    if (precision_.tails)
        for (size_t food = 0; food < leg_.foods.size(); ++food)
            for (size_t group = food; group < groups_; group += leg_.foods.size())
                if (by_group_[slot][group].any_rest)
                    lower(starts_[slot][food], zero, by_group_[slot][group].rest);
}

void LegBound::build() {
    scratch_.resize(steps_ + 1);
    free_.resize(grid_.regular + 1);
    starts_.resize(grid_.regular);
    by_group_.resize(grid_.regular);
    Column zero(steps_ + 1, 0);
    zero.back() = out_of_reach;
    for (size_t slot = grid_.regular + 1; slot-- > 0;) {
        const Column& here = passing_[slot].empty() ? zero : passing_[slot];
        if (slot == grid_.regular) {
            for (size_t used = 0; used < levels_; ++used)
                free_[slot].insert(free_[slot].end(), here.begin(), here.end());
            continue;
        }
        start(slot);
        free_[slot] = free_[slot + 1];
        for (size_t used = 0; used < levels_; ++used) {
            std::int32_t* const column = free_[slot].data() + used * wide_;
            for (const auto& columns : starts_[slot])
                for (size_t i = 0; i < steps_; ++i)
                    column[i] = std::min(column[i], columns[used * wide_ + i]);
            for (size_t i = 0; i < steps_; ++i)
                column[i] = std::min(out_of_reach, column[i] + here[i]);
        }
    }
}

Cost LegBound::look_up(const Columns& columns, std::int64_t carb_mg, int items) const {
    const size_t step = static_cast<size_t>(carb_mg / precision_.step_mg);
    const size_t used = levels_ > 1 ? static_cast<size_t>(items) : 0;
    return used < levels_ && step < steps_ ? columns[used * wide_ + step] : out_of_reach;
}

Cost LegBound::passing(size_t slot, std::int64_t carb_mg) const {
    Cost cost = 0;
    for (const auto& [point, base] : points_[slot])
        cost += carb_off(point, point.carb_mg - base - carb_mg);
    return cost;
}

Cost LegBound::cost_of(const Move& move, std::int64_t carb_mg) const {
    const auto& line = move.line;
    Cost cost = move.points;
    for (int i = line.first; i < line.last; ++i) {
        const bool on_beat = (i - line.first) % line.step == 0;
        if (on_beat && (grid_.slots[static_cast<size_t>(i)].foods >> line.food & 1u))
            carb_mg += leg_.foods[static_cast<size_t>(line.food)].amounts[carb];
        cost += passing(static_cast<size_t>(i) + 1, carb_mg);
    }
    return cost;
}

Cost LegBound::least() const {
    Cost best = 0, paused = 0;
    for (size_t slot = 0; slot <= grid_.regular; ++slot)
        best += passing(slot, 0); // nothing eaten
    for (size_t slot = 0; slot < grid_.regular; ++slot) {
        paused += passing(slot, 0);
        for (size_t food = 0; food < leg_.foods.size(); ++food)
            best = std::min(best,
                            paused + leg_.foods[food].points + starting(slot, static_cast<int>(food), 0, 0));
    }
    return best;
}

Cost LegBound::after(size_t last, Tail tail, std::int64_t carb_mg, int items) const {
    return look_up(columns_of(last, tail), carb_mg, items);
}

Cost LegBound::starting(size_t slot, int food, std::int64_t carb_mg, int items) const {
    return look_up(starts_[slot][static_cast<size_t>(food)], carb_mg, items);
}

} // namespace tuck::schedule
