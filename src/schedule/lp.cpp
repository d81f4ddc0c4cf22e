#include "schedule/lp.hpp"

#include "schedule/rows.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace tuck::schedule {

namespace {

constexpr double hour_s = 3600, gel_water_within_s = 15 * 60, tick_s = 1e-6;

/// A sum of integer multiples of variables.
class Sum {
public:
    void add(std::int64_t times, const std::string& name) {
        if (times != 0)
            terms_[name] += times;
    }
    bool empty() const { return terms_.empty(); }
    /// The most that it can reach if every variable lies in 0..1 (`most_sips` for u).
    std::int64_t most(int most_sips) const {
        std::int64_t sum = 0;
        for (const auto& [name, times] : terms_)
            sum += std::max<std::int64_t>(0, times) * (name[0] == 'u' ? most_sips : 1);
        return sum;
    }
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

class Writer {
public:
    Writer(const Program& program) : program_(program) {}

    std::string write(const Solution& solution) {
        for (size_t l = 0; l < program_.legs.size(); ++l)
            for (size_t g = 0; g < program_.legs[l].grids.size(); ++g)
                columns(l, g);
        for (size_t l = 0; l < program_.legs.size(); ++l)
            if (!program_.legs[l].grids.empty())
                leg_rows(l);
        one_drink_in_all_bottles();
        for (day_ = 0; day_ < days; ++day_)
            day_rows();
        return fmt::format("\\ One day of feeding as lines; see program.hpp for what the names mean.\n"
                           "\\ tuck cost {}\n\\ tuck bound {}\nMinimize\n obj:{}\nSubject To\n{}"
                           "Binaries\n{}End\n",
                           solution.any ? solution.points : -1, solution.bound, objective_.text(), rows_,
                           binaries_);
    }

private:
    struct Place { // a slot, by where it stands
        size_t leg, grid, slot;
        double at;
    };

    static std::string u(size_t l, size_t g, size_t s, int drink) {
        return fmt::format("u_{}_{}_{}_{}", l, g, s, drink < 0 ? std::string("h") : std::to_string(drink));
    }
    static std::string w(size_t l, size_t g, size_t s, size_t food) {
        return fmt::format("w_{}_{}_{}_{}", l, g, s, food);
    }
    static std::string y(size_t l, size_t food) { return fmt::format("y_{}_{}", l, food); }

    void row(const Sum& sum, const char* sign, std::int64_t right) {
        rows_ += fmt::format(" r{}:{} {} {}\n", ++count_, sum.text(), sign, right);
    }
    void binary(const std::string& name) { binaries_ += " " + name + "\n"; }

    /// The lines of one grid, what they take at each slot, and how they exclude each other.
    void columns(size_t l, size_t g) {
        const auto& leg = program_.legs[l];
        const Grid& grid = leg.grids[g];
        std::map<std::pair<size_t, int>, Sum> sips;
        std::map<std::pair<size_t, size_t>, Sum> eaten;
        std::vector<Sum> covered(grid.regular);
        std::map<std::pair<size_t, size_t>, Sum> covered_by; // slot, food
        int j = 0;
        for (const auto& line : drink_lines(leg, g)) {
            const auto name = fmt::format("D_{}_{}_{}", l, g, j++);
            binary(name);
            objective_.add(line.points + grid.points, name);
            choice_[l].add(1, name);
            chosen_[{l, g}].add(1, name);
            lines_[l].add(line.lines, name);
            if (leg.bottles && line.drink >= 0)
                content_[line.drink].add(1, name);
            for (size_t s = 0; s < grid.slots.size(); ++s)
                if (line.feeds(grid, s))
                    sips[{s, static_cast<int>(s) >= line.handed_from ? -1 : line.drink}].add(line.sips, name);
        }
        j = 0;
        for (const auto& line : item_lines(leg, g)) {
            const auto name = fmt::format("I_{}_{}_{}", l, g, j++);
            const size_t food = static_cast<size_t>(line.food);
            binary(name);
            objective_.add(price_of(leg, line), name);
            lines_[l].add(1, name);
            for (int s = line.first; s <= line.last; ++s) {
                covered[static_cast<size_t>(s)].add(1, name);
                covered_by[{static_cast<size_t>(s), food}].add(1, name);
            }
            for (const size_t s : slots_of(grid, line))
                eaten[{s, food}].add(1, name);
        }
        for (auto& [key, sum] : sips) {
            const auto name = u(l, g, key.first, key.second);
            sips_[{l, g, key.first}].push_back({key.second, name});
            sum.add(-1, name);
            row(sum, "=", 0);
        }
        for (auto& [key, sum] : eaten) {
            const auto name = w(l, g, key.first, key.second);
            eaten_[{l, g, key.first}].push_back({key.second, name});
            sum.add(-1, name);
            row(sum, "=", 0);
        }
        // Item lines do not overlap, and stand on the grid that the drink line chose.
        for (auto& sum : covered)
            if (!sum.empty()) {
                sum.add(-1, grid_name(l, g));
                row(sum, "<=", 0);
            }
        for (auto& [key, sum] : covered_by) {
            sum.add(-1, y(l, key.second));
            row(sum, "<=", 0);
            kinds_[l].insert({key.second, 0});
        }
    }

