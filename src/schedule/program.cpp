#include "schedule/program.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tuck::schedule {

namespace {

constexpr double shortest_line_s = 40 * 60; // our choice: shorter ones are not worth a line
constexpr double longest_drink_gap_s = 45 * 60;
constexpr int latest_first_drink = 3; // slots
constexpr int most_drink_step = 3;
constexpr double gels_alone_s = 60 * 60;       // our choice
constexpr std::int32_t watery_gel_mg = 20'000; // of water in it

double gap_s(const Grid& grid, int from, int to) {
    return grid.slots[static_cast<size_t>(to)].at_s - grid.slots[static_cast<size_t>(from)].at_s;
}

/// Time that the line stands for: from its first feed until the next would come.
bool long_enough(const Grid& grid, int first, int last, int feeds) {
    const double span_s = gap_s(grid, first, last);
    return span_s + span_s / (feeds - 1) >= shortest_line_s - 1;
}

double handed_ml(const LegProgram& leg, double at_s) {
    const auto passed =
        std::count_if(leg.stations_s.begin(), leg.stations_s.end(), [at_s](double s) { return s <= at_s; });
    return leg.per_station_ml * static_cast<double>(std::max<std::ptrdiff_t>(0, passed - 1));
}

Cost dry_points(const LegProgram& leg, double gap) {
    const bool thirsty =
        leg.kind == LegKind::bike && !leg.checkpoints.empty() && leg.checkpoints.back().fluid_ml > 0;
    return thirsty ? price::dry_per_min * static_cast<Cost>(std::max(0.0, gap - price::dry_from_s) / 60) : 0;
}

/// Drink and sodium against the curves: `drunk` holds (time, ml, mg of sodium) of every swallow so far.
Cost drink_off(const LegProgram& leg, const Grid& grid, const DrinkLine& line) {
    Cost points = 0;
    double last_s = 0;
    size_t next = 0;
    double ml = 0, sodium = 0;
    const auto drink_until = [&](double at_s) {
        for (; next < grid.regular && grid.slots[next].at_s <= at_s; ++next) {
            if (!line.feeds(grid, next))
                continue;
            ml += line.sips * leg.sip_ml;
            sodium += line.sips * leg.drink_at(line, next).sip.sodium_mg;
            points += dry_points(leg, grid.slots[next].at_s - last_s);
            last_s = grid.slots[next].at_s;
        }
    };
    for (const auto& point : leg.checkpoints) {
        drink_until(point.at_s);
        const Cost short_ml = point.fluid_ml - std::lround(ml);
        const Cost short_mg = point.sodium_mg - std::lround(sodium);
        if (point.end) {
            points += leg.fluid_weight * price::fluid_end_per_ml * std::max<Cost>(0, short_ml);
            points += price::sodium_per_mg * std::max<Cost>(0, short_mg - price::sodium_band_mg);
        } else {
            points += leg.fluid_weight * price::fluid_hour_per_ml *
                      std::max<Cost>(0, short_ml - price::fluid_hour_band_ml);
        }
    }
    return points + dry_points(leg, leg.length_s[likely] - last_s);
}

void price_drink(const LegProgram& leg, const Grid& grid, DrinkLine& line) {
    line.points = drink_off(leg, grid, line);
    if (line.drink < 0)
        return;
    const bool own = line.handed_from > line.first;
    line.lines = (own ? 1 : 0) + (line.handed_from <= line.last ? 1 : 0);
    line.points += price::line * line.lines;
    if (own)
        line.points += leg.drinks[static_cast<size_t>(line.drink)].points;
    if (line.sips == 1 && leg.sip_unit == "swallow")
        line.points += price::one_swallow;
}

/// Lets the line run as long as there is drink, until `until_s`. False: nothing to drink at its first slot.
bool run_on(const LegProgram& leg, const Grid& grid, double until_s, DrinkLine& line) {
    const double ml = line.sips * leg.sip_ml;
    const auto own_until = [&leg](double at_s) { return leg.own_ml + (at_s >= leg.bag_s ? leg.bag_ml : 0); };
    double from_stations = 0;
    for (int i = line.first; i < static_cast<int>(grid.regular); i += line.step) {
        const auto& slot = grid.slots[static_cast<size_t>(i)];
        if (!slot.drink_ok)
            continue;
        if (slot.at_s > until_s)
            break;
        if (line.handed_from > i && line.own_ml + ml <= own_until(slot.at_s) + 1e-9) {
            line.own_ml += ml;
        } else if (from_stations + ml <= handed_ml(leg, slot.at_s) + 1e-9) {
            from_stations += ml;
            line.handed_from = std::min(line.handed_from, i);
        } else {
            break;
        }
        line.last = i;
    }
    return line.last >= 0;
}

/// To the end of the leg; or on a ride that ends with gels with water of their own, an hour before it.
std::vector<double> ends_of_drink(const LegProgram& leg) {
    const double end_s = leg.length_s[likely];
    const bool watery = leg.kind == LegKind::bike &&
                        std::any_of(leg.foods.begin(), leg.foods.end(), [](const FoodChoice& food) {
                            return food.amounts[gel] > 0 && food.amounts[fluid] >= watery_gel_mg;
                        });
    return watery ? std::vector<double>{end_s, end_s - gels_alone_s} : std::vector<double>{end_s};
}

/// Worth a line: a single feed, 40 minutes, or to the end.
bool worth_it(const Grid& grid, const DrinkLine& line) {
    const int feeds = (line.last - line.first) / line.step + 1;
    return feeds == 1 || line.last + line.step >= static_cast<int>(grid.regular) ||
           long_enough(grid, line.first, line.last, feeds);
}

/// A line from its first slot on, once for each end that it may have.
void add_with_ends(const LegProgram& leg, const Grid& grid, const DrinkLine& start,
                   std::vector<DrinkLine>& out) {
    int known_last = -1;
    for (const double until_s : ends_of_drink(leg)) {
        DrinkLine line = start;
        if (!run_on(leg, grid, until_s, line) || !worth_it(grid, line) ||
            line.last == std::exchange(known_last, line.last))
            continue;
        price_drink(leg, grid, line);
        out.push_back(line);
    }
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
    out[gel_water] = mg(dose.gel_water_ml > 0 ? dose.gel_water_ml - dose.fluid_ml : 0);
    return out;
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
    const int regular = static_cast<int>(grid.regular);
    for (int drink = 0; drink < static_cast<int>(leg.drinks.size()); ++drink)
        for (int sips = 1; sips <= leg.most_sips; ++sips)
            for (int step = 1; step <= most_drink_step; ++step)
                for (int first = 0; first < std::min(regular, latest_first_drink + 1); ++first) {
                    if (grid.every_s * step > longest_drink_gap_s ||
                        !grid.slots[static_cast<size_t>(first)].drink_ok)
                        continue;
                    DrinkLine line;
                    line.drink = drink;
                    line.sips = sips;
                    line.step = step;
                    line.first = first;
                    add_with_ends(leg, grid, line, out);
                }
    return out;
}

std::vector<ItemLine> item_lines(const LegProgram& leg, size_t g) {
    const Grid& grid = leg.grids[g];
    const int regular = static_cast<int>(grid.regular);
    std::vector<ItemLine> out;
    const auto can = [&grid](int slot, int food) {
        return grid.slots[static_cast<size_t>(slot)].foods >> food & 1u;
    };
    for (int first = 0; first < regular; ++first)
        for (int food = 0; food < static_cast<int>(leg.foods.size()); ++food) {
            if (!can(first, food))
                continue;
            out.push_back({food, 1, first, first, 1, true, false});
            for (const int step : leg.item_steps) {
                if (grid.every_s * step > 3600 + 1)
                    continue;
                int feeds = 1;
                for (int i = first + step; i < regular; i += step) {
                    if (!can(i, food)) {
                        if (grid.slots[static_cast<size_t>(i)].skip_item)
                            continue;
                        break;
                    }
                    ++feeds;
                    const int next = i + step;
                    const bool to_the_end = next >= regular;
                    const bool to_its_end =
                        to_the_end || (!can(next, food) && !grid.slots[static_cast<size_t>(next)].skip_item);
                    if (to_its_end || long_enough(grid, first, i, feeds))
                        out.push_back({food, step, first, i, feeds, false, to_the_end});
                }
            }
        }
    return out;
}

Cost price_of(const LegProgram& leg, const ItemLine& line) {
    const bool odd = line.single && leg.kind == LegKind::bike && leg.length_s[likely] > price::odd_from_s;
    return price::line + price::item * line.feeds + (odd ? price::odd_feed : 0);
}

std::vector<size_t> slots_of(const Grid& grid, const ItemLine& line) {
    std::vector<size_t> out;
    const size_t end = line.to_the_end ? grid.slots.size() : static_cast<size_t>(line.last) + 1;
    for (size_t i = static_cast<size_t>(line.first); i < end; i += static_cast<size_t>(line.step))
        if (grid.slots[i].foods >> line.food & 1u)
            out.push_back(i);
    return out;
}

} // namespace tuck::schedule
