#include "schedule/rows.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tuck::schedule {

namespace {

constexpr double hour_s = 3600;
constexpr double tick_s = 1e-6;

Rule rule_of(int resource) {
    switch (resource) {
    case carb:
        return Rule::carb;
    case glucose:
        return Rule::glucose;
    case fructose:
        return Rule::fructose;
    case fluid:
        return Rule::fluid_hour;
    case caffeine:
        return Rule::caffeine;
    case gel_water:
    case gel:
        return Rule::gel_water;
    default:
        return Rule::supply;
    }
}

std::int32_t floor_mg(double g) {
    return static_cast<std::int32_t>(std::floor(g * 1000 + 1e-3));
}

class Builder {
public:
    Builder(const Program& program, const LegProgram& leg, const Grid& grid, const DrinkLine& line,
            const std::vector<Other>& others)
        : program_(program), leg_(leg), grid_(grid), line_(line), others_(others), slots_(grid.slots.size()),
          tightest_(resources * slots_ * slots_, unlimited) {
        for (const auto& food : leg.foods)
            thirsty_ = thirsty_ || food.amounts[gel_water] > 0;
        for (size_t i = 0; i < grid.slots.size(); ++i) {
            drunk_.push_back(drink_at(i));
            concentrated_.push_back(line.feeds(grid, i) && leg.drink_at(line, i).concentrated);
        }
        sum_up_most();
    }

    Rows build() {
        for (day_ = fast; day_ < days && !out_.broken; ++day_) {
            collect_slots();
            gut();
            drink_and_caffeine_by_the_hour();
            if (there_.empty()) {
                fixed_alone();
                continue;
            }
            caffeine_of_the_day();
            whole_leg();
            drink_below_sweat();
            water_for_gels();
        }
        if (out_.broken)
            return out_;
        supplies();
        no_gel_with_concentrate();
        list_rows();
        return out_;
    }

private:
    Amounts drink_at(size_t slot) const {
        Amounts out{};
        if (!line_.feeds(grid_, slot))
            return out;
        for (size_t r = 0; r < resources; ++r)
            out[r] = leg_.drink_at(line_, slot).amounts[r] * line_.sips;
        return out;
    }

    /// The most that items can bring from the first slot on: one at each slot.
    void sum_up_most() {
        most_.assign(grid_.slots.size() + 1, {});
        for (size_t i = 0; i < grid_.slots.size(); ++i)
            for (size_t r = 0; r < resources; ++r) {
                std::int64_t most = 0;
                for (size_t food = 0; food < leg_.foods.size(); ++food)
                    if (grid_.slots[i].foods >> food & 1u)
                        most = std::max<std::int64_t>(most, leg_.foods[food].amounts[r]);
                most_[i + 1][r] = most_[i][r] + most;
            }
    }

    double clock(size_t slot) const { return grid_.slots[slot].clock_s[day_]; }

    void collect_slots() {
        there_.clear();
        for (size_t i = 0; i < grid_.slots.size(); ++i)
            if (clock(i) >= 0)
                there_.push_back(i);
        // What waits for a clear road may be overtaken, on a slow day, by what comes by the clock.
        in_time_ = there_;
        std::stable_sort(in_time_.begin(), in_time_.end(),
                         [this](size_t a, size_t b) { return clock(a) < clock(b); });
    }

    void break_(Rule rule) {
        if (!out_.broken)
            out_.broken_rule = rule;
        out_.broken = true;
    }

    bool needs_water(const FixedItem& item) const {
        return item.leg == leg_.leg && item.clock_s[day_] >= 0 && item.amounts[gel_water] > 0;
    }

    /// A rhythm without one moment on this day leaves nothing to drink to a gel.
    void fixed_alone() {
        if (std::any_of(program_.fixed.begin(), program_.fixed.end(),
                        [this](const FixedItem& item) { return needs_water(item); }))
            break_(Rule::gel_water);
        for (const auto& other : others_)
            if (on_this_leg(other) && sweat_left(other.clock_s[day_]) < 0)
                break_(Rule::fluid_sweat);
    }

