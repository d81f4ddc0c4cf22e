#include "schedule/lp.hpp"

#include "schedule/rows.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace tuck::schedule {

namespace {

constexpr double hour_s = 3600, tick_s = 1e-6;

std::int64_t mg(double g) {
    return static_cast<std::int64_t>(std::floor(g * 1000 + 1e-3));
}

/// A sum of integer multiples of variables.
class Sum {
public:
    void add(std::int64_t times, const std::string& name) {
        if (times != 0)
            terms_[name] += times;
    }
    void add(const Sum& other, std::int64_t times = 1) {
        for (const auto& [name, multiple] : other.terms_)
            add(times * multiple, name);
    }
    void subtract(const Sum& other) { add(other, -1); }
    bool empty() const { return terms_.empty(); }
    std::string text() const {
        std::string out;
        int on_line = 0;
        for (const auto& [name, times] : terms_) {
            if (times == 0)
                continue;
            out += fmt::format(" {} {} {}", times < 0 ? '-' : '+', times < 0 ? -times : times, name);
            if (++on_line % 8 == 0)
                out += "\n ";
        }
        return out.empty() ? " 0 one" : out;
    }

private:
    std::map<std::string, std::int64_t> terms_;
};

/// The file's three parts.
struct Text {
    Sum objective;
    std::string rows, binaries;
    int count = 0;
    void row(const Sum& sum, const char* sign, std::int64_t right) {
        if (!sum.empty())
            rows += fmt::format(" r{}:{} {} {}\n", ++count, sum.text(), sign, right);
    }
    void binary(const std::string& name) { binaries += " " + name + "\n"; }
};

/// One leg, with what was taken before it as constants. A_ is its first or only item line, B_ the second.
class Block {
public:
    Block(Text& text, const Program& program, const LegProgram& leg, const std::vector<Other>& others,
          int bottles)
        : text_(text), program_(program), leg_(leg), others_(others), bottles_(bottles) {}

    void write() {
        for (size_t g = 0; g < leg_.grids.size(); ++g) {
            columns(g);
            pairs(g);
        }
        text_.row(one_drink_, "=", 1);
        text_.row(firsts_, "<=", leg_.max_item_lines > 0 ? 1 : 0);
        Sum seconds = seconds_;
        seconds.subtract(firsts_);
        text_.row(seconds, "<=", 0);
        lines_.add(firsts_);
        lines_.add(seconds_);
        text_.row(lines_, "<=", leg_.max_lines);
        second_gel();
        off_the_aim();
        for (size_t g = 0; g < leg_.grids.size(); ++g)
            rules(g);
    }

private:
    using Names = std::vector<std::pair<std::string, ItemLine>>;

    std::string name(const char* what, size_t g, size_t i) const {
        return fmt::format("{}_{}_{}_{}", what, leg_.leg, g, i);
    }

    /// All lines of a clock, and what they bring at each slot.
    void columns(size_t g) {
        const Grid& grid = leg_.grids[g];
        feeds_.emplace_back(grid.slots.size());
        water_.emplace_back(grid.slots.size());
        concentrate_.emplace_back(grid.slots.size());
        size_t j = 0;
        for (const auto& line : drink_lines(leg_, g)) {
            const auto column = name("D", g, j++);
            if (leg_.bottles && bottles_ >= 0 && line.drink >= 0 && line.drink != bottles_)
                continue;
            text_.binary(column);
            text_.objective.add(line.points + grid.points, column);
            one_drink_.add(1, column);
            chosen_[g].add(1, column);
            lines_.add(line.lines, column);
            if (line.drink >= 0)
                by_step_[{g, line.step}].add(1, column);
            for (size_t s = 0; s < grid.slots.size(); ++s)
                if (line.feeds(grid, s)) {
                    const auto& drink = leg_.drink_at(line, s);
                    bring(g, s, drink.amounts, line.sips, column);
                    if (drink.concentrated)
                        concentrate_[g][s].add(1, column);
                    else
                        water_[g][s].add(std::int64_t{drink.amounts[fluid]} * line.sips, column);
                }
        }
        j = 0;
        for (const auto& line : item_lines(leg_, g)) {
            const size_t food = static_cast<size_t>(line.food);
            const bool soft = leg_.foods[food].amounts[gel] > 0;
            for (const char* role : {"A", "B"}) {
                if (*role == 'B' && (!soft || leg_.max_item_lines < 2))
                    continue;
                const auto column = name(role, g, j);
                text_.binary(column);
                text_.objective.add(price_of(leg_, grid, line), column);
                if (soft)
                    gels_.add(1, column);
                (*role == 'A' ? firsts_ : seconds_).add(1, column);
                (*role == 'A' ? a_[g] : b_[g]).push_back({column, line});
                for (const size_t s : slots_of(grid, line))
                    bring(g, s, leg_.foods[food].amounts, 1, column);
            }
            ++j;
        }
    }

