#include "schedule/program.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::schedule {

namespace {

constexpr double longest_drink_gap_s = 40 * 60;
constexpr double longest_item_gap_s = 60 * 60; // on the bike; few gels of a long run lie further apart
constexpr double seldom_s = 45 * 60;
constexpr long crowded_s = 20 * 60;
constexpr int most_drink_step = 4;
constexpr int most_named = 3; // beats, as lines.cpp names them one by one

/// What stations have handed up by then on a slow day, one of them missed.
double handed_ml(const LegProgram& leg, double at_s) {
    const auto passed =
        std::count_if(leg.stations_s.begin(), leg.stations_s.end(), [at_s](double s) { return s <= at_s; });
    return leg.per_station_ml * static_cast<double>(std::max<std::ptrdiff_t>(0, passed - 1));
}

Cost dry_points(const LegProgram& leg, double gap) {
    const bool thirsty = leg.kind == LegKind::bike && leg.aim.fluid_ml > 0;
    return thirsty ? price::dry_per_min * static_cast<Cost>(std::max(0.0, gap - price::dry_from_s) / 60) : 0;
}

/// Drink below the aim, and long gaps without one.
Cost drink_off(const LegProgram& leg, const Grid& grid, const DrinkLine& line) {
    Cost points = 0;
    double last_s = 0, ml = 0;
    for (size_t i = 0; i < grid.regular; ++i) {
        if (!line.feeds(grid, i))
            continue;
        ml += line.sips * leg.sip_ml;
        points += dry_points(leg, grid.slots[i].at_s - last_s);
        last_s = grid.slots[i].at_s;
    }
    const Cost short_ml = std::max<Cost>(0, leg.aim.fluid_ml - std::lround(ml));
    return points + dry_points(leg, leg.length_s[likely] - last_s) +
           price::per_unit(price::in_heat(price::fluid_pct, leg.heat_pct, price::hot_weight),
                           leg.aim.fluid_ml) *
               short_ml;
}

bool brings_nothing(const LegProgram& leg, const DrinkLine& line) {
    const auto brings = [](const DrinkChoice& drink) { return drink.amounts[carb] > 0; };
    return leg.kind == LegKind::bike && !brings(leg.drinks[static_cast<size_t>(line.drink)]) &&
           std::any_of(leg.drinks.begin(), leg.drinks.end(), brings);
}

Cost unusual_drink(const LegProgram& leg, const DrinkLine& line) {
    if (!leg.habit || leg.habit->drink_step == 0)
        return 0;
    const bool other = leg.drinks[static_cast<size_t>(line.drink)].drink.food != leg.habit->drink;
    return (other ? price::unusual : 0) + (line.step != leg.habit->drink_step ? price::unusual / 2 : 0);
}

/// Of bottles that are taken up by the likely end; less than half of one is hardly worth it.
Cost hand_ups(const LegProgram& leg, const Grid& grid, const DrinkLine& line) {
    double bottles = 0;
    for (size_t i = 0; i < grid.regular; ++i)
        if (line.feeds(grid, i) && static_cast<int>(i) >= line.handed_from)
            bottles += line.sips * leg.sip_ml / leg.per_station_ml;
    return price::hand_up * static_cast<Cost>(std::ceil(bottles)) +
           (bottles > 0 && bottles < 0.5 ? price::brief_hand_up : 0);
}

void price_drink(const LegProgram& leg, const Grid& grid, DrinkLine& line) {
    line.points = drink_off(leg, grid, line);
    if (line.drink < 0) {
        line.points += leg.habit && leg.habit->drink_step > 0 ? price::unusual : 0;
        return;
    }
    const bool own = line.handed_from > line.first;
    line.lines = 1; // handed up: the same swallows on the same beat
    line.points += price::line;
    if (own) {
        line.points += leg.drinks[static_cast<size_t>(line.drink)].points;
        line.points += brings_nothing(leg, line) ? price::plain_bottle : 0;
    }
    if (grid.every_s <= 0) // the leg's stations
        line.points += price::stations_left_out(line.step);
    else if (leg.kind == LegKind::bike) // a flask on the run is small
        line.points += price::beats_left_out(line.step);
    line.points += unusual_drink(leg, line);
    if (leg.kind == LegKind::bike && line.last + line.step < static_cast<int>(grid.regular))
        line.points += price::ends_early;
    line.points += hand_ups(leg, grid, line);
    if (leg.sip_unit == "cup" && line.sips > 1)
        line.points += price::two_cups * (100 - leg.heat_pct) / 100;
    if (leg.sip_unit == "swallow")
        line.points += line.sips == 1 ? price::one_swallow : line.sips >= 5 ? price::big_gulp : 0;
}

/// Takes the last beats away, so that a line ends before this slot and does not go on.
void end_before(const Grid& grid, DrinkLine& line, int end, double ml) {
    int drunk = 0, last = -1;
    for (int i = line.first; i < end; i += line.step)
        if (grid.slots[static_cast<size_t>(i)].drink_ok) {
            drunk += i < line.handed_from ? 1 : 0;
            last = i;
        }
    line.last = last;
    line.own_ml = drunk * ml;
}

/// Lets the line run as long as there is drink, past the likely end to that of a slow day: one that would run
/// dry on the way there ends a beat before the likely end. False: nothing to drink at its first slot.
bool run_on(const LegProgram& leg, const Grid& grid, DrinkLine& line) {
    const double ml = line.sips * leg.sip_ml;
    const auto own_until = [&leg](double at_s) { return leg.own_ml + (at_s >= leg.bag_s ? leg.bag_ml : 0); };
    const int regular = static_cast<int>(grid.regular);
    double from_stations = 0;
    for (int i = line.first; i < static_cast<int>(grid.slots.size()); i += line.step) {
        const auto& slot = grid.slots[static_cast<size_t>(i)];
        if (!slot.drink_ok)
            continue;
        if (line.handed_from > i && line.own_ml + ml <= own_until(slot.at_s) + 1e-9) {
            line.own_ml += ml;
        } else if (from_stations + ml <= handed_ml(leg, slot.at_s) + 1e-9) {
            from_stations += ml;
            if (i < regular)
                line.handed_from = std::min(line.handed_from, i);
            else
                line.filled_up = line.handed_from >= regular;
        } else {
            if (i >= regular)
                end_before(grid, line, regular - line.step, ml);
            break;
        }
        if (i < regular)
            line.last = i;
    }
    return line.last >= 0;
}

bool can_take(const Grid& grid, int slot, int food) {
    return grid.slots[static_cast<size_t>(slot)].foods >> food & 1u;
}

double gap_s(const Grid& grid, int from, int to) {
    return grid.slots[static_cast<size_t>(to)].at_s - grid.slots[static_cast<size_t>(from)].at_s;
}

/// One line from its first slot on, once for each end that it may have. Off its beat it has few feeds, each
/// is named, and it does not go on.
void add_with_ends(const LegProgram& leg, const Grid& grid, ItemLine line, bool on_its_beat,
                   std::vector<ItemLine>& out) {
    const int regular = static_cast<int>(grid.regular);
    const int most = on_its_beat ? regular : most_named;
    line.feeds = 1;
    int last = line.first;
    for (int i = line.first + line.step; i < regular && line.feeds < most; i += line.step) {
        if (!can_take(grid, i, line.food)) {
            if (grid.slots[static_cast<size_t>(i)].skip_item)
                continue;
            return;
        }
        if (gap_s(grid, last, i) < leg.items_apart_s - 1)
            return;
        ++line.feeds;
        line.last = last = i;
        line.to_the_end = on_its_beat && i + line.step >= regular;
        out.push_back(line);
    }
}

/// Gels of a run are spread over it, not eaten in its first third: how far the stretches without one are from
/// even ones, as a share of the leg.
Cost unevenness(const LegProgram& leg, const Grid& grid, const ItemLine& line) {
    if (leg.kind != LegKind::run)
        return 0;
    const double even_s = leg.length_s[likely] / (line.feeds + 1);
    double off_s = 0, last_s = 0;
    for (const size_t i : slots_of(grid, line)) {
        off_s += std::abs(grid.slots[i].at_s - last_s - even_s);
        last_s = grid.slots[i].at_s;
    }
    off_s += std::abs(leg.length_s[likely] - last_s - even_s);
    return price::uneven_pct * std::lround(100 * off_s / 2 / leg.length_s[likely]);
}

/// Of a line on the bike that is harder to keep than "every 30 minutes".
Cost oddness(const LegProgram& leg, const Grid& grid, const ItemLine& line) {
    if (leg.kind != LegKind::bike || grid.every_s <= 0)
        return 0;
    if (line.single)
        return leg.foods[static_cast<size_t>(line.food)].portion.solid ? price::lone_solid : 0;
    const long interval_s = std::lround(line.step * grid.every_s);
    return (3600 % interval_s != 0 ? price::odd_interval : 0) +
           (interval_s < crowded_s ? price::crowded : 0) +
           ((line.first + 1) % line.step != 0 ? price::late_start : 0);
}

/// Of a food, or of its interval, that is not usual on such a leg. What is usual takes back what its clock
/// costs without it, see `give` in habit.cpp.
Cost unusual_item(const LegProgram& leg, const Grid& grid, const ItemLine& line) {
    if (!leg.habit)
        return 0;
    const auto* known = usual(leg, line.food);
    if (!known)
        return price::unusual;
    const int interval =
        line.single ? 0 : static_cast<int>(std::lround(line.step * std::max(1.0, grid.every_s)));
    const bool rhythm =
        leg.kind == LegKind::bike && interval > 0 && known->interval > 0 && interval != known->interval;
    const bool other = rhythm || known->food != leg.foods[static_cast<size_t>(line.food)].portion.food;
    return other ? price::unusual / 2 - price::unusual : -price::unusual;
}

Hour hour_at(const LegProgram& leg, double from_s, double to_s, double share, Cost per_pct) {
    const double hourly_mg = leg.aim.carb_mg * (3600 / leg.length_s[likely]);
    return {from_s, to_s, static_cast<int>(std::lround(share * hourly_mg)),
            price::per_unit(per_pct, std::lround(hourly_mg))};
}

} // namespace