    static std::string grid_name(size_t l, size_t g) { return fmt::format("z_{}_{}", l, g); }

    void leg_rows(size_t l) {
        const auto& leg = program_.legs[l];
        row(choice_[l], "=", 1);
        for (size_t g = 0; g < leg.grids.size(); ++g) {
            Sum sum = chosen_[{l, g}];
            sum.add(-1, grid_name(l, g));
            row(sum, "=", 0);
        }
        row(lines_[l], "<=", leg.max_lines);
        for (const auto& [food, unused] : kinds_[l]) {
            binary(y(l, food));
            objective_.add(leg.foods[food].points, y(l, food));
        }
        if (leg.pocket_mg >= 0)
            supply(l, mass, leg.pocket_mg);
        if (leg.room >= 0)
            supply(l, room, leg.room);
        if (leg.room_before_bag >= 0)
            supply(l, room, leg.room_before_bag, true);
        if (leg.fluid_most_mg >= 0)
            drink_of_the_leg(l);
        for (size_t h = 0; h < leg.checkpoints.size(); ++h)
            checkpoint(l, h);
        for (size_t g = 0; g < leg.grids.size(); ++g)
            no_gel_with_concentrate(l, g);
    }

    void supply(size_t l, Resource resource, std::int64_t limit, bool before_bag = false) {
        Sum sum;
        const auto& leg = program_.legs[l];
        for (size_t g = 0; g < leg.grids.size(); ++g)
            for (size_t s = 0; s < (before_bag ? slots_before_bag(leg, leg.grids[g]) : leg.grids[g].regular); ++s)
                for (const auto& [food, name] : eaten_[{l, g, s}])
                    sum.add(leg.foods[food].amounts[resource], name);
        if (!sum.empty())
            row(sum, "<=", limit);
    }

    /// The printed ceiling over the whole leg, with what transitions before it drink.
    void drink_of_the_leg(size_t l) {
        const auto& leg = program_.legs[l];
        const double end_s = leg.start_s[likely] + leg.length_s[likely];
        std::int64_t left = leg.fluid_most_mg;
        for (const auto& item : program_.fixed)
            if (item.clock_s[likely] >= leg.drinks_from_s && item.clock_s[likely] < end_s)
                left -= item.amounts[fluid];
        Sum sum;
        for (size_t other = 0; other <= l; ++other)
            for (size_t g = 0; g < program_.legs[other].grids.size(); ++g) {
                const auto& slots = program_.legs[other].grids[g].slots;
                for (size_t s = 0; s < slots.size(); ++s)
                    if (slots[s].clock_s[likely] >= leg.drinks_from_s && slots[s].clock_s[likely] < end_s)
                        add_slot(sum, other, g, s, fluid);
            }
        if (!sum.empty())
            row(sum, "<=", left);
    }

    /// u counts a drink of the leg's own, or what is handed up (`drink` -1).
    static const DrinkChoice& drink_of(const LegProgram& leg, int drink) {
        return drink < 0 ? leg.station_drink : leg.drinks[static_cast<size_t>(drink)];
    }

    void add_slot(Sum& sum, size_t l, size_t g, size_t s, Resource resource) {
        const auto& leg = program_.legs[l];
        for (const auto& [drink, name] : sips_[{l, g, s}])
            sum.add(drink_of(leg, drink).amounts[resource], name);
        for (const auto& [food, name] : eaten_[{l, g, s}])
            sum.add(leg.foods[food].amounts[resource], name);
    }

