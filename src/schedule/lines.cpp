#include "schedule/lines.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::schedule {

namespace {

constexpr size_t most_listed = 8; // kilometres named one by one

/// Feeds of one leg that share what is taken, by their place in `taken`.
struct Group {
    std::vector<size_t> feeds;
    std::vector<FeedItem> items;
    std::string from;
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

std::string drink_word(const Food* food) {
    return !food || food->id == "water_tap" ? "water" : food->label.empty() ? food->name : food->label;
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
        const bool placed = std::any_of(out.begin(), out.end(), [&item](const Taken& t) {
            return t.item == &item.portion;
        });
        if (item.leg == leg.leg && !placed) {
            Taken feed;
            feed.slot = grid.slots.size();
            feed.at_s = item.at_s;
            feed.km = item.km;
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
            return drinks.size() == 1 && drinks[0].feeds == group.feeds;
        });
        if (together != groups.end()) {
            together->items.push_back(drinks[0].items[0]);
            together->from = drinks[0].from;
        } else {
            for (const auto& drink : drinks)
                add_line(drink);
        }
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
        return leg_.kind == LegKind::bike   ? bottle_name(kit_, feed.own_before_ml)
                                          : leg_.vessel;
    }

    /// "B1 then B2".
    std::string sources_of(const std::vector<size_t>& feeds) const {
        std::vector<std::string> names;
        for (const size_t i : feeds)
            if (const auto name = source_of(out_.taken[i]); names.empty() || names.back() != name)
                names.push_back(name);
        return fmt::format("{}", fmt::join(names, " then "));
    }

    FeedItem drink_item(const Taken& feed) const {
        const Food* food = drink_of(feed).drink.food;
        return {food ? food->id : "water_tap", static_cast<double>(feed.sips), leg_.sip_unit, source_of(feed)};
    }

    bool served(const Portion& portion) const {
        return std::any_of(leg_.foods.begin(), leg_.foods.end(),
                           [&portion](const FoodChoice& food) {
                               return food.served && &food.portion == &portion;
                           }) ||
               std::any_of(program_.fixed.begin(), program_.fixed.end(), [&portion](const FixedItem& item) {
                   return item.served && &item.portion == &portion;
               });
    }

    FeedItem food_item(const Portion& portion) const {
        return {portion.food->id, portion.amount, portion.unit,
                served(portion)              ? "station"
                : leg_.kind == LegKind::run  ? "belt"
                : is_transition(leg_.kind) ? "transition"
                                           : "pocket"};
    }