    void bring(size_t g, size_t slot, const Amounts& amounts, int times, const std::string& column) {
        for (size_t r = 0; r < resources; ++r)
            feeds_[g][slot][r].add(std::int64_t{amounts[r]} * times, column);
    }

    /// Which lines go together.
    void pairs(size_t g) {
        const Grid& grid = leg_.grids[g];
        Sum on_the_clock;
        for (const auto* names : {&a_[g], &b_[g]})
            for (const auto& [column, line] : *names)
                on_the_clock.add(1, column);
        on_the_clock.add(chosen_[g], -2);
        text_.row(on_the_clock, "<=", 0); // items stand on the clock that was chosen
        for (int step = 2; step <= 4; ++step) {
            Sum sum;
            sum.add(by_step_[{g, step}], 2);
            for (const auto* names : {&a_[g], &b_[g]})
                for (const auto& [column, line] : *names) {
                    DrinkLine drink;
                    drink.drink = 0;
                    drink.step = step;
                    if (!in_rhythm(leg_, drink, line))
                        sum.add(1, column);
                }
            text_.row(sum, "<=", 2);
        }
        if (leg_.max_item_lines < 2)
            return;
        for (size_t food = 0; food < leg_.foods.size(); ++food) {
            Sum sum;
            for (const auto* names : {&a_[g], &b_[g]})
                for (const auto& [column, line] : *names)
                    if (line.food == static_cast<int>(food))
                        sum.add(1, column);
            text_.row(sum, "<=", 1);
        }
        for (int a = 1; a <= leg_.most_item_step; ++a)
            for (int b = 1; b <= leg_.most_item_step; ++b) {
                if (a % b == 0 || b % a == 0)
                    continue;
                Sum sum;
                for (const auto& [column, line] : a_[g])
                    if (!line.single && line.step == a)
                        sum.add(1, column);
                for (const auto& [column, line] : b_[g])
                    if (!line.single && line.step == b)
                        sum.add(1, column);
                text_.row(sum, "<=", 1);
            }
        for (int last = 0; last < static_cast<int>(grid.regular); ++last) {
            Sum sum; // a first line that lasts until then, and a second one that comes too soon
            for (const auto& [column, line] : a_[g])
                if (line.last >= last)
                    sum.add(1, column);
            for (const auto& [column, line] : b_[g])
                if (line.first <= last || grid.slots[static_cast<size_t>(line.first)].at_s -
                                                  grid.slots[static_cast<size_t>(last)].at_s <
                                              leg_.items_apart_s - 1)
                    sum.add(1, column);
            text_.row(sum, "<=", 1);
        }
    }

    /// Of two lines of gels the second one costs more: `gels` is 1 then.
    void second_gel() {
        const auto gels = fmt::format("gels_{}", leg_.leg);
        gels_.add(-1, gels);
        text_.row(gels_, "<=", 1);
        text_.objective.add(price::second_gel, gels);
    }

    std::int64_t fixed_sum(Resource r, double from_s,
                           double to_s) const { // in this leg's own time, (from, to]
        std::int64_t sum = 0;
        for (const auto& item : program_.fixed)
            if (item.leg == leg_.leg && item.at_s > from_s + tick_s && item.at_s <= to_s + tick_s)
                sum += item.amounts[r];
        return sum;
    }

    Sum regular_sum(Resource r, double from_s, double to_s) const {
        Sum sum;
        for (size_t g = 0; g < leg_.grids.size(); ++g)
            for (size_t s = 0; s < leg_.grids[g].regular; ++s)
                if (const double at = leg_.grids[g].slots[s].at_s;
                    at > from_s + tick_s && at <= to_s + tick_s)
                    sum.add(feeds_[g][s][r]);
        return sum;
    }