    bool on_this_leg(const Other& other) const {
        const double at = other.clock_s[day_], start = leg_.start_s[day_];
        return at >= 0 && at >= start && at <= start + leg_.length_s[day_];
    }

    void add(int resource, size_t lo, size_t hi, std::int64_t slack) {
        if (slack < 0)
            break_(rule_of(resource));
        const auto r = static_cast<size_t>(resource);
        if (slack >= most_[hi + 1][r] - most_[lo][r] && slack >= 0)
            return; // never binds
        auto& known = tightest(r, lo, hi);
        known = static_cast<std::int32_t>(std::min<std::int64_t>(slack, known));
    }

    /// Starts of windows that hold a slot of this leg, or what is fixed on it.
    std::vector<double> starts(double span_s) const {
        std::vector<double> out;
        for (const size_t i : there_)
            out.push_back(clock(i));
        for (const auto& other : others_) {
            const double at = other.clock_s[day_];
            const bool before_a_slot =
                !there_.empty() && at > clock(in_time_.front()) - span_s && at <= clock(in_time_.back());
            if (at >= 0 && (before_a_slot || on_this_leg(other)))
                out.push_back(at);
        }
        return out;
    }

    /// What is known to be taken in [from, to), and the slots in it.
    struct Window {
        Amounts sum{};
        bool slots = false;
        size_t lo = 0, hi = 0;
    };
    Window window(double from, double to) const {
        Window out;
        for (const size_t i : there_)
            if (clock(i) >= from - tick_s && clock(i) < to) {
                out.lo = out.slots ? std::min(out.lo, i) : i;
                out.hi = i;
                out.slots = true;
                for (size_t r = 0; r < gel_water; ++r)
                    out.sum[r] += drunk_[i][r];
            }
        for (const auto& other : others_)
            if (other.clock_s[day_] >= from - tick_s && other.clock_s[day_] < to)
                for (size_t r = 0; r < gel_water; ++r)
                    out.sum[r] += other.amounts[r];
        return out;
    }

    /// A window without a slot holds what is fixed.
    void hold(Resource r, const Window& w, std::int64_t most) {
        if (w.slots)
            add(r, w.lo, w.hi, most - w.sum[r]);
        else if (w.sum[r] > most)
            break_(rule_of(r));
    }

    void gut() {
        for (const double from : starts(2 * hour_s)) {
            const Caps& caps = caps_at(program_, day_, from);
            for (const int hours : {1, 2}) {
                const Window w = window(from, from + hours * hour_s - tick_s);
                for (const Resource r : {carb, glucose, fructose})
                    hold(r, w, (hours == 1 ? caps.hour : caps.two_hours)[r]);
            }
        }
    }

    void drink_and_caffeine_by_the_hour() {
        for (const double from : starts(hour_s)) {
            const Window w = window(from, from + hour_s - tick_s);
            hold(fluid, w, floor_mg(hour_of_drink_ml(program_, leg_, day_, from)));
            if (w.sum[caffeine] > 0 || any_caffeine())
                hold(caffeine, w, floor_mg(program_.limits.caffeine_dose_mg));
        }
    }

    void caffeine_of_the_day() {
        if (any_caffeine()) {
            std::int64_t sum = 0;
            for (const size_t i : there_)
                sum += drunk_[i][caffeine];
            for (const auto& other : others_)
                sum += other.amounts[caffeine];
            add(caffeine, 0, grid_.slots.size() - 1, floor_mg(program_.limits.caffeine_day_mg) - sum);
        }
    }

