#include "schedule/leg_bound.hpp"

#include <algorithm>
#include <cstdlib>

namespace tuck::schedule {

namespace {

constexpr size_t most_levels = 8;
constexpr double hour_span_s = 75 * 60; // a rolling hour of any day, from its first slot to its last
constexpr std::int32_t saturated = std::numeric_limits<std::int32_t>::max() / 4;
constexpr std::uint8_t all_fit = 255;
// A tail in 64 bits: its last slot, how many feeds, and each feed by slots back and food. More is forgotten.
constexpr size_t most_feeds = 3, most_back = 16, most_likes = 16;
constexpr std::int32_t alike_carb_mg = 6000;

std::int32_t saturate(Cost cost) {
    return static_cast<std::int32_t>(std::min<Cost>(cost, saturated));
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

LegBound::LegBound(const LegProgram& leg, const Grid& grid, const DrinkLine& drink, const Rows& rows,
                   const Moves& moves, const std::vector<FixedItem>& fixed, Precision precision)
    : leg_(leg), grid_(grid), drink_(drink), precision_(precision), room_(rows, leg, grid), groups_(moves.groups()) {
    const std::int64_t wanted = leg.checkpoints.empty() ? 0 : leg.checkpoints.back().carb_mg;
    steps_ = static_cast<size_t>(std::min(most_carb_mg(rows, leg, grid), 2 * wanted + 60'000) / precision.step_mg) + 2;
    if (leg.room >= 0 && leg.room <= static_cast<std::int32_t>(most_levels))
        levels_ = static_cast<size_t>(leg.room) + 1;
    wide_ = steps_ + 1;
    tails_.resize(1);
    place_checkpoints(fixed);
    liken_foods();
    link_slots(rows);
    collect_moves(moves);
    build();
}

void LegBound::place_checkpoints(const std::vector<FixedItem>& fixed) {
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

void LegBound::liken_foods() {
    for (const auto& food : leg_.foods) {
        size_t like = 0;
        const auto alike = [&](const Amounts& other) {
            return std::abs(other[carb] - food.amounts[carb]) <= alike_carb_mg &&
                   (other[gel_water] > 0) == (food.amounts[gel_water] > 0);
        };
        while (like < likes_.size() && !alike(likes_[like]))
            ++like;
        if (like == likes_.size())
            likes_.push_back(food.amounts);
        for (size_t r = 0; r < resources; ++r)
            likes_[like][r] = std::min(likes_[like][r], food.amounts[r]);
        like_of_.push_back(like);
    }
}

/// Which slots share a rolling hour: a limit on one speaks against a feed at the other.
void LegBound::link_slots(const Rows& rows) {
    reaches_.resize(grid_.slots.size());
    for (size_t slot = 0; slot < reaches_.size(); ++slot)
        reaches_[slot] = slot;
    if (!precision_.tails)
        return;
    for (const auto& row : rows.rows) {
        const auto lo = static_cast<size_t>(row.lo), hi = static_cast<size_t>(row.hi);
        if (grid_.slots[hi].at_s - grid_.slots[lo].at_s > hour_span_s)
            continue;
        for (size_t slot = lo; slot <= hi; ++slot)
            reaches_[slot] = std::max(reaches_[slot], hi);
    }
    for (size_t slot = 1; slot < reaches_.size(); ++slot) // so that what comes later reaches as far
        reaches_[slot] = std::max(reaches_[slot], reaches_[slot - 1]);
}

/// Lines that differ in their length alone stand one after the other: each adds its last feeds to the one before.
void LegBound::collect_moves(const Moves& moves) {
    const auto& all = moves.all();
    const size_t foods = leg_.foods.size();
    moves_from_.assign(grid_.regular * foods + 1, 0);
    size_t at = 0; // of slot and food
    for (size_t i = 0; i < all.size();) {
        const Move& head = all[i];
        for (const size_t here = static_cast<size_t>(head.line.first) * foods + static_cast<size_t>(head.line.food);
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

LegBound::Feeds LegBound::feeds_after(const Feeds& before, const Move& move) const {
    Feeds out;
    const auto last = static_cast<size_t>(move.line.last);
    for (const auto& fed : before)
        if (reaches_[fed.slot] > last)
            out.push_back(fed);
    for (const size_t slot : move.slots)
        if (slot < grid_.regular && reaches_[slot] > last && last - slot < most_back)
            out.push_back({slot, like_of_[static_cast<size_t>(move.line.food)]});
    if (out.size() > most_feeds)
        out.erase(out.begin(), out.end() - most_feeds);
    return out;
}

std::uint64_t LegBound::key_of(size_t last, const Feeds& feeds) const {
    std::uint64_t key = last << 3 | feeds.size();
    for (const auto& fed : feeds)
        key = key << 8 | (last - fed.slot) << 4 | fed.like;
    return key;
}

Tail LegBound::tail_of(size_t last, const Feeds& feeds) {
    if (feeds.empty() || likes_.size() > most_likes)
        return 0;
    const auto key = key_of(last, feeds);
    if (const auto at = known_.find(key); at != known_.end())
        return at->second;
    TailRecord record;
    record.feeds = feeds;
    fill(last, record);
    tails_.push_back(std::move(record));
    const auto tail = static_cast<Tail>(tails_.size() - 1);
    known_.emplace(key, tail);
    return tail;
}

Tail LegBound::tail_after(Tail tail, const Move& move) const {
    const auto feeds = feeds_after(tails_[tail].feeds, move);
    if (feeds.empty())
        return 0;
    const auto at = known_.find(key_of(static_cast<size_t>(move.line.last), feeds));
    return at == known_.end() ? 0 : at->second;
}

bool LegBound::may_follow(Tail tail, size_t last, const Move& move) const {
    const auto& fits = tails_[tail].fits;
    const size_t at = (static_cast<size_t>(move.line.first) - last - 1) * groups_ + move.group;
    return at >= fits.size() || fits[at] == all_fit || move.slots.size() <= fits[at];
}

/// How many feeds of a line get on with what the room holds, up to `reach`.
std::uint8_t LegBound::fitting(const Move& longest, size_t reach) {
    ++work_;
    size_t taken = 0;
    while (taken < longest.slots.size() && longest.slots[taken] <= reach &&
           room_.take_feed(longest.slots[taken], longest.line.food))
        ++taken;
    for (size_t i = 0; i < taken; ++i)
        room_.give_back_feed(longest.slots[i], longest.line.food);
    return taken == longest.slots.size() || longest.slots[taken] > reach ? all_fit
                                                                         : static_cast<std::uint8_t>(taken);
}

/// What may come after a tail: while it matters, slot by slot; then anything.
void LegBound::fill(size_t last, TailRecord& record) {
    record.least = nothing_yet();
    size_t reach = last;
    for (const auto& fed : record.feeds) {
        reach = std::max(reach, reaches_[fed.slot]);
        room_.take_amounts(fed.slot, likes_[fed.like]);
    }
    reach = std::min(reach, grid_.regular - 1);
    record.fits.assign((reach - last) * groups_, 0);
    for (size_t slot = last + 1; slot <= reach; ++slot)
        for (size_t food = 0; food < leg_.foods.size(); ++food) {
            const auto of_food = moves(slot, static_cast<int>(food));
            if (of_food.empty() || !room_.take_feed(slot, static_cast<int>(food)))
                continue; // no line can start there
            room_.give_back_feed(slot, static_cast<int>(food));
            for (size_t i = 0; i < of_food.size(); ++i)
                if (i + 1 == of_food.size() || of_food[i + 1]->group != of_food[i]->group)
                    record.fits[(slot - last - 1) * groups_ + of_food[i]->group] = fitting(*of_food[i], reach);
        }
    for (const auto& fed : record.feeds)
        room_.give_back_amounts(fed.slot, likes_[fed.like]);
    Column paused(steps_ + 1, 0);
    for (size_t slot = last + 1; slot <= grid_.regular; ++slot) {
        if (slot > reach)
            return lower(record.least, paused, free_[slot]);
        if (!passing_[slot].empty())
            for (size_t i = 0; i < steps_; ++i)
                paused[i] = std::min(saturated, paused[i] + passing_[slot][i]);
        follow(last, slot, reach, record, paused);
    }
}

/// Lines from `slot` on that get on with the tail. Those that outlast it need not look back.
void LegBound::follow(size_t last, size_t slot, size_t reach, TailRecord& record, const Column& paused) {
    for (size_t food = 0; food < leg_.foods.size(); ++food) {
        const auto of_food = moves(slot, static_cast<int>(food));
        for (size_t i = 0; i < of_food.size();) {
            const size_t group = of_food[i]->group;
            const auto& starts = by_group_[slot][group];
            const auto fits = record.fits[(slot - last - 1) * groups_ + group];
            for (size_t k = 0; i < of_food.size() && of_food[i]->group == group; ++i, ++k) {
                const auto& move = *of_food[i];
                if (k >= starts.single.size() || (fits != all_fit && move.slots.size() > fits))
                    continue;
                if (static_cast<size_t>(move.line.last) >= reach) {
                    lower(record.least, paused, starts.single[k]);
                    continue;
                }
                const Tail tail = tail_of(static_cast<size_t>(move.line.last), feeds_after(record.feeds, move));
                Columns own = nothing_yet();
                relax(slot, move, columns_of(static_cast<size_t>(move.line.last), tail), own);
                lower(record.least, paused, own);
            }
            if (fits == all_fit && starts.any_rest)
                lower(record.least, paused, starts.rest);
        }
    }
}

LegBound::Columns LegBound::nothing_yet() const {
    return Columns(levels_ * wide_, saturated);
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
    zero.back() = saturated;
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
                column[i] = std::min(saturated, column[i] + here[i]);
        }
    }
}

Cost LegBound::look_up(const Columns& columns, std::int64_t carb_mg, int items) const {
    const size_t step = static_cast<size_t>(carb_mg / precision_.step_mg);
    const size_t used = levels_ > 1 ? static_cast<size_t>(items) : 0;
    return used < levels_ && step < steps_ ? columns[used * wide_ + step] : saturated;
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
            best = std::min(best, paused + leg_.foods[food].points + starting(slot, static_cast<int>(food), 0, 0));
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