Amounts amounts_of(const Dose& dose) {
    const auto mg = [](double g) { return static_cast<std::int32_t>(std::lround(g * 1000)); };
    Amounts out{};
    out[carb] = mg(dose.carb_g);
    out[glucose] = mg(dose.glucose_g);
    out[fructose] = mg(dose.fructose_g);
    out[fluid] = mg(dose.fluid_ml);
    out[caffeine] = mg(dose.caffeine_mg); // micrograms
    out[sodium] = static_cast<std::int32_t>(std::lround(dose.sodium_mg));
    out[gel_water] = mg(dose.gel_water_ml > 0 ? dose.gel_water_ml - dose.fluid_ml : 0);
    return out;
}

Caps caps_of(double carb_g_per_h, double glucose_g_per_h, double fructose_g_per_h, double leg_s) {
    constexpr double mean = figure("cap.leg_share"), over_g = figure("cap.hour_more_g"),
                     over = figure("cap.hour_share"), two_hours = figure("cap.two_hours_share");
    const double rates[] = {carb_g_per_h, glucose_g_per_h, fructose_g_per_h};
    const auto mg = [](double g) { return static_cast<std::int32_t>(std::floor(g * 1000 + 1e-3)); };
    Caps out;
    for (size_t r = 0; r < 3; ++r) {
        out.hour[r] = mg(std::min(rates[r] + over_g, rates[r] * over));
        out.two_hours[r] = mg(two_hours * rates[r]);
        out.leg[r] = mg(mean * rates[r] * std::max(1.0, leg_s / 3600));
    }
    return out;
}

