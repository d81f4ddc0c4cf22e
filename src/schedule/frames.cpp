#include "schedule/frames.hpp"

#include "base/conditions.hpp"
#include "schedule/slots.hpp"
#include "schedule/typical_stations.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace tuck::schedule {

namespace {

constexpr double handed_bottle_ml = figure("kit.handed_bottle_ml");
constexpr double pockets_hold_g = figure("kit.pockets_hold_g");
constexpr double transition_carb_g = figure("feed.transition_carb_g");
constexpr double apart_s = 60 * figure("feed.apart_min");
// No three feeds within half an hour, unless the rate asks for it (common practice, no source).
constexpr double items_apart_s = 60 * figure("feed.items_apart_min"),
                 items_apart_at_a_high_rate_s = 60 * figure("feed.items_apart_high_rate_min"),
                 high_rate_g_per_h = figure("feed.high_rate_g_per_h");
constexpr double worth_a_stop_s = 60 * figure("feed.worth_a_stop_min");
constexpr double up_to_s = 3600 * figure("feed.up_to_h");
constexpr double swallows_over = figure("cap.swallows_over");
constexpr int most_run_item_step = 8;
constexpr int transition_lines = 2;
constexpr double drink_sodium_mg_per_ml = figure("sodium.drink_mg_per_ml");
constexpr double least_added_mg_per_ml = figure("kit.least_added_mg_per_ml");

double slowness(const Setting& now, size_t leg) {
    const auto& time = now.effort.legs[leg].time;
    return time.p90_s / time.p50_s;
}

/// Of a kind of food or drink: a generic one stands behind what the athlete has or likes.
Cost points_of(int rank, bool generic) {
    return price::kind + price::rank * rank + (generic ? price::disliked : 0);
}

FoodChoice food_choice(const Portion& portion, bool weighed, bool carried) {
    FoodChoice out{portion, amounts_of(portion.dose), points_of(portion.rank, portion.generic), price::item,
                   !carried};
    out.amounts[mass] =
        weighed ? static_cast<std::int32_t>(std::lround(1000 * portion.amount * portion.food->serving_g)) : 0;
    out.amounts[room] = carried ? 1 : 0;
    out.amounts[gel] = portion.solid ? 0 : 1;
    return out;
}

/// Adds portions to the leg; the bits of those that must be chewed stand apart.
void add_foods(LegProgram& leg, const std::vector<Portion>& portions, bool carried, FoodBits& bits) {
    for (const auto& portion : portions) {
        const std::uint32_t bit = 1u << leg.foods.size();
        (portion.solid ? bits.solid : bits.soft) |= bit;
        leg.foods.push_back(food_choice(portion, leg.kind == LegKind::bike, carried));
        if (leg.kind == LegKind::bike && !portion.solid && bits.solid != 0)
            leg.foods.back().item_points += price::gel_on_a_long_ride;
    }
}

/// Drinks that every station of the leg serves; water where nothing is named.
std::vector<Drink> served_everywhere(const Setting& now, const std::vector<Station>& stations) {
    std::vector<Drink> out;
    const auto on_all = [&stations](const std::string& id) {
        return std::all_of(stations.begin(), stations.end(), [&id](const Station& s) {
            return std::find(s.serves.begin(), s.serves.end(), id) != s.serves.end();
        });
    };
    for (const auto& id : stations.front().serves) {
        const Food* food = now.pantry.find(id);
        const bool caffeine_ok = food && (food->caffeine_mg <= 0 || now.need.limits.caffeine_dose_mg > 0);
        if (food && food->form == Form::drink && food->id != "water_tap" && caffeine_ok && on_all(id) &&
            allowed(now.athlete, *food, now.need.limits))
            out.push_back(served_drink(food));
    }
    out.push_back(served_drink(now.pantry.find("water_tap")));
    return out;
}

/// What every station hands out to eat, and which of the leg's foods that is.
std::vector<FoodBits> add_served_foods(const Setting& now, const std::vector<Station>& stations,
                                       LegProgram& leg) {
    std::vector<FoodBits> out(stations.size());
    std::vector<std::string> known;
    for (const auto& station : stations)
        for (const auto& id : station.serves) {
            const Food* food = now.pantry.find(id);
            if (!food || std::find(known.begin(), known.end(), id) != known.end() || leg.foods.size() >= 16)
                continue;
            known.push_back(id);
            const auto portion = served_portion(now.athlete, *food, now.need.limits);
            if (!portion)
                continue;
            FoodBits bits;
            add_foods(leg, {*portion}, false, bits);
            for (size_t i = 0; i < stations.size(); ++i) {
                const auto& serves = stations[i].serves;
                if (std::find(serves.begin(), serves.end(), id) != serves.end()) {
                    out[i].soft |= bits.soft;
                    out[i].solid |= bits.solid;
                }
            }
        }
    return out;
}

/// Salt in the bottle: up to 600 mg of sodium a litre where the day asks for sodium, at most 300 mg/h more
/// than the drink brings by itself. Plain water stays plain.
double added_sodium_mg_per_ml(const Setting& now, size_t leg, const Drink& drink) {
    const auto& need = now.need.legs[leg];
    if (need.sodium_mg_per_h <= 0 || drink.carb_g <= 0 || need.fluid_ml_per_h <= 0)
        return 0;
    const double added = std::min<double>(drink_sodium_mg_per_ml - drink.sodium_mg,
                                          now.need.limits.extra_sodium_mg / need.fluid_ml_per_h);
    return added < least_added_mg_per_ml ? 0 : added;
}

/// Every bike leg's part of the bottles, by its time.
double share_of_bottles(const Setting& now, size_t leg) {
    double all_s = 0;
    for (const auto& other : now.effort.legs)
        all_s += other.kind == LegKind::bike ? other.time.p50_s : 0;
    return now.effort.legs[leg].time.p50_s / all_s;
}

void hand_up_bottles(const Setting& now, LegProgram& leg) {
    const auto stations = stations_of(now.event, now.effort, leg.leg);
    for (const auto& station : stations)
        if (station.form == ServedIn::bottle)
            leg.stations_s.push_back(slowness(now, leg.leg) *
                                     time_at_s(now.effort.legs[leg.leg], station.km));
    if (leg.stations_s.empty())
        return;
    leg.per_station_ml = handed_bottle_ml;
    leg.station_drink = drink_choice(served_everywhere(now, stations).front(), leg.sip_ml);
}

/// On a slow day a feed by the clock comes before the bag for longer.
void open_bag(const Setting& now, LegProgram& leg) {
    if (!counts_on_bag(now, leg.leg))
        return;
    const SpecialNeeds& bag = *now.event.legs[leg.leg].special_needs;
    leg.bag_s = time_at_s(now.effort.legs[leg.leg], bag.km);
    if (leg.kind == LegKind::run) {
        leg.room_before_bag = leg.room;
        leg.room += bag.gels;
        return;
    }
    leg.bag_s *= slowness(now, leg.leg);
    for (const double ml : bag.bottles_ml)
        leg.bag_ml += ml;
}

void bike(const Setting& now, LegProgram& leg) {
    const Hands hands = hands_of(now.athlete);
    leg.stops = hands == Hands::none;
    if (leg.stops && leg.length_s[likely] < worth_a_stop_s)
        return;
    FoodBits bits;
    if (hands != Hands::bottle) {
        add_foods(leg, now.menu.solids, true, bits);
        add_foods(leg, now.menu.gels, true, bits);
    }
    for (auto drink : now.menu.bottles) {
        const double added = added_sodium_mg_per_ml(now, leg.leg, drink);
        drink.sodium_mg += added;
        leg.drinks.push_back(drink_choice(drink, leg.sip_ml));
        leg.drinks.back().added_sodium_mg_per_ml = added;
    }
    for (const int minutes : leg.stops ? std::vector{30, 40} : std::vector{10, 15, 20}) {
        if (!leg.stops && now.event.bike_rhythm_s && *now.event.bike_rhythm_s != minutes * 60)
            continue;
        leg.grids.push_back(clock_grid(now, leg.leg, minutes * 60.0, bits));
        leg.grids.back().points =
            leg.stops ? price::stopping(minutes) : price::rhythm(minutes, leg.length_s[likely]);
    }
    leg.items_with_drink = true;
    for (const double ml : now.kit.bottles_ml)
        leg.own_ml += ml;
    leg.own_ml *= share_of_bottles(now, leg.leg);
    leg.bottles = true;
    leg.pocket_mg = static_cast<std::int32_t>(1000 * pockets_hold_g / slowness(now, leg.leg));
    leg.max_lines = std::min(usual_bike_lines, now.event.max_lines_bike.value_or(usual_bike_lines));
    open_bag(now, leg);
    hand_up_bottles(now, leg);
}

void run(const Setting& now, LegProgram& leg) {
    const auto stations = stops(now, leg.leg);
    FoodBits bits;
    add_foods(leg, now.menu.run_food, true, bits);
    leg.room = now.kit.run_gels;
    open_bag(now, leg);
    leg.max_lines = std::min(usual_run_lines, now.event.max_lines_run.value_or(usual_run_lines));
    leg.most_item_step = most_run_item_step;
    leg.max_item_lines = 1;
    if (!stations.empty()) {
        const auto served = add_served_foods(now, stations, leg);
        leg.grids.push_back(station_grid(now, leg.leg, stations, bits, served));
        leg.sip_ml = cup_ml;
        leg.sip_unit = "cup";
        leg.most_sips = 2;
        for (const auto& drink : served_everywhere(now, stations))
            leg.drinks.push_back(drink_choice(drink, leg.sip_ml));
        leg.own_ml = std::numeric_limits<double>::infinity();
        return;
    }
    for (const int minutes : {10, 15, 20})
        leg.grids.push_back(paced_grid(now, leg.leg, minutes * 60.0, bits));
    leg.own_ml = now.kit.flask_ml / slowness(now, leg.leg);
    if (leg.own_ml > 0)
        for (const auto& drink : now.menu.bottles)
            leg.drinks.push_back(drink_choice(drink, leg.sip_ml));
}

/// Riders who keep both hands on the bar drink in transition; those who take only the bottle get their gel
/// there.
void transition(const Setting& now, LegProgram& leg) {
    const Hands hands = hands_of(now.athlete);
    const bool first = leg.kind == LegKind::t1;
    if (hands == Hands::bottle_and_food || (first && hands == Hands::bottle))
        return;
    if (leg.leg + 1 < now.need.legs.size() && now.need.legs[leg.leg + 1].carb_g_per_h <= 0)
        return; // what comes needs nothing
    FoodBits bits;
    if (!first)
        add_foods(leg, now.menu.gels, true, bits);
    leg.grids = {transition_grid(now, leg.leg, bits.soft)};
    for (const auto& drink : now.menu.bottles)
        leg.drinks.push_back(drink_choice(drink, leg.sip_ml));
    leg.own_ml = handed_bottle_ml;
    leg.max_lines = transition_lines;
}

/// The leg's aim, its caps and its ceiling.
void set_aim(const Setting& now, LegProgram& leg) {
    const auto& need = now.need.legs[leg.leg];
    const auto& limits = now.need.limits;
    const double length_s = leg.length_s[likely], hours = length_s / 3600;
    const double rate =
        is_transition(leg.kind) || need.carb_g_per_h <= 0 ? limits.carb_g.count() : need.carb_g_per_h;
    leg.caps = caps_of(rate, limits.glucose_path_g, limits.fructose_path_g, length_s);
    leg.items_apart_s = rate >= high_rate_g_per_h ? items_apart_at_a_high_rate_s : items_apart_s;
    leg.ceiling_ml_per_h = need.fluid_ml_per_h;
    leg.hour_over_ml = swallows_over * now.athlete.swallow_ml;
    leg.heat_pct = static_cast<int>(std::lround(
        100 * std::clamp((now.event.weather.temperature_c - price::mild_c) / (price::hot_c - price::mild_c),
                         0.0, 1.0)));
    if (is_transition(leg.kind)) {
        leg.aim = {static_cast<int>(1000 * transition_carb_g), 0, 0, true};
        return;
    }
    leg.aim = {static_cast<int>(std::lround(1000 * need.carb_g_per_h * hours)),
               static_cast<int>(std::lround(need.fluid_aim_ml_per_h * hours)),
               static_cast<int>(std::lround(need.sodium_mg_per_h * hours)), now.effort.total.p50_s < up_to_s};
    set_hours(leg);
}

/// "flask", or "flask 2" where the day has several legs of the kind.
std::string vessel_of(const Setting& now, size_t leg) {
    const LegKind kind = now.effort.legs[leg].kind;
    const auto like = [kind](const LegEffort& other) { return other.kind == kind; };
    const auto& legs = now.effort.legs;
    const auto number =
        std::count_if(legs.begin(), legs.begin() + static_cast<std::ptrdiff_t>(leg) + 1, like);
    const std::string name = kind == LegKind::t1 ? "T1 bottle" : kind == LegKind::t2 ? "T2 bottle" : "flask";
    return std::count_if(legs.begin(), legs.end(), like) > 1 ? fmt::format("{} {}", name, number) : name;
}

} // namespace