    void checkpoint(size_t l, size_t h) {
        const auto& leg = program_.legs[l];
        const auto& point = leg.checkpoints[h];
        std::int64_t wanted = point.carb_mg;
        for (const auto& item : program_.fixed)
            if (item.leg == leg.leg && item.at_s <= point.at_s)
                wanted -= item.amounts[carb];
        Sum eaten;
        for (size_t g = 0; g < leg.grids.size(); ++g)
            for (size_t s = 0; s < leg.grids[g].regular && leg.grids[g].slots[s].at_s <= point.at_s; ++s)
                add_slot(eaten, l, g, s, carb);
        const auto off = fmt::format("off_{}_{}", l, h), far = fmt::format("far_{}_{}", l, h);
        Sum above = eaten, below = eaten, beyond;
        above.add(-1, off);
        row(above, "<=", wanted);
        below.add(1, off);
        row(below, ">=", wanted);
        beyond.add(1, off);
        beyond.add(-1, far);
        row(beyond, "<=", point.end ? price::carb_end_band_mg : price::carb_hour_band_mg);
        if (point.end)
            objective_.add(price::carb_near_per_mg, off);
        objective_.add(point.end ? price::carb_far_per_mg - price::carb_near_per_mg : price::carb_hour_per_mg,
                       far);
    }

    /// Any swallow of it, or a gel.
    void no_gel_with_concentrate(size_t l, size_t g) {
        const auto& leg = program_.legs[l];
        for (size_t s = 0; s < leg.grids[g].slots.size(); ++s) {
            Sum sum;
            for (const auto& [drink, name] : sips_[{l, g, s}])
                if (drink_of(leg, drink).concentrated)
                    sum.add(1, name);
            if (sum.empty())
                continue;
            std::int64_t gels = 0;
            for (const auto& item : program_.fixed)
                if (item.leg == leg.leg && slot_of(leg.grids[g], item) == s)
                    gels += item.amounts[gel];
            for (const auto& [food, name] : eaten_[{l, g, s}])
                sum.add(leg.most_sips * leg.foods[food].amounts[gel], name);
            row(sum, "<=", std::max<std::int64_t>(0, leg.most_sips * (1 - gels)));
        }
    }

    void one_drink_in_all_bottles() {
        const auto bikes = std::count_if(program_.legs.begin(), program_.legs.end(),
                                         [](const LegProgram& leg) { return leg.bottles; });
        if (bikes < 2)
            return;
        Sum one;
        for (auto& [drink, sum] : content_) {
            const auto name = fmt::format("c_{}", drink);
            binary(name);
            sum.add(-bikes, name);
            row(sum, "<=", 0);
            one.add(1, name);
        }
        if (!one.empty())
            row(one, "<=", 1);
    }

    /// Slots that exist on this day, of every leg and grid.
    std::vector<Place> places() const {
        std::vector<Place> out;
        for (size_t l = 0; l < program_.legs.size(); ++l)
            for (size_t g = 0; g < program_.legs[l].grids.size(); ++g) {
                const auto& slots = program_.legs[l].grids[g].slots;
                for (size_t s = 0; s < slots.size(); ++s)
                    if (slots[s].clock_s[day_] >= 0)
                        out.push_back({l, g, s, slots[s].clock_s[day_]});
            }
        return out;
    }

    /// A row that holds when the grid of `from` is chosen; other legs' slots may make it bind without that.
    void guarded(Sum sum, std::int64_t limit, const Place& from, bool spans) {
        if (sum.empty() || sum.most(most_sips()) <= limit)
            return;
        if (spans) {
            const std::int64_t slack = sum.most(most_sips()) - std::min<std::int64_t>(limit, 0);
            sum.add(slack, grid_name(from.leg, from.grid));
            limit += slack;
        }
        row(sum, "<=", limit);
    }

    int most_sips() const {
        int most = 1;
        for (const auto& leg : program_.legs)
            most = std::max(most, leg.most_sips);
        return most;
    }

    static std::int64_t mg(double g) { return static_cast<std::int64_t>(std::floor(g * 1000 + 1e-3)); }

    void day_rows() {
        const auto all = places();
        for (const auto& from : all) {
            rolling_hour(all, from.at, &from);
            drink_below_sweat(all, from.at, &from);
        }
        for (const auto& item : program_.fixed)
            if (item.clock_s[day_] >= 0) {
                rolling_hour(all, item.clock_s[day_], nullptr);
                drink_below_sweat(all, item.clock_s[day_], nullptr);
            }
        for (size_t l = 0; l < program_.legs.size(); ++l)
            for (size_t g = 0; g < program_.legs[l].grids.size(); ++g)
                water_for_gels(l, g);
        if (program_.limits.caffeine_day_mg >= 0)
            caffeine_of_the_day(all);
    }

    std::int64_t fixed_sum(Resource resource, double from, double to) const {
        std::int64_t sum = 0;
        for (const auto& item : program_.fixed)
            if (item.clock_s[day_] >= from - tick_s && item.clock_s[day_] < to)
                sum += item.amounts[resource];
        return sum;
    }

