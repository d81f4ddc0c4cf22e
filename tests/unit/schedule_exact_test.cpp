// The proof behind the schedule: equal to plain enumeration on tiny races, built from the definitions and not from
// the rows that the search uses.
#include "schedule/frames.hpp"
#include "schedule/solver.hpp"
#include "stage_examples.hpp"

#include <catch2/catch.hpp>
#include <functional>
#include <random>

using namespace tuck;
using namespace tuck::schedule;

namespace {

/// One leg, a handful of slots: what an enumeration can still walk through.
Program tiny(unsigned seed) {
    std::mt19937 random(seed); // the standard fixes its numbers, unlike those of distributions
    const auto draw = [&random](int low, int high) {
        return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
    };
    static const Food gel_food, bar_food, water;
    const int slots = draw(2, 6);
    const double every_s = draw(1, 2) == 1 ? 900 : 1200, length_s = every_s * (slots + 0.5);
    Program out;
    out.limits.carb_g = draw(30, 90);
    out.limits.glucose_path_g = 60;
    out.limits.fructose_path_g = draw(15, 40);
    Effort effort;
    effort.legs.resize(1);
    effort.legs[0].time = {length_s * 0.92, length_s, length_s * 1.1};
    Need need;
    need.legs.resize(1);
    need.legs[0].fluid_ml_per_h = draw(200, 900);
    need.legs[0].sweat_ml_per_h = need.legs[0].fluid_ml_per_h * 1.3;
    for (size_t day = 0; day < days; ++day)
        out.curves[day] = FluidCurves(effort, need, day);
    LegProgram leg;
    leg.length_s = {length_s * 0.92, length_s, length_s * 1.1};
    leg.own_ml = draw(300, 1500);
    leg.max_lines = draw(2, 4);
    leg.fluid_most_mg = static_cast<std::int32_t>(need.legs[0].fluid_ml_per_h * length_s / 3.6);
    leg.pocket_mg = draw(1, 6) * 60'000;
    leg.item_steps = {1, 2};
    const auto food = [&](const Food* what, double g, double fructose, double water_ml, double gel_ml) {
        Dose dose;
        dose.carb_g = g;
        dose.glucose_g = g - fructose;
        dose.fructose_g = fructose;
        dose.fluid_ml = water_ml;
        dose.gel_water_ml = gel_ml > 0 ? gel_ml + water_ml : 0;
        FoodChoice choice;
        choice.portion.food = what;
        choice.portion.dose = dose;
        choice.amounts = amounts_of(dose);
        choice.points = price::kind;
        choice.amounts[mass] = 40'000;
        choice.amounts[gel] = what == &gel_food ? 1 : 0;
        leg.foods.push_back(choice);
    };
    const bool isotonic = draw(0, 1) == 0; // then with water of its own: a drink line may end before it
    food(&gel_food, draw(18, 28), draw(0, 9), isotonic ? 44 : 8, isotonic ? 0 : 150);
    food(&bar_food, draw(15, 30), draw(0, 12), draw(2, 40), 0);
    Drink drink;
    drink.food = &water;
    drink.carb_g = draw(0, 10) / 100.0;
    drink.glucose_g = drink.carb_g;
    Dose sip;
    sip.fluid_ml = 30;
    sip.carb_g = sip.glucose_g = 30 * drink.carb_g;
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
        slot.foods = draw(0, 5) == 0 ? 1u : 3u;
        grid.slots.push_back(slot);
    }
    grid.regular = static_cast<size_t>(slots);
    leg.grids = {grid};
    const int rate = draw(20, 90);
    for (double at_s = 3600; at_s < length_s; at_s += 3600)
        leg.checkpoints.push_back({at_s, static_cast<int>(rate * at_s / 3.6), draw(0, 500), 0, false});
    leg.checkpoints.push_back({length_s, static_cast<int>(rate * length_s / 3.6), draw(0, 900), 0, true});
    out.legs = {leg};
    return out;
}

/// What is taken at one moment of one day.
struct Feed {
    double at = 0;
    Amounts amounts{};
};

std::vector<Feed> feeds_on(const LegProgram& leg, const DrinkLine& drink, const std::vector<ItemLine>& items,
                           size_t day) {
    std::vector<Feed> out;
    const Grid& grid = leg.grids[0];
    for (size_t i = 0; i < grid.slots.size(); ++i) {
        if (grid.slots[i].clock_s[day] < 0)
            continue;
        Feed feed{grid.slots[i].clock_s[day], {}};
        if (drink.feeds(grid, i))
            for (size_t r = 0; r < resources; ++r)
                feed.amounts[r] += drink.sips * leg.drinks[0].amounts[r];
        for (const auto& item : items)
            for (const size_t slot : slots_of(grid, item))
                if (slot == i)
                    for (size_t r = 0; r < resources; ++r)
                        feed.amounts[r] += leg.foods[static_cast<size_t>(item.food)].amounts[r];
        out.push_back(feed);
    }
    return out;
}