Dose sip_of(const Drink& drink, double ml) {
    Dose sip;
    sip.carb_g = drink.carb_g * ml;
    sip.glucose_g = drink.glucose_g * ml;
    sip.fructose_g = drink.fructose_g * ml;
    sip.sodium_mg = drink.sodium_mg * ml;
    sip.caffeine_mg = drink.caffeine_mg * ml;
    sip.fluid_ml = ml;
    return sip;
}

DrinkChoice drink_choice(const Drink& drink, double sip_ml) {
    const Dose sip = sip_of(drink, sip_ml);
    return {
        drink, sip, amounts_of(sip), points_of(drink.rank, drink.generic), 0, drink.carb_g > strongest_drink};
}

std::vector<Station> stops(const Setting& now, size_t leg) {
    std::vector<Station> out;
    double last_s = 0;
    for (const auto& station : stations_of(now.event, now.effort, leg)) {
        const double at_s = time_at_s(now.effort.legs[leg], station.km);
        if (out.empty() || at_s - last_s >= same_moment_s) {
            out.push_back(station);
            last_s = at_s;
        } else if (station.serves.size() > out.back().serves.size()) {
            out.back() = station;
            last_s = at_s;
        }
    }
    return out;
}

double longest_ride_m(const Effort& effort) {
    double out = 0;
    for (const auto& leg : effort.legs)
        if (leg.kind == LegKind::bike)
            out = std::max(out, leg.distance_m);
    return out;
}