    void off_the_aim() {
        constexpr double always = 1e9;
        const auto variable = [this](const char* what, size_t i = 0) {
            return fmt::format("{}_{}_{}", what, leg_.leg, i);
        };
        if (leg_.aim.carb_mg > 0) {
            const CarbPrice price = carb_price(leg_.aim);
            Sum total = regular_sum(carb, -1, always);
            total.add(1, variable("under"));
            total.add(-1, variable("over"));
            text_.row(total, "=", leg_.aim.carb_mg - fixed_sum(carb, -1, always));
            for (const auto& [what, beyond, band, near] :
                 {std::tuple{"under", "under_far", price.band_mg, price.near},
                  std::tuple{"over", "over_far", price.band_over_mg, price.near_over}}) {
                Sum sum;
                sum.add(1, variable(what));
                sum.add(-1, variable(beyond));
                text_.row(sum, "<=", band);
                text_.objective.add(near, variable(what));
                text_.objective.add(price.far - near, variable(beyond));
            }
        }
        if (leg_.aim.sodium_mg > 0) {
            Sum sum = regular_sum(sodium, -1, always);
            sum.add(1, variable("salt"));
            text_.row(sum, ">=", leg_.aim.sodium_mg - fixed_sum(sodium, -1, always));
            text_.objective.add(sodium_price(leg_), variable("salt"));
        }
        for (size_t h = 0; h < leg_.hours.size(); ++h) {
            const Hour& hour = leg_.hours[h];
            Sum sum = regular_sum(carb, hour.from_s, hour.to_s);
            sum.add(1, variable("low", h));
            text_.row(sum, ">=", hour.least_mg - fixed_sum(carb, hour.from_s, hour.to_s));
            text_.objective.add(hour.per_mg, variable("low", h));
        }
    }

    // The hard rules of one clock. Of the others only one is chosen, so their slots are empty.

    double clock(size_t g, size_t s) const { return leg_.grids[g].slots[s].clock_s[day_]; }

    /// sum over [from, to) of what is taken <= limit - what is known
    void at_most(size_t g, Resource r, double from, double to, std::int64_t limit) {
        Sum sum;
        for (size_t s = 0; s < leg_.grids[g].slots.size(); ++s)
            if (clock(g, s) >= 0 && clock(g, s) >= from - tick_s && clock(g, s) < to - tick_s)
                sum.add(feeds_[g][s][r]);
        for (const auto& other : others_)
            if (other.clock_s[day_] >= 0 && other.clock_s[day_] >= from - tick_s &&
                other.clock_s[day_] < to - tick_s)
                limit -= other.amounts[r];
        text_.row(sum, "<=", limit);
    }

    void rules(size_t g) {
        const Grid& grid = leg_.grids[g];
        if (leg_.pocket_mg >= 0)
            supply(g, mass, grid.regular, leg_.pocket_mg);
        if (leg_.room >= 0)
            supply(g, room, grid.regular, leg_.room);
        if (leg_.room_before_bag >= 0)
            supply(g, room, slots_before_bag(leg_, grid), leg_.room_before_bag);
        no_gel_with_concentrate(g);
        for (day_ = fast; day_ < days; ++day_) {
            std::vector<double> moments;
            for (size_t s = 0; s < grid.slots.size(); ++s)
                if (clock(g, s) >= 0)
                    moments.push_back(clock(g, s));
            if (moments.empty())
                continue;
            const double last = *std::max_element(moments.begin(), moments.end());
            for (const auto& other : others_)
                if (other.clock_s[day_] >= 0)
                    moments.push_back(other.clock_s[day_]);
            for (const double from : moments)
                if (from <= last)
                    window(g, from);
            const double start = leg_.start_s[day_], end = start + leg_.length_s[day_] + 3 * tick_s;
            if (day_ == likely)
                for (const Resource r : {carb, glucose, fructose})
                    at_most(g, r, start, end, leg_.caps.leg[r]);
            if (day_ != fast) {
                const Budget budget = fluid_budget(program_, leg_, day_);
                at_most(g, fluid, budget.from_s, end, mg(budget.ml));
            }
            for (const double at : moments)
                at_most(g, fluid, 0, at + 3 * tick_s, mg(program_.curves[day_].sweat_ml(at)));
            at_most(g, caffeine, 0, 1e9, mg(program_.limits.caffeine_day_mg));
            water_for_gels(g);
        }
    }

    void window(size_t g, double from) {
        const Caps& caps = caps_at(program_, day_, from);
        for (const Resource r : {carb, glucose, fructose}) {
            at_most(g, r, from, from + hour_s, caps.hour[r]);
            at_most(g, r, from, from + 2 * hour_s, caps.two_hours[r]);
        }
        at_most(g, caffeine, from, from + hour_s, mg(program_.limits.caffeine_dose_mg));
        at_most(g, fluid, from, from + hour_s, mg(hour_of_drink_ml(program_, leg_, day_, from)));
    }

