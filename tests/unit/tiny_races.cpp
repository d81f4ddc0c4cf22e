#include "tiny_races.hpp"

#include "schedule/frames.hpp"
#include "stage_examples.hpp"

#include <algorithm>
#include <functional>
#include <random>

namespace tuck::schedule {

Program tiny(unsigned seed) {
    std::mt19937 random(seed); // the standard fixes its numbers, unlike those of distributions
    const auto draw = [&random](int low, int high) {
        return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
    };
    static const Food gel_food, bar_food, puree_food, water;
    const int slots = draw(2, 8);
    const double every_s = draw(0, 2) == 0   ? 600
                           : draw(0, 1) == 0 ? 900
                                             : 1200,
                 length_s = every_s * (slots + 0.5);
    const bool run = draw(0, 3) == 0;
    Program out;
    Effort effort;
    effort.legs.resize(1);
    effort.legs[0].time = {length_s * 0.92, length_s, length_s * 1.1};
    Need need;
    need.legs.resize(1);
    need.legs[0].fluid_ml_per_h = draw(200, 900);
    need.legs[0].sweat_ml_per_h = need.legs[0].fluid_ml_per_h * draw(10, 14) / 10.0;
    for (size_t day = 0; day < days; ++day)
        out.curves[day] = FluidCurves(effort, need, day);
    LegProgram leg;
    leg.kind = run ? LegKind::run : LegKind::bike;
    leg.length_s = {length_s * 0.92, length_s, length_s * 1.1};
    leg.own_ml = draw(300, 1500);
    leg.max_lines = draw(1, 4);
    leg.max_item_lines = run ? 1 : 2;
    leg.items_with_drink = !run;
    leg.items_apart_s = draw(0, 1) == 0 ? 900 : 1200;
    leg.pocket_mg = draw(1, 6) * 60'000;
    leg.heat_pct = 100 * draw(0, 1);
    leg.ceiling_ml_per_h = need.legs[0].fluid_ml_per_h;
    leg.hour_over_ml = 60;
    const auto food = [&](const Food* what, double g, double fructose, double water_ml, double gel_ml) {
        Dose dose;
        dose.carb_g = g;
        dose.glucose_g = g - fructose;
        dose.fructose_g = fructose;
        dose.fluid_ml = water_ml;
        dose.sodium_mg = draw(0, 120);
        dose.gel_water_ml = gel_ml > 0 ? gel_ml + water_ml : 0;
        FoodChoice choice;
        choice.portion.food = what;
        choice.portion.dose = dose;
        choice.amounts = amounts_of(dose);
        choice.points = price::kind;
        choice.item_points = price::item;
        choice.amounts[mass] = 40'000;
        choice.amounts[gel] = what == &bar_food ? 0 : 1;
        leg.foods.push_back(choice);
    };
    const bool isotonic = draw(0, 1) == 0;
    food(&gel_food, draw(18, 28), draw(0, 9), isotonic ? 44 : 8, isotonic ? 0 : 150);
    food(&bar_food, draw(15, 30), draw(0, 12), draw(2, 40), 0);
    food(&puree_food, draw(10, 20), draw(2, 9), 60, 0);
    Drink drink;
    drink.food = &water;
    drink.carb_g = draw(0, 10) / 100.0;
    drink.glucose_g = drink.carb_g;
    Dose sip;
    sip.fluid_ml = 30;
    sip.carb_g = sip.glucose_g = 30 * drink.carb_g;
    sip.sodium_mg = draw(0, 20);
    leg.drinks.push_back({drink, sip, amounts_of(sip), price::kind, 0, drink.carb_g > 0.08});
    Grid grid;
    grid.every_s = every_s;
    for (int i = 1; i <= slots + 1; ++i) {
        Slot slot;
        slot.at_s = i * every_s;
        slot.extra = i > slots;
        if (slot.extra && slot.at_s > length_s * 1.1)
            break;
        for (size_t day = 0; day < days; ++day)
            if (slot.extra ? day == slow : slot.at_s <= leg.length_s[day])
                slot.clock_s[day] = slot.at_s;
        slot.foods = draw(0, 5) == 0 ? 1u : 7u;
        slot.drink_ok = draw(0, 9) != 0;
        slot.skip_item = !slot.drink_ok;
        grid.slots.push_back(slot);
    }
    grid.regular = static_cast<size_t>(slots);
    leg.grids = {grid};
    const int rate = draw(20, 90);
    leg.caps = caps_of(rate, 60, draw(15, 40), length_s);
    leg.aim = {static_cast<int>(rate * length_s / 3.6), draw(0, 900), draw(0, 400), draw(0, 3) == 0};
    set_hours(leg);
    out.day_caps = leg.caps;
    out.legs = {leg};
    return out;
}

namespace {

/// What is taken at one moment of one day.
struct Feed {
    double at = 0;
    Amounts amounts{};
    double drunk_ml = 0; // of it, what is not water in food
};

std::vector<Feed> feeds_on(const LegProgram& leg, const DrinkLine& drink, const std::vector<ItemLine>& items,
                           size_t day) {
    std::vector<Feed> out;
    const Grid& grid = leg.grids[0];
    for (size_t i = 0; i < grid.slots.size(); ++i) {
        if (grid.slots[i].clock_s[day] < 0)
            continue;
        Feed feed{grid.slots[i].clock_s[day], {}, 0};
        if (drink.feeds(grid, i)) {
            for (size_t r = 0; r < resources; ++r)
                feed.amounts[r] += drink.sips * leg.drinks[0].amounts[r];
            feed.drunk_ml = feed.amounts[fluid] / 1000.0;
        }
        for (const auto& item : items)
            for (const size_t slot : slots_of(grid, item))
                if (slot == i)
                    for (size_t r = 0; r < resources; ++r)
                        feed.amounts[r] += leg.foods[static_cast<size_t>(item.food)].amounts[r];
        out.push_back(feed);
    }
    return out;
}

/// One rhythm, solids before soft food, 20 (or 15) minutes between any two items.
bool one_clock(const LegProgram& leg, const DrinkLine& drink, const std::vector<ItemLine>& items) {
    const Grid& grid = leg.grids[0];
    if (static_cast<int>(items.size()) > leg.max_item_lines ||
        drink.lines + static_cast<int>(items.size()) > leg.max_lines)
        return false;
    std::vector<size_t> eaten;
    for (const auto& item : items) {
        for (const size_t slot : slots_of(grid, item)) {
            if (!grid.slots[slot].extra)
                eaten.push_back(slot);
            if (leg.items_with_drink && drink.drink >= 0 && (slot + 1) % static_cast<size_t>(drink.step) != 0)
                return false;
        }
        if (leg.items_with_drink && drink.drink >= 0 && !item.single && item.step % drink.step != 0)
            return false;
    }
    for (size_t i = 1; i < eaten.size(); ++i)
        if (grid.slots[eaten[i]].at_s < grid.slots[eaten[i - 1]].at_s + leg.items_apart_s - 1)
            return false;
    if (items.size() == 2) {
        const int a = items[0].step, b = items[1].step;
        if (leg.foods[static_cast<size_t>(items[1].food)].amounts[gel] == 0 ||
            items[0].food == items[1].food ||
            (!items[0].single && !items[1].single && a % b != 0 && b % a != 0))
            return false;
    }
    return true;
}

} // namespace

bool legal(const Program& program, const DrinkLine& drink, const std::vector<ItemLine>& items) {
    const auto& leg = program.legs[0];
    std::int64_t carried = 0;
    for (const auto& item : items)
        carried += std::int64_t{leg.foods[static_cast<size_t>(item.food)].amounts[mass]} * item.feeds;
    if (carried > leg.pocket_mg || !one_clock(leg, drink, items))
        return false;
    for (const size_t day : {fast, likely, slow}) {
        const auto feeds = feeds_on(leg, drink, items, day);
        double drunk = 0, whole[3] = {};
        std::vector<double> water;
        for (const auto& feed : feeds) {
            double hour[4] = {}, two_hours[3] = {};
            for (const auto& other : feeds)
                for (size_t r = 0; r < 4 && other.at >= feed.at; ++r) {
                    hour[r] += other.at < feed.at + 3600 ? other.amounts[r] / 1000.0 : 0;
                    if (r < 3)
                        two_hours[r] += other.at < feed.at + 7200 ? other.amounts[r] / 1000.0 : 0;
                }
            drunk += feed.amounts[fluid] / 1000.0;
            for (size_t r = 0; r < 3; ++r) {
                whole[r] += feed.amounts[r] / 1000.0;
                if (hour[r] > leg.caps.hour[r] / 1000.0 + 1e-6 ||
                    two_hours[r] > leg.caps.two_hours[r] / 1000.0 + 1e-6)
                    return false;
            }
            const bool by_the_hour = day != fast || leg.kind != LegKind::run; // stations are places
            if ((by_the_hour &&
                 hour[fluid] > program.curves[day].ceiling_ml(feed.at) + leg.hour_over_ml + 1e-3) ||
                drunk > program.curves[day].sweat_ml(feed.at) + 1e-3)
                return false;
            const bool concentrated = leg.drinks[0].concentrated;
            water.push_back(concentrated ? 0 : feed.drunk_ml);
            if (concentrated && feed.amounts[gel] > 0 && feed.drunk_ml > 0)
                return false;
        }
        for (size_t r = 0; day == likely && r < 3; ++r)
            if (whole[r] > leg.caps.leg[r] / 1000.0 + 1e-6)
                return false;
        if (day != fast && drunk > leg.ceiling_ml_per_h * leg.length_s[day] / 3600 + 1e-3)
            return false;
        for (const auto& feed : feeds) { // each gel takes the oldest water that it may
            double wanted = feed.amounts[gel_water] / 1000.0;
            for (size_t j = 0; j < feeds.size(); ++j) {
                const bool run =
                    leg.kind == LegKind::run; // stations are places: 15 minutes of the likely day
                if (std::abs(feeds[j].at - feed.at) >
                    (run ? 900 * leg.length_s[day] / leg.length_s[likely] : 900) + 1e-6)
                    continue;
                const double part = std::min(wanted, water[j]);
                wanted -= part;
                water[j] -= part;
            }
            if (wanted > 1e-6)
                return false;
        }
    }
    return true;
}

Cost price_by_definition(const Program& program, const DrinkLine& drink, const std::vector<ItemLine>& items) {
    const auto& leg = program.legs[0];
    Cost cost = leg.grids[0].points + drink.points;
    for (const auto& item : items)
        cost += price_of(leg, leg.grids[0], item);
    const auto gels = std::count_if(items.begin(), items.end(), [&leg](const ItemLine& item) {
        return leg.foods[static_cast<size_t>(item.food)].amounts[gel] > 0;
    });
    cost += gels > 1 ? price::second_gel : 0; // two sorts to tell apart
    std::int64_t eaten = 0, salt = 0;
    std::vector<std::int64_t> hours(leg.hours.size());
    for (const auto& feed : feeds_on(leg, drink, items, likely)) {
        eaten += feed.amounts[carb];
        salt += feed.amounts[sodium];
        for (size_t h = 0; h < hours.size(); ++h)
            hours[h] +=
                feed.at > leg.hours[h].from_s && feed.at <= leg.hours[h].to_s ? feed.amounts[carb] : 0;
    }
    for (size_t h = 0; h < hours.size(); ++h)
        cost += hour_off(leg.hours[h], hours[h]);
    return cost + carb_off(leg.aim, eaten) + sodium_off(leg, salt);
}

void walk(const Program& program, const Visit& visit) {
    const auto lines = item_lines(program.legs[0], 0);
    for (const auto& drink : drink_lines(program.legs[0], 0)) {
        std::vector<ItemLine> chosen;
        const std::function<void(int)> on = [&](int from) {
            visit(drink, chosen);
            for (const auto& line : lines)
                if (line.first >= from && chosen.size() < 2) {
                    chosen.push_back(line);
                    on(line.last + 1);
                    chosen.pop_back();
                }
        };
        on(0);
    }
}

} // namespace tuck::schedule