    void write_feed(const Taken& feed) {
        PlanFeed out;
        out.leg_index = static_cast<int>(leg_.leg);
        out.leg = leg_.kind;
        out.at_s = feed.at_s;
        out.km = feed.km;
        out.by_place = feed.slot < grid_.regular && !grid_.slots[feed.slot].beside.empty();
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
            group.items = {drink_item(out_.taken[group.feeds.front()])};
            group.from = sources_of(group.feeds);
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
            group.items = {food_item(leg_.foods[static_cast<size_t>(line.food)].portion)};
            group.step = line.single ? 0 : line.step;
            group.first = line.first;
            group.to_the_end = line.to_the_end;
            const auto like = std::find_if(out.begin(), out.end(), [&](const Group& other) {
                return line.single && other.step == 0 && other.items[0].food == group.items[0].food &&
                       other.items[0].from == group.items[0].from;
            });
            if (like == out.end())
                out.push_back(group);
            else // single feeds of one food are one instruction with several moments
                like->feeds.insert(like->feeds.end(), group.feeds.begin(), group.feeds.end());
        }
        for (const auto& item : program_.fixed)
            for (size_t i = 0; i < out_.taken.size(); ++i)
                if (out_.taken[i].item == &item.portion)
                    out.push_back({{i}, {food_item(item.portion)}, "", 0, 0, false});
        return out;
    }

    /// "gel", "1/2 bar", "1/2 banana", "4 chews": the unit where it says enough, else the food's own short
    /// name.
    std::string portion_text(const FeedItem& item) const {
        for (const auto& feed : out_.taken)
            if (feed.item && feed.item->food->id == item.food) {
                const auto& food = *feed.item->food;
                return amount_text(item.amount, food.label.empty() ? food.name : food.label);
            }
        return item.food;
    }

    std::string what_text(const Group& group) const {
        std::string text;
        for (const auto& item : group.items) {
            if (!text.empty())
                text += " + ";
            const bool sip = item.unit == "swallow" || item.unit == "cup";
            text += sip ? amount_text(item.amount, item.unit) : portion_text(item);
            if (sip && leg_.kind == LegKind::bike && group.from != "station")
                text += " " + group.from;
            else if (sip)
                text += " " + drink_word(drink_of(out_.taken[group.feeds.front()]).drink.food);
        }
        return text;
    }

    std::string when_text(const PlanLine& line, const Group& group) const {
        if (at_station())
            return stations_text(group);
        if (is_transition(leg_.kind))
            return leg_.kind == LegKind::t1 ? "in T1" : "in T2";
        if (group.step > 0 && group.feeds.size() > 3) {
            std::string text = fmt::format("every {:.0f}'", group.step * grid_.every_s / 60);
            if (group.first != group.step - 1)
                text += " from " + clock_text(line.from_s);
            if (!group.to_the_end)
                text += " to " + clock_text(line.to_s);
            return text;
        }
        std::vector<std::string> moments;
        for (const double at : line.at_s)
            moments.push_back(clock_text(at));
        return fmt::format("{}", fmt::join(moments, " "));
    }

    /// "each station", "every 2nd station from km 4", or the kilometres one by one.
    std::string stations_text(const Group& group) const {
        const auto km = [this](size_t feed) {
            return fmt::format("{:g}", std::round(out_.taken[feed].km * 10) / 10);
        };
        const bool all_the_way = group.to_the_end && group.first == group.step - 1 && group.feeds.size() > 2;
        const bool long_list = group.feeds.size() > most_listed && evenly(group);
        if ((all_the_way && group.step <= 3) || long_list) {
            std::string text = group.step == 1   ? "each station"
                               : group.step == 2 ? "every 2nd station"
                               : group.step == 3 ? "every 3rd station"
                                                 : fmt::format("every {}th station", group.step);
            if (group.first != group.step - 1)
                text += " from km " + km(group.feeds.front());
            return group.to_the_end ? text : text + " to km " + km(group.feeds.back());
        }
        std::vector<std::string> kms;
        for (const size_t i : group.feeds)
            kms.push_back(km(i));
        return fmt::format("km {}", fmt::join(kms, " "));
    }

    /// Whether no station on the beat is left out.
    bool evenly(const Group& group) const {
        for (size_t i = 1; i < group.feeds.size(); ++i)
            if (out_.taken[group.feeds[i]].slot - out_.taken[group.feeds[i - 1]].slot !=
                static_cast<size_t>(group.step))
                return false;
        return group.step > 0;
    }

    /// "0:44 before the descent at km 20; not at 1:00: hands stay on the bar"
    std::string exceptions_text(const Group& group) const {
        std::vector<std::string> words;
        for (const size_t i : group.feeds)
            if (const auto& slot = out_.taken[i].slot;
                slot < grid_.regular && !grid_.slots[slot].beside.empty())
                words.push_back(clock_text(out_.taken[i].at_s) + " " + grid_.slots[slot].beside);
        const size_t last = out_.taken[group.feeds.back()].slot;
        if (group.step > 0)
            for (size_t i = static_cast<size_t>(group.first); i < last && i < grid_.regular;
                 i += static_cast<size_t>(group.step))
                if (!grid_.slots[i].drink_ok)
                    words.push_back(fmt::format("not at {}: hands stay on the bar", clock_text(grid_.slots[i].at_s)));
        return fmt::format("{}", fmt::join(words, "; "));
    }

    void add_line(const Group& group) {
        PlanLine line;
        line.leg_index = static_cast<int>(leg_.leg);
        line.leg = leg_.kind;
        for (const size_t i : group.feeds)
            line.at_s.push_back(out_.taken[i].at_s);
        line.from_s = line.at_s.front();
        line.to_s = line.at_s.back();
        line.every_s = steady_s(line.at_s);
        line.goes_on_every_s = group.to_the_end && group.step > 0 ? group.step * grid_.every_s : 0;
        line.items = group.items;
        line.when = when_text(line, group);
        line.what = what_text(group);
        line.beside = exceptions_text(group);
        line.text = line.when + ": " + line.what + (line.beside.empty() ? "" : " (" + line.beside + ")");
        out_.lines.push_back(line);
    }

    static double steady_s(const std::vector<double>& at_s) {
        if (at_s.size() < 2)
            return 0;
        const double step = at_s[1] - at_s[0];
        for (size_t i = 2; i < at_s.size(); ++i)
            if (std::abs(at_s[i] - at_s[i - 1] - step) > 0.5)
                return 0;
        return step;
    }

    const Program& program_;
    const LegProgram& leg_;
    const Grid& grid_;
    Decided& out_;
    const KitInUse& kit_;
};

} // namespace

std::string clock_text(double seconds) {
    const int minutes = static_cast<int>(std::lround(seconds / 60));
    return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
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