    void supply(size_t g, Resource r, size_t slots, std::int64_t limit) {
        Sum sum;
        for (size_t s = 0; s < slots; ++s)
            sum.add(feeds_[g][s][r]);
        text_.row(sum, "<=", limit);
    }

    void no_gel_with_concentrate(size_t g) {
        for (size_t s = 0; s < leg_.grids[g].slots.size(); ++s) {
            if (concentrate_[g][s].empty())
                continue;
            Sum sum = concentrate_[g][s];
            sum.add(feeds_[g][s][gel]);
            std::int64_t gels = 0;
            for (const auto& item : program_.fixed)
                if (item.leg == leg_.leg && slot_of(leg_.grids[g], item) == s)
                    gels += item.amounts[gel];
            text_.row(sum, "<=", std::max<std::int64_t>(0, 1 - gels));
        }
    }

    /// Gels from one moment to another against all that is drunk from 15 minutes before to 15 after them.
    void water_for_gels(size_t g) {
        struct Gel {
            double at;
            Sum need;
            std::int64_t fixed = 0;
        };
        const double within_s = gel_water_within_s(leg_, day_);
        std::vector<Gel> gels;
        for (size_t s = 0; s < leg_.grids[g].slots.size(); ++s)
            if (clock(g, s) >= 0 && !feeds_[g][s][gel_water].empty())
                gels.push_back({clock(g, s), feeds_[g][s][gel_water]});
        for (const auto& item : program_.fixed)
            if (item.leg == leg_.leg && item.clock_s[day_] >= 0 && item.amounts[gel_water] > 0)
                gels.push_back({item.clock_s[day_], {}, item.amounts[gel_water]});
        std::stable_sort(gels.begin(), gels.end(), [](const Gel& a, const Gel& b) { return a.at < b.at; });
        for (size_t a = 0; a < gels.size(); ++a) {
            Sum need;
            std::int64_t fixed = 0;
            for (size_t b = a; b < gels.size(); ++b) {
                need.add(gels[b].need);
                fixed += gels[b].fixed;
                Sum sum = need;
                for (size_t s = 0; s < leg_.grids[g].slots.size(); ++s)
                    if (clock(g, s) >= 0 && clock(g, s) >= gels[a].at - within_s - tick_s &&
                        clock(g, s) <= gels[b].at + within_s + tick_s)
                        sum.subtract(water_[g][s]);
                sum.add(chosen_[g], fixed);
                text_.row(sum, "<=", 0);
            }
        }
    }

    Text& text_;
    const Program& program_;
    const LegProgram& leg_;
    const std::vector<Other>& others_;
    int bottles_;
    size_t day_ = 0;
    std::vector<std::vector<std::array<Sum, resources>>> feeds_; // by clock, slot, resource
    std::vector<std::vector<Sum>> water_, concentrate_; // drink that serves a gel; lines of the other
    std::map<size_t, Names> a_, b_;
    Sum one_drink_, firsts_, seconds_, lines_, gels_;
    std::map<size_t, Sum> chosen_;
    std::map<std::pair<size_t, int>, Sum> by_step_;
};

} // namespace

std::string lp_text(const Program& program, const Solution& solution) {
    Text text;
    auto others = fixed_others(program);
    int bottles = -1;
    for (size_t i = 0; i < program.legs.size(); ++i) {
        const auto& leg = program.legs[i];
        if (leg.grids.empty())
            continue;
        Block(text, program, leg, others, leg.bottles ? bottles : -1).write();
        if (!solution.any)
            continue;
        const auto own = taken(leg, solution.legs[i]);
        others.insert(others.end(), own.begin(), own.end());
        if (leg.bottles && solution.legs[i].drink.drink >= 0)
            bottles = solution.legs[i].drink.drink;
    }
    return fmt::format("\\ One day of feeding as lines, leg by leg: each knows what the best plan of those "
                       "before it takes.\n"
                       "\\ See program.hpp for what the names mean.\n"
                       "\\ tuck cost {}\n\\ tuck bound {}\nMinimize\n obj:{}\nSubject To\n{}"
                       "Binaries\n{}End\n",
                       solution.any ? solution.points : -1, solution.bound, text.objective.text(), text.rows,
                       text.binaries);
}

} // namespace tuck::schedule