std::vector<double> usual_bottles_ml(double ride_m) {
    return ride_m > 60e3   ? std::vector<double>{750, 750}
           : ride_m > 25e3 ? std::vector<double>{750}
                           : std::vector<double>{500};
}

KitInUse kit_in_use(const Event& event, const Effort& effort) {
    const double bike_m = longest_ride_m(effort);
    KitInUse kit;
    kit.bottles_assumed = !event.kit.bike_bottles_ml && bike_m > 0;
    if (event.kit.bike_bottles_ml)
        kit.bottles_ml = *event.kit.bike_bottles_ml;
    else if (bike_m > 0)
        kit.bottles_ml = usual_bottles_ml(bike_m);
    for (const Leg& leg : event.legs)
        if (leg.kind == LegKind::bike && leg.special_needs)
            kit.bag_bottles_ml = leg.special_needs->bottles_ml;
    kit.flask_ml = event.kit.run_flask_ml.value_or(0);
    kit.run_gels_assumed = !event.kit.run_gels;
    kit.run_gels = event.kit.run_gels.value_or(2);
    return kit;
}

std::vector<Station> stations_of(const Event& event, const Effort& effort, size_t leg) {
    if (!event.legs[leg].stations.empty() || event.station_policy == StationPolicy::as_given)
        return event.legs[leg].stations;
    const auto& l = effort.legs[leg];
    const TypicalStations* row = nullptr;
    for (const auto& typical : typical_stations())
        if (typical.leg == l.kind && typical.from_m <= l.distance_m)
            row = &typical;
    std::vector<Station> out;
    if (row && row->every_km > 0)
        for (double km = row->every_km; km <= l.distance_m / 1000 - 0.5; km += row->every_km)
            out.push_back({km, row->serves, row->form, std::nullopt});
    return out;
}

