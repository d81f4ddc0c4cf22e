#include "schedule/lines.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::schedule {

namespace {

constexpr size_t most_listed = 5;  // stations named one by one
constexpr size_t most_moments = 3; // beats named one by one

/// Feeds of one leg that share what is taken, by their place in `taken`.
struct Group {
    std::vector<size_t> feeds;
    std::vector<LineItem> items;
    int step = 0; // in slots; 0: a single one
    int first = 0;
    bool to_the_end = false;
};

std::string bottle_name(const KitInUse& kit, double own_before_ml) {
    double sum = 0;
    size_t number = 0;
    for (const auto* bottles : {&kit.bottles_ml, &kit.bag_bottles_ml})
        for (const double ml : *bottles) {
            sum += ml;
            ++number;
            if (own_before_ml < sum - 1e-9)
                return fmt::format("B{}", number);
        }
    return fmt::format("B{}", std::max<size_t>(1, number));
}

std::string drink_label(const Food* food) {
    return !food || food->id == "water_tap" ? "water" : food_label(*food);
}

/// The feeds of a solution in time order.
std::vector<Taken> expand(const Program& program, const LegProgram& leg, const LegSolution& choice,
                          double own_ml) {
    const Grid& grid = leg.grids[choice.grid];
    std::vector<Taken> out;
    for (size_t i = 0; i < grid.regular; ++i) {
        Taken feed;
        feed.slot = i;
        feed.at_s = grid.slots[i].at_s;
        feed.km = grid.slots[i].km;
        feed.by_place = grid.slots[i].beside.has_value();
        for (const auto& line : choice.items) {
            const auto slots = slots_of(grid, line);
            if (std::find(slots.begin(), slots.end(), i) != slots.end())
                feed.item = &leg.foods[static_cast<size_t>(line.food)].portion;
        }
        for (const auto& item : program.fixed)
            if (item.leg == leg.leg && slot_of(grid, item) == i)
                feed.item = &item.portion;
        if (choice.drink.feeds(grid, i)) {
            feed.sips = choice.drink.sips;
            feed.own_drink = static_cast<int>(i) < choice.drink.handed_from;
            feed.own_before_ml = own_ml;
            own_ml += feed.own_drink ? feed.sips * leg.sip_ml : 0;
        }
        if (feed.item || feed.sips > 0)
            out.push_back(feed);
    }
    for (const auto& item : program.fixed) {
        const bool placed =
            std::any_of(out.begin(), out.end(), [&item](const Taken& t) { return t.item == &item.portion; });
        if (item.leg == leg.leg && !placed) {
            Taken feed;
            feed.slot = grid.slots.size();
            feed.at_s = item.at_s;
            feed.km = item.km;
            feed.by_place = item.by_place;
            feed.item = &item.portion;
            out.push_back(feed);
        }
    }
    std::stable_sort(out.begin(), out.end(), [](const Taken& a, const Taken& b) { return a.at_s < b.at_s; });
    return out;
}

class Writer {
public:
    Writer(const Program& program, Decided& out, const KitInUse& kit)
        : program_(program), leg_(*out.leg), grid_(out.grid()), out_(out), kit_(kit) {}

    void write() {
        for (const auto& feed : out_.taken)
            write_feed(feed);
        auto groups = item_groups();
        const auto drinks = drink_groups();
        // A food taken with every drink is one instruction, not two.
        const auto together = std::find_if(groups.begin(), groups.end(), [&drinks](const Group& group) {
            return drinks.size() == 1 && drinks[0].feeds == group.feeds &&
                   drinks[0].to_the_end == group.to_the_end;
        });
        if (together != groups.end()) {
            together->items.push_back(drinks[0].items[0]);
        } else {
            for (const auto& drink : drinks)
                add_line(drink);
        }
        std::stable_sort(groups.begin(), groups.end(), [](const Group& a, const Group& b) {
            return a.feeds.front() < b.feeds.front(); // as they come on the way
        });
        for (const auto& group : groups)
            add_line(group);
    }

private:
    bool at_station() const { return grid_.every_s == 0 && leg_.kind == LegKind::run; }

    const DrinkChoice& drink_of(const Taken& feed) const {
        return feed.own_drink ? *out_.own_drink() : leg_.station_drink;
    }

    std::string source_of(const Taken& feed) const {
        if (at_station() || !feed.own_drink)
            return "station";
        return leg_.kind == LegKind::bike ? bottle_name(kit_, feed.own_before_ml) : leg_.vessel;
    }