    /// The leg as a whole: its rate, and its ceiling with what was drunk in the transition before it.
    void whole_leg() {
        if (day_ == fast)
            return;
        const double start = leg_.start_s[day_], end = start + leg_.length_s[day_];
        const size_t lo = there_.front(), hi = there_.back();
        const Window own = window(start, end + tick_s);
        if (day_ == likely)
            for (const Resource r : {carb, glucose, fructose})
                add(r, lo, hi, leg_.caps.leg[r] - own.sum[r]);
        const Budget budget = fluid_budget(program_, leg_, day_);
        add(fluid, lo, hi, floor_mg(budget.ml) - window(budget.from_s, end + tick_s).sum[fluid]);
    }

    bool any_caffeine() const {
        return std::any_of(drunk_.begin(), drunk_.end(), [](const Amounts& a) { return a[caffeine] > 0; }) ||
               std::any_of(leg_.foods.begin(), leg_.foods.end(),
                           [](const FoodChoice& f) { return f.amounts[caffeine] > 0; }) ||
               std::any_of(others_.begin(), others_.end(),
                           [](const Other& o) { return o.amounts[caffeine] > 0; });
    }

    /// Of what was sweated by then, what is left when all that is known was drunk.
    std::int64_t sweat_left(double at) const {
        std::int64_t sum = 0;
        for (const size_t i : there_)
            if (clock(i) <= at + tick_s)
                sum += drunk_[i][fluid];
        for (const auto& other : others_)
            if (other.clock_s[day_] >= 0 && other.clock_s[day_] <= at + tick_s)
                sum += other.amounts[fluid];
        return floor_mg(program_.curves[day_].sweat_ml(at)) - sum;
    }

    void drink_below_sweat() {
        const auto check = [&](double at, size_t hi) {
            const auto before = out_.broken;
            add(fluid, there_.front(), hi, sweat_left(at));
            if (!before && out_.broken)
                out_.broken_rule = Rule::fluid_sweat;
        };
        for (const size_t i : there_)
            check(clock(i), i);
        for (const auto& other : others_)
            if (on_this_leg(other) && other.clock_s[day_] < clock(there_.front())) {
                if (sweat_left(other.clock_s[day_]) < 0)
                    break_(Rule::fluid_sweat);
            } else if (other.clock_s[day_] > clock(there_.front())) {
                size_t hi = there_.front();
                for (const size_t i : there_)
                    if (clock(i) <= other.clock_s[day_])
                        hi = i;
                check(other.clock_s[day_], hi);
            }
    }

    /// Gels from slot a to slot b drink from 15 minutes before a until 15 minutes after b; a swallow serves
    /// one gel (Hall's condition for windows of equal length). Fixed gels of this leg stand in between.
    void water_for_gels() {
        const double within_s = gel_water_within_s(leg_, day_);
        struct Gel {
            double at;
            size_t slot; // grid_.slots.size(): fixed
            std::int64_t fixed_need;
        };
        std::vector<Gel> gels;
        if (thirsty_)
            for (const size_t i : there_)
                gels.push_back({clock(i), i, 0});
        for (const auto& item : program_.fixed)
            if (needs_water(item))
                gels.push_back({item.clock_s[day_], grid_.slots.size(), item.amounts[gel_water]});
        std::stable_sort(gels.begin(), gels.end(), [](const Gel& x, const Gel& y) { return x.at < y.at; });
        std::vector<std::int64_t> water_before{0}; // by place in in_time_
        for (const size_t i : in_time_)
            water_before.push_back(water_before.back() + (concentrated_[i] ? 0 : drunk_[i][fluid]));
        const auto first_from = [this](double at) { // place in in_time_
            return static_cast<size_t>(std::partition_point(in_time_.begin(), in_time_.end(),
                                                            [&](size_t i) { return clock(i) < at; }) -
                                       in_time_.begin());
        };
        for (size_t a = 0; a < gels.size(); ++a) {
            std::int64_t fixed = 0;
            const std::int64_t before = water_before[first_from(gels[a].at - within_s - tick_s)];
            size_t lo = grid_.slots.size(), hi = 0, slots = 0;
            for (size_t b = a; b < gels.size(); ++b) {
                fixed += gels[b].fixed_need;
                if (gels[b].slot < grid_.slots.size()) {
                    lo = std::min(lo, gels[b].slot);
                    hi = std::max(hi, gels[b].slot);
                    ++slots;
                }
                const std::int64_t water = water_before[first_from(gels[b].at + within_s + tick_s)] - before;
                if (slots == 0) {
                    if (water < fixed)
                        add(gel_water, 0, 0, water - fixed);
                } else if (water - fixed < most_gel_water(slots, lo, hi)) {
                    add(gel_water, lo, hi, water - fixed);
                }
            }
        }
    }