void set_hours(LegProgram& leg) {
    const double length_s = leg.length_s[likely];
    if (length_s < 3600 || leg.aim.carb_mg <= 0 || leg.aim.up_to)
        return;
    const double last_from_s = length_s - 3600;
    for (double from_s = 0; from_s + 1800 < last_from_s; from_s += 3600)
        leg.hours.push_back(hour_at(leg, from_s, from_s + 3600,
                                    from_s > 0 ? price::hour_share : price::first_hour_share,
                                    price::hour_pct));
    leg.hours.push_back(hour_at(leg, last_from_s, length_s, price::hour_share,
                                leg.kind == LegKind::bike ? price::last_bike_hour_pct : price::hour_pct));
}

const DrinkChoice& LegProgram::drink_at(const DrinkLine& line, size_t slot) const {
    return static_cast<int>(slot) >= line.handed_from ? station_drink
                                                      : drinks[static_cast<size_t>(line.drink)];
}

bool DrinkLine::feeds(const Grid& grid, size_t slot) const {
    const int i = static_cast<int>(slot);
    const bool goes_on = last + step >= static_cast<int>(grid.regular);
    return drink >= 0 && i >= first && (i - first) % step == 0 && (i <= last || goes_on) &&
           grid.slots[slot].drink_ok;
}

size_t slot_of(const Grid& grid, const FixedItem& item) {
    size_t nearest = grid.slots.size();
    double apart_s = 1; // a snapped item stands on its slot
    for (size_t i = 0; i < grid.regular; ++i)
        if (const double apart = std::abs(grid.slots[i].at_s - item.at_s); apart < apart_s) {
            apart_s = apart;
            nearest = i;
        }
    return nearest;
}