    FeedItem drink_item(const Taken& feed) const {
        const Food* food = drink_of(feed).drink.food;
        return {food ? food->id : "water_tap", static_cast<double>(feed.sips), leg_.sip_unit, source_of(feed),
                drink_label(food)};
    }

    /// The drink of feeds that take the same, and where it comes from on the way.
    LineItem drink_line(const std::vector<size_t>& feeds) const {
        const FeedItem first = drink_item(out_.taken[feeds.front()]);
        LineItem item{first.food, first.label, first.amount, first.unit, {}};
        for (size_t i = 0; i < feeds.size(); ++i)
            if (auto name = source_of(out_.taken[feeds[i]]);
                item.from.empty() || item.from.back().name != name)
                item.from.push_back({std::move(name), i});
        return item;
    }

    LineItem food_line(const Portion& portion) const {
        const FeedItem item = food_item(portion);
        return {item.food, item.label, item.amount, item.unit, {{item.from, 0}}};
    }

    bool served(const Portion& portion) const {
        return std::any_of(
                   leg_.foods.begin(), leg_.foods.end(),
                   [&portion](const FoodChoice& food) { return food.served && &food.portion == &portion; }) ||
               std::any_of(program_.fixed.begin(), program_.fixed.end(), [&portion](const FixedItem& item) {
                   return item.served && &item.portion == &portion;
               });
    }

    FeedItem food_item(const Portion& portion) const {
        return {portion.food->id, portion.amount, portion.unit,
                served(portion)             ? "station"
                : leg_.kind == LegKind::run ? "belt"
                : is_transition(leg_.kind)  ? "transition"
                                            : "pocket",
                food_label(*portion.food)};
    }

    void write_feed(const Taken& feed) {
        PlanFeed out;
        out.leg_index = static_cast<int>(leg_.leg);
        out.leg = leg_.kind;
        out.at_s = feed.at_s;
        out.km = feed.km;
        out.by_place = feed.by_place;
        const auto add = [&out](const Dose& dose, double times) {
            out.carb_g += times * dose.carb_g;
            out.glucose_g += times * dose.glucose_g;
            out.fructose_g += times * dose.fructose_g;
            out.fluid_ml += times * dose.fluid_ml;
            out.sodium_mg += times * dose.sodium_mg;
            out.caffeine_mg += times * dose.caffeine_mg;
        };
        if (feed.item) {
            out.items.push_back(food_item(*feed.item));
            add(feed.item->dose, 1);
        }
        if (feed.sips > 0) {
            out.items.push_back(drink_item(feed));
            add(drink_of(feed).sip, feed.sips);
            (feed.own_drink ? out_.own_ml : out_.handed_ml) += feed.sips * leg_.sip_ml;
        }
        out_.carb_g += out.carb_g;
        out_.feeds.push_back(out);
    }

    std::vector<Group> drink_groups() const {
        std::vector<Group> out;
        for (const bool own : {true, false}) {
            Group group;
            for (size_t i = 0; i < out_.taken.size(); ++i)
                if (out_.taken[i].sips > 0 && out_.taken[i].own_drink == own)
                    group.feeds.push_back(i);
            if (group.feeds.empty())
                continue;
            const auto& drink = out_.choice.drink;
            group.items = {drink_line(group.feeds)};
            group.step = drink.step;
            group.first = static_cast<int>(out_.taken[group.feeds.front()].slot);
            group.to_the_end = drink.last + drink.step >= static_cast<int>(grid_.regular) &&
                               out_.taken[group.feeds.back()].slot == static_cast<size_t>(drink.last);
            out.push_back(group);
        }
        return out;
    }

    std::vector<Group> item_groups() const {
        std::vector<Group> out;
        for (const auto& line : out_.choice.items) {
            Group group;
            const auto slots = slots_of(grid_, line);
            for (size_t i = 0; i < out_.taken.size(); ++i)
                if (std::find(slots.begin(), slots.end(), out_.taken[i].slot) != slots.end())
                    group.feeds.push_back(i);
            group.items = {food_line(leg_.foods[static_cast<size_t>(line.food)].portion)};
            group.step = line.single ? 0 : line.step;
            group.first = line.first;
            // What must be chewed ends where it may no longer be eaten, however slow the day.
            group.to_the_end = line.to_the_end && !(leg_.kind == LegKind::bike &&
                                                    leg_.foods[static_cast<size_t>(line.food)].portion.solid);
            const auto like = std::find_if(out.begin(), out.end(), [&](const Group& other) {
                return line.single && other.step == 0 && other.items[0].food == group.items[0].food &&
                       other.items[0].from[0].name == group.items[0].from[0].name;
            });
            if (like == out.end())
                out.push_back(group);
            else { // single feeds of one food are one instruction with several moments
                like->feeds.insert(like->feeds.end(), group.feeds.begin(), group.feeds.end());
                std::sort(like->feeds.begin(), like->feeds.end());
            }
        }
        for (const auto& item : program_.fixed)
            for (size_t i = 0; i < out_.taken.size(); ++i)
                if (out_.taken[i].item == &item.portion)
                    out.push_back({{i}, {food_line(item.portion)}, 0, 0, false});
        return out;
    }