    /// On another day two gels may come nearer to each other than they stand apart on the likely one.
    std::int64_t most_gel_water(size_t slots, size_t lo, size_t hi) const {
        const double span_s = grid_.slots[hi].at_s - grid_.slots[lo].at_s;
        std::int64_t each = 0;
        for (const auto& food : leg_.foods)
            each = std::max<std::int64_t>(each, food.amounts[gel_water]);
        const auto by_time = static_cast<std::int64_t>(
            leg_.items_apart_s > 0 ? span_s / leg_.items_apart_s + 1.01 : static_cast<double>(slots));
        return std::min(static_cast<std::int64_t>(slots), by_time) * each + 1;
    }

    void no_gel_with_concentrate() {
        for (size_t i = 0; i < grid_.slots.size(); ++i)
            if (concentrated_[i])
                add(gel, i, i, -fixed_gels_at(i));
    }

    std::int64_t fixed_gels_at(size_t slot) const {
        std::int64_t sum = 0;
        for (const auto& item : program_.fixed)
            if (item.leg == leg_.leg && slot_of(grid_, item) == slot)
                sum += item.amounts[gel];
        return sum;
    }

    void supplies() {
        if (grid_.regular == 0)
            return;
        if (leg_.pocket_mg >= 0)
            add(mass, 0, grid_.regular - 1, leg_.pocket_mg);
        if (leg_.room >= 0)
            add(room, 0, grid_.regular - 1, leg_.room);
        if (const size_t end = slots_before_bag(leg_, grid_); leg_.room_before_bag >= 0 && end > 0)
            add(room, 0, end - 1, leg_.room_before_bag);
    }

    /// A row says nothing that a longer one with no more slack has not said.
    void list_rows() {
        for (size_t r = 0; r < resources; ++r)
            for (size_t lo = 0; lo < slots_; ++lo)
                for (size_t hi = slots_; hi-- > lo;) {
                    std::int32_t& slack = tightest(r, lo, hi);
                    std::int32_t longer = unlimited;
                    if (lo > 0)
                        longer = tightest(r, lo - 1, hi);
                    if (hi + 1 < slots_)
                        longer = std::min(longer, tightest(r, lo, hi + 1));
                    if (slack < longer)
                        out_.rows.push_back(
                            {static_cast<int>(r), static_cast<int>(lo), static_cast<int>(hi), slack});
                    else
                        slack = longer;
                }
    }

    std::int32_t& tightest(size_t resource, size_t lo, size_t hi) {
        return tightest_[(resource * slots_ + lo) * slots_ + hi];
    }

    const Program& program_;
    const LegProgram& leg_;
    const Grid& grid_;
    const DrinkLine& line_;
    const std::vector<Other>& others_;
    size_t slots_;
    std::vector<std::int32_t> tightest_; // slack by resource, first and last slot
    size_t day_ = 0;
    bool thirsty_ = false;
    std::vector<Amounts> drunk_;
    std::vector<bool> concentrated_; // what is drunk at a slot
    std::vector<std::array<std::int64_t, resources>> most_;
    std::vector<size_t> there_, in_time_; // slots of this day, as they are listed and as they come
    Rows out_;
};

} // namespace

const Caps& caps_at(const Program& program, size_t day, double clock_s) {
    if (day == fast)
        return program.day_caps;
    const LegProgram* leg = &program.legs.front();
    for (const auto& other : program.legs)
        if (other.start_s[day] <= clock_s + tick_s)
            leg = &other;
    return leg->caps;
}