bool counts_on_bag(const Setting& now, size_t leg) {
    const auto& bag = now.event.legs[leg].special_needs;
    if (!bag)
        return false;
    const auto stations = stations_of(now.event, now.effort, leg);
    return std::any_of(stations.begin(), stations.end(), [&](const Station& station) {
        if (station.km <= bag->km)
            return false;
        if (now.event.legs[leg].kind == LegKind::bike)
            return station.form == ServedIn::bottle;
        return std::any_of(station.serves.begin(), station.serves.end(), [&now](const std::string& id) {
            const Food* food = now.pantry.find(id);
            return food && food->carb_g > 0;
        });
    });
}

Program program_of(const Setting& now) {
    Program out;
    out.limits = now.need.limits;
    out.day_caps = caps_of(out.limits.carb_g, out.limits.glucose_path_g, out.limits.fructose_path_g, 0);
    for (size_t day = 0; day < days; ++day)
        out.curves[day] = FluidCurves(now.effort, now.need, day);
    for (size_t i = 0; i < now.effort.legs.size(); ++i) {
        LegProgram leg;
        leg.leg = i;
        leg.kind = now.effort.legs[i].kind;
        leg.start_s = start_of(now.effort, i);
        leg.length_s = length_of(now.effort, i);
        leg.sip_ml = now.athlete.swallow_ml;
        leg.vessel = vessel_of(now, i);
        if (leg.kind == LegKind::bike)
            bike(now, leg);
        else if (leg.kind == LegKind::run)
            run(now, leg);
        else if (is_transition(leg.kind))
            transition(now, leg);
        set_aim(now, leg);
        out.legs.push_back(std::move(leg));
    }
    return out;
}