void snap(const LegProgram& leg, FixedItem& item) {
    const Slot* nearest = nullptr;
    double apart_s = same_moment_s;
    for (const auto& grid : leg.grids)
        for (size_t i = 0; i < grid.regular; ++i)
            if (const double apart = std::abs(grid.slots[i].at_s - item.at_s); apart < apart_s) {
                apart_s = apart;
                nearest = &grid.slots[i];
            }
    if (!nearest)
        return;
    item.at_s = nearest->at_s;
    item.km = nearest->km;
    item.clock_s = nearest->clock_s;
    item.by_place = nearest->beside.has_value();
}

size_t slots_before_bag(const LegProgram& leg, const Grid& grid) {
    size_t slot = 0;
    while (slot < grid.regular && grid.slots[slot].at_s < leg.bag_s)
        ++slot;
    return slot;
}

std::vector<DrinkLine> drink_lines(const LegProgram& leg, size_t g) {
    const Grid& grid = leg.grids[g];
    std::vector<DrinkLine> out(1);
    price_drink(leg, grid, out.front());
    for (int drink = 0; drink < static_cast<int>(leg.drinks.size()); ++drink)
        for (int sips = 1; sips <= leg.most_sips; ++sips)
            for (int step = 1; step <= std::min(most_drink_step, static_cast<int>(grid.regular)); ++step) {
                if (grid.every_s * step > longest_drink_gap_s + 1)
                    continue;
                DrinkLine line;
                line.drink = drink;
                line.sips = sips;
                line.step = step;
                line.first = step - 1;
                if (!run_on(leg, grid, line))
                    continue;
                price_drink(leg, grid, line);
                out.push_back(line);
            }
    return out;
}

std::vector<ItemLine> item_lines(const LegProgram& leg, size_t g) {
    const Grid& grid = leg.grids[g];
    std::vector<ItemLine> out;
    for (int first = 0; first < static_cast<int>(grid.regular); ++first)
        for (int food = 0; food < static_cast<int>(leg.foods.size()); ++food) {
            if (!can_take(grid, first, food))
                continue;
            out.push_back({food, 1, first, first, 1, true, false});
            for (int step = 1; step <= leg.most_item_step; ++step) {
                // "Every 30 min" is on the half hours; what comes seldom, or so rarely that each moment is
                // named, may begin on any beat.
                const bool on_its_beat =
                    !leg.items_with_drink || (first + 1) % step == 0 || grid.every_s * step >= seldom_s;
                if (leg.kind == LegKind::run || grid.every_s * step <= longest_item_gap_s + 1)
                    add_with_ends(leg, grid, {food, step, first, first, 1, false, false}, on_its_beat, out);
            }
        }
    return out;
}

bool in_rhythm(const LegProgram& leg, const DrinkLine& drink, const ItemLine& item) {
    if (!leg.items_with_drink || drink.drink < 0)
        return true;
    return (item.first + 1) % drink.step == 0 && (item.single || item.step % drink.step == 0);
}

bool may_follow(const LegProgram& leg, const Grid& grid, const ItemLine& first, const ItemLine& second) {
    const bool soft = leg.foods[static_cast<size_t>(second.food)].amounts[gel] > 0;
    const bool nested =
        first.single || second.single || first.step % second.step == 0 || second.step % first.step == 0;
    return soft && nested && second.food != first.food && second.first > first.last &&
           gap_s(grid, first.last, second.first) >= leg.items_apart_s - 1;
}

Cost price_of(const LegProgram& leg, const Grid& grid, const ItemLine& line) {
    const auto& food = leg.foods[static_cast<size_t>(line.food)];
    return price::line + food.points + food.item_points * line.feeds + unevenness(leg, grid, line) +
           oddness(leg, grid, line) + unusual_item(leg, grid, line);
}

const Habit::Item* usual(const LegProgram& leg, int food) {
    const auto is_gel = [&leg](const Food* known) {
        return std::any_of(leg.foods.begin(), leg.foods.end(), [known](const FoodChoice& choice) {
            return choice.portion.food == known && choice.amounts[gel] > 0;
        });
    };
    const Food* wanted = leg.foods[static_cast<size_t>(food)].portion.food;
    const Habit::Item* out = nullptr;
    if (leg.habit)
        for (const auto& item : leg.habit->items)
            if (item.food == wanted || (!out && is_gel(wanted) && is_gel(item.food)))
                out = &item;
    return out;
}

Cost price_of_both(const LegProgram& leg, int first_food, int second_food) {
    const auto soft = [&leg](int food) { return leg.foods[static_cast<size_t>(food)].amounts[gel] > 0; };
    return soft(first_food) && soft(second_food) ? price::second_gel : 0;
}