double hour_of_drink_ml(const Program& program, const LegProgram& leg, size_t day, double from_s) {
    constexpr double most_ml = figure("drink.most_ml_per_h");
    const bool by_the_kilometre = day == fast && leg.kind == LegKind::run;
    return by_the_kilometre ? most_ml
                            : std::min(most_ml, program.curves[day].ceiling_ml(from_s) + leg.hour_over_ml);
}

double gel_water_within_s(const LegProgram& leg, size_t day) {
    constexpr double likely_day_s = 60 * figure("gel.water_within_min");
    return leg.kind == LegKind::run ? likely_day_s * leg.length_s[day] / leg.length_s[likely] : likely_day_s;
}

Budget fluid_budget(const Program& program, const LegProgram& leg, size_t day) {
    const LegProgram* drinking = &leg;
    Budget out{0, leg.start_s[day]};
    if (is_transition(leg.kind) && leg.leg + 1 < program.legs.size())
        drinking = &program.legs[leg.leg + 1];
    else if (leg.leg > 0 && is_transition(program.legs[leg.leg - 1].kind))
        out.from_s = program.legs[leg.leg - 1].start_s[day];
    constexpr double more_than_any_day = 1e6; // and safe as mg in 32 bits
    out.ml = std::min(more_than_any_day, drinking->ceiling_ml_per_h * drinking->length_s[day] / hour_s);
    return out;
}

Rows rows_of(const Program& program, const LegProgram& leg, const Grid& grid, const DrinkLine& line,
             const std::vector<Other>& others) {
    return Builder(program, leg, grid, line, others).build();
}

bool keeps(const Rows& rows, const LegProgram& leg, const Grid& grid, const std::vector<ItemLine>& items) {
    const size_t slots = grid.slots.size();
    std::vector<std::array<std::int64_t, resources>> before(slots + 1); // sums over the slots before
    for (const auto& line : items)
        for (const size_t slot : slots_of(grid, line)) {
            const auto& amounts = leg.foods[static_cast<size_t>(line.food)].amounts;
            for (size_t r = 0; r < resources; ++r)
                before[slot + 1][r] += amounts[r];
        }
    for (size_t slot = 0; slot < slots; ++slot)
        for (size_t r = 0; r < resources; ++r)
            before[slot + 1][r] += before[slot][r];
    return std::all_of(rows.rows.begin(), rows.rows.end(), [&before](const Row& row) {
        const auto r = static_cast<size_t>(row.resource);
        return before[static_cast<size_t>(row.hi) + 1][r] - before[static_cast<size_t>(row.lo)][r] <=
               row.slack;
    });
}

std::vector<Other> taken(const LegProgram& leg, const LegSolution& choice) {
    const Grid& grid = leg.grids[choice.grid];
    std::vector<Amounts> at(grid.slots.size(), Amounts{});
    const auto add = [&at](size_t slot, const Amounts& amounts, int times) {
        for (size_t r = 0; r < resources; ++r)
            at[slot][r] += amounts[r] * times;
    };
    for (size_t i = 0; i < at.size(); ++i)
        if (choice.drink.feeds(grid, i))
            add(i, leg.drink_at(choice.drink, i).amounts, choice.drink.sips);
    for (const auto& item : choice.items)
        for (const size_t slot : slots_of(grid, item))
            add(slot, leg.foods[static_cast<size_t>(item.food)].amounts, 1);
    std::vector<Other> out;
    for (size_t i = 0; i < at.size(); ++i)
        if (at[i] != Amounts{})
            out.push_back({grid.slots[i].clock_s, at[i]});
    return out;
}

std::vector<Other> fixed_others(const Program& program) {
    std::vector<Other> out;
    for (const auto& item : program.fixed)
        out.push_back({item.clock_s, item.amounts});
    return out;
}

} // namespace tuck::schedule