/// The rules as practice says them: rolling hours, drink below sweat, a swallow for one gel only, no gel with
/// a concentrated drink, which serves none as water either.
bool legal(const Program& program, const DrinkLine& drink, const std::vector<ItemLine>& items) {
    const auto& leg = program.legs[0];
    std::int64_t carried = 0;
    int lines = drink.lines;
    for (const auto& item : items) {
        carried += std::int64_t{leg.foods[static_cast<size_t>(item.food)].amounts[mass]} * item.feeds;
        ++lines;
    }
    if (carried > leg.pocket_mg || lines > leg.max_lines)
        return false;
    for (size_t day = 0; day < days; ++day) {
        const auto feeds = feeds_on(leg, drink, items, day);
        double drunk = 0;
        std::vector<double> water;
        for (const auto& feed : feeds) {
            double hour[4] = {};
            for (const auto& other : feeds)
                if (other.at >= feed.at && other.at < feed.at + 3600)
                    for (int r = 0; r < 4; ++r)
                        hour[r] += other.amounts[static_cast<size_t>(r)] / 1000.0;
            drunk += feed.amounts[fluid] / 1000.0;
            if (hour[carb] > program.limits.carb_g + 1e-6 || hour[glucose] > program.limits.glucose_path_g + 1e-6 ||
                hour[fructose] > program.limits.fructose_path_g + 1e-6 ||
                hour[fluid] > program.curves[day].ceiling_ml(feed.at) + 1e-3 ||
                drunk > program.curves[day].sweat_ml(feed.at) + 1e-3)
                return false;
            double gel_own = 0; // water in the food itself does not serve a gel
            for (const auto& item : items)
                for (const size_t slot : slots_of(leg.grids[0], item))
                    if (leg.grids[0].slots[slot].clock_s[day] == feed.at)
                        gel_own += leg.foods[static_cast<size_t>(item.food)].amounts[fluid] / 1000.0;
            const bool concentrated = leg.drinks[0].concentrated;
            water.push_back(concentrated ? 0 : feed.amounts[fluid] / 1000.0 - gel_own);
            if (concentrated && feed.amounts[gel] > 0 && feed.amounts[fluid] / 1000.0 - gel_own > 1)
                return false;
        }
        for (size_t i = 0; i < feeds.size(); ++i) { // each gel takes the oldest water that it may
            double wanted = feeds[i].amounts[gel_water] / 1000.0;
            for (size_t j = i; j < feeds.size() && feeds[j].at <= feeds[i].at + 900; ++j) {
                const double part = std::min(wanted, water[j]);
                wanted -= part;
                water[j] -= part;
            }
            if (wanted > 1e-6)
                return false;
        }
        if (day == likely && drunk * 1000 > leg.fluid_most_mg + 1)
            return false;
    }
    return true;
}

Cost cost_of(const Program& program, const DrinkLine& drink, const std::vector<ItemLine>& items) {
    const auto& leg = program.legs[0];
    Cost cost = leg.grids[0].points + drink.points;
    std::uint32_t kinds = 0;
    for (const auto& item : items) {
        cost += price_of(leg, item);
        if (!(kinds >> item.food & 1u))
            cost += leg.foods[static_cast<size_t>(item.food)].points;
        kinds |= 1u << item.food;
    }
    for (const auto& point : leg.checkpoints) {
        std::int64_t eaten = 0;
        for (const auto& feed : feeds_on(leg, drink, items, likely))
            if (feed.at <= point.at_s)
                eaten += feed.amounts[carb];
        cost += carb_off(point, eaten - point.carb_mg);
    }
    return cost;
}

Cost cheapest(const Program& program) {
    const auto lines = item_lines(program.legs[0], 0);
    Cost best = std::numeric_limits<Cost>::max();
    for (const auto& drink : drink_lines(program.legs[0], 0)) {
        std::vector<ItemLine> chosen;
        const std::function<void(int)> walk = [&](int from) {
            if (legal(program, drink, chosen))
                best = std::min(best, cost_of(program, drink, chosen));
            for (const auto& line : lines)
                if (line.first >= from) {
                    chosen.push_back(line);
                    walk(line.last + 1);
                    chosen.pop_back();
                }
        };
        walk(0);
    }
    return best;
}

} // namespace

TEST_CASE("the schedule costs what plain enumeration finds, on a thousand tiny races", "[schedule][exact]") {
    int fed = 0;
    for (unsigned seed = 1; seed <= 1000; ++seed) {
        const auto program = tiny(seed);
        const auto solution = solve(program);
        REQUIRE(solution.any);
        INFO("seed " << seed);
        CHECK(solution.points == cheapest(program));
        CHECK(solution.bound == solution.points);
        CHECK(legal(program, solution.legs[0].drink, solution.legs[0].items));
        fed += solution.legs[0].items.empty() ? 0 : 1;
        for (const long long work : {200, 1000}) { // in haste: still a plan, and still a bound
            const auto hasty = solve(program, work);
            REQUIRE(hasty.any);
            CHECK(hasty.bound <= solution.points);
            CHECK(hasty.points >= solution.points);
            CHECK(legal(program, hasty.legs[0].drink, hasty.legs[0].items));
            CHECK(hasty.points == cost_of(program, hasty.legs[0].drink, hasty.legs[0].items));
        }
    }
    CHECK(fed > 500); // the races are not trivial
}
