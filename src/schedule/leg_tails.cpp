// What the feeds of the last hour leave to the next ones: the part of LegBound that looks back.
#include "schedule/leg_bound.hpp"

#include <algorithm>
#include <cstdlib>

namespace tuck::schedule {

namespace {

constexpr double hour_span_s = 75 * 60; // a rolling hour of any day, from its first slot to its last
constexpr std::uint8_t all_fit = 255;
// A tail in 64 bits: its last slot, how many feeds, and each feed by slots back and food. More is forgotten.
constexpr size_t most_feeds = 3, most_back = 16, most_likes = 16;
constexpr std::int32_t alike_carb_mg = 6000;
constexpr long long most_table_work = 400'000; // then new tails are forgotten: the bound is lower, and still one

} // namespace

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
    if (work_ > most_table_work)
        return 0;
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
                    record.fits[(slot - last - 1) * groups_ + of_food[i]->group] =
                        fitting(*of_food[i], reach);
        }
    for (const auto& fed : record.feeds)
        room_.give_back_amounts(fed.slot, likes_[fed.like]);
    Column paused(steps_ + 1, 0);
    for (size_t slot = last + 1; slot <= grid_.regular; ++slot) {
        if (slot > reach)
            return lower(record.least, paused, free_[slot]);
        if (!passing_[slot].empty())
            for (size_t i = 0; i < steps_; ++i)
                paused[i] = std::min(out_of_reach, paused[i] + passing_[slot][i]);
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
                const Tail tail =
                    tail_of(static_cast<size_t>(move.line.last), feeds_after(record.feeds, move));
                Columns own = nothing_yet();
                relax(slot, move, columns_of(static_cast<size_t>(move.line.last), tail), own);
                lower(record.least, paused, own);
            }
            if (fits == all_fit && starts.any_rest)
                lower(record.least, paused, starts.rest);
        }
    }
}

} // namespace tuck::schedule