    /// By the station where they are evenly taken for long enough to count by them, else one by one.
    bool by_each_station(const Group& group) const {
        const bool all_the_way = group.to_the_end && group.first == group.step - 1 && group.feeds.size() > 2;
        const bool long_list = group.feeds.size() > most_listed && evenly(group);
        return (all_the_way && group.step <= 3) || long_list;
    }

    Rhythm rhythm_of(const Group& group) const {
        if (at_station() && by_each_station(group))
            return {Rhythm::Kind::stations, 0, group.step};
        const bool beats = !at_station() && !is_transition(leg_.kind) && group.step > 0;
        if (beats && group.feeds.size() > most_moments)
            return {Rhythm::Kind::every, group.step * grid_.every_s, 1};
        return {};
    }

    /// Whether no station on the beat is left out.
    bool evenly(const Group& group) const {
        for (size_t i = 1; i < group.feeds.size(); ++i)
            if (out_.taken[group.feeds[i]].slot - out_.taken[group.feeds[i - 1]].slot !=
                static_cast<size_t>(group.step))
                return false;
        return group.step > 0;
    }

    std::vector<Beside> exceptions(const Group& group) const {
        std::vector<Beside> out;
        for (const size_t i : group.feeds)
            if (const auto& slot = out_.taken[i].slot; slot < grid_.regular && grid_.slots[slot].beside)
                out.push_back(*grid_.slots[slot].beside);
        const size_t last = out_.taken[group.feeds.back()].slot;
        if (group.step > 0)
            for (size_t i = static_cast<size_t>(group.first); i < last && i < grid_.regular;
                 i += static_cast<size_t>(group.step)) {
                if (!grid_.slots[i].drink_ok)
                    out.push_back({Beside::Kind::left_out, grid_.slots[i].at_s, "", 0});
                else if (!at_station() &&
                         std::none_of(group.feeds.begin(), group.feeds.end(),
                                      [&](size_t feed) { return out_.taken[feed].slot == i; }))
                    out.push_back({Beside::Kind::replaced, grid_.slots[i].at_s, "", 0});
            }
        return out;
    }

    void add_line(const Group& group) {
        Line line;
        line.leg_index = static_cast<int>(leg_.leg);
        line.leg = leg_.kind;
        line.rhythm = rhythm_of(group);
        line.by_km = at_station();
        for (const size_t i : group.feeds)
            line.at.push_back({out_.taken[i].at_s, out_.taken[i].km});
        if (line.rhythm.kind != Rhythm::Kind::moments) {
            if (group.first != group.step - 1)
                line.window.from = line.at.front();
            if (!group.to_the_end)
                line.window.to = line.at.back();
        }
        line.goes_on_every_s = group.to_the_end && group.step > 0 ? group.step * grid_.every_s : 0;
        const size_t next = out_.taken[group.feeds.back()].slot + static_cast<size_t>(group.step) + 1;
        line.goes_on_from_s = line.goes_on_every_s > 0 ? static_cast<double>(next) * grid_.every_s : 0;
        line.items = group.items;
        line.stop = leg_.stops;
        line.beside = exceptions(group);
        out_.lines.push_back(std::move(line));
    }

    const Program& program_;
    const LegProgram& leg_;
    const Grid& grid_;
    Decided& out_;
    const KitInUse& kit_;
};

} // namespace

std::string food_label(const Food& food) {
    return food.label.empty() ? food.name : food.label;
}

Decided decided(const Program& program, size_t leg, const LegSolution& choice, const KitInUse& kit,
                double drunk_ml) {
    Decided out;
    out.leg = &program.legs[leg];
    out.choice = choice;
    if (out.leg->grids.empty())
        return out;
    out.taken = expand(program, *out.leg, choice, drunk_ml);
    Writer(program, out, kit).write();
    return out;
}

} // namespace tuck::schedule