Amounts carried_amounts(const Portion& portion, LegKind leg) {
    return food_choice(portion, leg == LegKind::bike, true).amounts;
}

bool belt_full(const LegProgram& leg, double at_s) {
    return leg.room == 0 || (at_s < leg.bag_s && leg.room_before_bag == 0);
}

void fix(Program& program, const FixedItem& item) {
    auto& leg = program.legs[item.leg];
    for (auto& grid : leg.grids)
        for (auto& slot : grid.slots)
            if (std::abs(slot.at_s - item.at_s) < apart_s) {
                slot.foods = 0;
                slot.skip_item = true;
            }
    const auto take_room = [](std::int32_t& left) { left = left > 0 ? left - 1 : left; };
    if (!item.served) {
        take_room(leg.room);
        if (item.at_s < leg.bag_s)
            take_room(leg.room_before_bag);
    }
    if (leg.pocket_mg >= 0)
        leg.pocket_mg = std::max(0, leg.pocket_mg - item.amounts[mass]);
    // A limit that pins alone would break is raised: the pins stand.
    leg.max_lines = std::max(0, leg.max_lines - 1);
    program.fixed.push_back(item);
}

std::vector<FixedItem> caffeine_places(const Setting& now, const Program& program) {
    std::vector<FixedItem> out;
    const auto& limits = now.need.limits;
    if (!now.menu.caffeine ||
        now.menu.caffeine->dose.caffeine_mg > std::min(limits.caffeine_dose_mg, limits.caffeine_day_mg))
        return out;
    for (const auto& leg : program.legs) {
        if (leg.grids.empty() || leg.foods.empty() || is_transition(leg.kind))
            continue;
        // On the bike a full hour: there every rhythm has a slot.
        for (const auto& slot : leg.grids.back().slots) {
            const bool whole_hour = std::fmod(slot.at_s, 3600) < 1;
            const bool late = leg.start_s[likely] + slot.at_s > now.effort.total.p50_s / 2;
            if (!late || slot.extra || !slot.foods || belt_full(leg, slot.at_s) ||
                (leg.kind == LegKind::bike && !whole_hour))
                continue;
            FixedItem item{leg.leg, slot.at_s, slot.clock_s, *now.menu.caffeine, {}, false};
            item.km = slot.km;
            item.amounts = carried_amounts(*now.menu.caffeine, leg.kind);
            out.push_back(item);
        }
    }
    return out;
}

} // namespace tuck::schedule