    void rolling_hour(const std::vector<Place>& all, double start, const Place* from) {
        const double end = start + hour_s - tick_s;
        const auto& limits = program_.limits;
        const std::pair<Resource, std::int64_t> rules[] = {
            {carb, mg(limits.carb_g)},
            {glucose, mg(limits.glucose_path_g)},
            {fructose, mg(limits.fructose_path_g)},
            {fluid, mg(program_.curves[day_].ceiling_ml(start))},
            {caffeine, mg(limits.caffeine_dose_mg)}};
        for (const auto& [resource, limit] : rules) {
            Sum sum;
            bool spans = false;
            for (const auto& place : all) {
                if (place.at < start - tick_s || place.at >= end ||
                    (from && place.leg == from->leg && place.grid != from->grid))
                    continue;
                spans = spans || (from && place.leg != from->leg);
                add_slot(sum, place.leg, place.grid, place.slot, resource);
            }
            const std::int64_t left = limit - fixed_sum(resource, start, end);
            if (from)
                guarded(sum, left, *from, spans && resource == fluid);
            else if (!sum.empty())
                row(sum, "<=", left);
        }
    }

    void drink_below_sweat(const std::vector<Place>& all, double at, const Place* from) {
        Sum sum;
        for (const auto& place : all)
            if (place.at <= at + tick_s && !(from && place.leg == from->leg && place.grid != from->grid))
                add_slot(sum, place.leg, place.grid, place.slot, fluid);
        const std::int64_t left =
            mg(program_.curves[day_].sweat_ml(at)) - fixed_sum(fluid, 0, at + 2 * tick_s);
        if (!sum.empty() && sum.most(most_sips()) > left)
            row(sum, "<=", left);
    }

    void water_for_gels(size_t l, size_t g) {
        const auto& leg = program_.legs[l];
        struct Gel {
            double at;
            size_t slot; // past the end: fixed
            std::int64_t fixed;
        };
        std::vector<Gel> gels;
        const auto& slots = leg.grids[g].slots;
        for (size_t s = 0; s < slots.size(); ++s)
            if (slots[s].clock_s[day_] >= 0)
                gels.push_back({slots[s].clock_s[day_], s, 0});
        for (const auto& item : program_.fixed)
            if (item.leg == leg.leg && item.clock_s[day_] >= 0 && item.amounts[gel_water] > 0)
                gels.push_back({item.clock_s[day_], slots.size(), item.amounts[gel_water]});
        std::stable_sort(gels.begin(), gels.end(), [](const Gel& a, const Gel& b) { return a.at < b.at; });
        for (size_t a = 0; a < gels.size(); ++a) {
            Sum need;
            std::int64_t fixed = 0;
            for (size_t b = a; b < gels.size(); ++b) {
                fixed += gels[b].fixed;
                if (gels[b].slot < slots.size())
                    for (const auto& [food, name] : eaten_[{l, g, gels[b].slot}])
                        need.add(leg.foods[food].amounts[gel_water], name);
                if (need.empty() && fixed == 0)
                    continue;
                Sum sum = need;
                for (size_t s = 0; s < slots.size(); ++s) {
                    const double at = slots[s].clock_s[day_];
                    if (at >= 0 && at >= gels[a].at - tick_s && at <= gels[b].at + gel_water_within_s + tick_s)
                        for (const auto& [drink, name] : sips_[{l, g, s}])
                            if (!drink_of(leg, drink).concentrated)
                                sum.add(-drink_of(leg, drink).amounts[fluid], name);
                }
                sum.add(fixed, grid_name(l, g));
                if (sum.most(leg.most_sips) > 0)
                    row(sum, "<=", 0);
            }
        }
    }

    void caffeine_of_the_day(const std::vector<Place>& all) {
        Sum sum;
        for (const auto& place : all)
            add_slot(sum, place.leg, place.grid, place.slot, caffeine);
        if (!sum.empty())
            row(sum, "<=",
                mg(program_.limits.caffeine_day_mg) - fixed_sum(caffeine, 0, 1e9));
    }

    const Program& program_;
    size_t day_ = 0;
    int count_ = 0;
    Sum objective_;
    std::string rows_, binaries_;
    std::map<size_t, Sum> choice_, lines_;
    std::map<std::pair<size_t, size_t>, Sum> chosen_;
    std::map<int, Sum> content_;
    std::map<size_t, std::map<size_t, int>> kinds_;
    std::map<std::tuple<size_t, size_t, size_t>, std::vector<std::pair<int, std::string>>> sips_;
    std::map<std::tuple<size_t, size_t, size_t>, std::vector<std::pair<size_t, std::string>>> eaten_;
};

} // namespace

std::string lp_text(const Program& program, const Solution& solution) {
    return Writer(program).write(solution);
}

} // namespace tuck::schedule