std::vector<size_t> slots_of(const Grid& grid, const ItemLine& line) {
    std::vector<size_t> out;
    const size_t end = line.to_the_end ? grid.slots.size() : static_cast<size_t>(line.last) + 1;
    for (size_t i = static_cast<size_t>(line.first); i < end; i += static_cast<size_t>(line.step))
        if (grid.slots[i].foods >> line.food & 1u)
            out.push_back(i);
    return out;
}

CarbPrice carb_price(const Aim& aim) {
    CarbPrice out;
    out.band_mg = std::lround(aim.carb_mg * (aim.up_to ? price::carb_near_up_to : price::carb_near));
    out.band_over_mg = std::lround(aim.carb_mg * price::carb_near_over);
    out.near = price::per_unit(price::carb_near_pct, aim.carb_mg);
    out.near_over = std::min(out.near, price::per_unit(price::carb_over_pct, aim.carb_mg));
    out.far = std::max(out.near, price::per_unit(price::carb_far_pct, aim.carb_mg));
    return out;
}

Cost carb_off(const Aim& aim, std::int64_t carb_mg) {
    return carb_off(aim, carb_price(aim), carb_mg);
}

Cost carb_off(const Aim& aim, const CarbPrice& price, std::int64_t carb_mg) {
    if (aim.carb_mg <= 0)
        return 0;
    const bool over = carb_mg > aim.carb_mg;
    const std::int64_t off = over ? carb_mg - aim.carb_mg : aim.carb_mg - carb_mg;
    const std::int64_t beyond = std::max<std::int64_t>(0, off - (over ? price.band_over_mg : price.band_mg));
    const Cost near = over ? price.near_over : price.near;
    return near * off + (price.far - near) * beyond;
}

Cost sodium_price(const LegProgram& leg) {
    return price::per_unit(price::in_heat(price::sodium_pct, leg.heat_pct, price::hot_sodium_weight),
                           leg.aim.sodium_mg);
}

Cost sodium_off(const LegProgram& leg, std::int64_t sodium_mg) {
    return leg.aim.sodium_mg <= 0
               ? 0
               : sodium_price(leg) * std::max<std::int64_t>(0, leg.aim.sodium_mg - sodium_mg);
}

Cost hour_off(const Hour& hour, std::int64_t carb_mg) {
    return hour.per_mg * std::max<std::int64_t>(0, hour.least_mg - carb_mg);
}

std::vector<Taking> takings(const Program& program, const LegProgram& leg, const LegSolution& choice) {
    const Grid& grid = leg.grids[choice.grid];
    std::vector<Taking> out;
    for (size_t i = 0; i < grid.regular; ++i)
        if (choice.drink.feeds(grid, i)) {
            const auto& drink = leg.drink_at(choice.drink, i).amounts;
            out.push_back(
                {grid.slots[i].at_s, drink[carb] * choice.drink.sips, drink[sodium] * choice.drink.sips});
        }
    for (const auto& line : choice.items)
        for (const size_t i : slots_of(grid, line))
            if (i < grid.regular) {
                const auto& food = leg.foods[static_cast<size_t>(line.food)].amounts;
                out.push_back({grid.slots[i].at_s, food[carb], food[sodium]});
            }
    for (const auto& item : program.fixed)
        if (item.leg == leg.leg)
            out.push_back({item.at_s, item.amounts[carb], item.amounts[sodium]});
    return out;
}

Cost cost_of(const Program& program, const LegProgram& leg, const LegSolution& choice) {
    std::int64_t carb_mg = 0, sodium_mg = 0;
    std::vector<std::int64_t> by_hour(leg.hours.size());
    for (const auto& taking : takings(program, leg, choice)) {
        carb_mg += taking.carb_mg;
        sodium_mg += taking.sodium_mg;
        for (size_t h = 0; h < leg.hours.size(); ++h)
            if (leg.hours[h].holds(taking.at_s))
                by_hour[h] += taking.carb_mg;
    }
    const Grid& grid = leg.grids[choice.grid];
    Cost cost = grid.points + choice.drink.points + carb_off(leg.aim, carb_mg) + sodium_off(leg, sodium_mg);
    for (const auto& line : choice.items)
        cost += price_of(leg, grid, line);
    if (choice.items.size() > 1)
        cost += price_of_both(leg, choice.items[0].food, choice.items[1].food);
    for (size_t h = 0; h < leg.hours.size(); ++h)
        cost += hour_off(leg.hours[h], by_hour[h]);
    return cost;
}

} // namespace tuck::schedule
