#include "schedule/supplies.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace tuck::schedule {

namespace {

constexpr double sodium_mg_per_g_weighed_salt = figure("kit.salt_sodium_mg_per_g");
constexpr double least_ml = 0.5; // of drink; less is no bottle
constexpr double powder_step_g = figure("kit.powder_step_g"), powder_from_g = figure("kit.powder_from_g");

double stretch(const Setting& now, size_t leg) {
    return now.effort.legs[leg].time.p90_s / now.effort.legs[leg].time.p50_s;
}

/// Rounded as a kitchen measures it.
double weighable_g(double grams) {
    return grams < powder_from_g ? std::round(grams * 10) / 10
                                 : std::round(grams / powder_step_g) * powder_step_g;
}

/// For who has no scales: level spoons, g (common practice, no source).
std::string spoons_text(const Food& food, double grams) {
    constexpr double salt_teaspoon_g = figure("kit.salt_teaspoon_g"),
                     sugar_tablespoon_g = figure("kit.sugar_tablespoon_g"),
                     powder_tablespoon_g = figure("kit.powder_tablespoon_g");
    if (food.id == "table_salt")
        return grams < 0.2 * salt_teaspoon_g    ? "a pinch"
               : grams < 0.35 * salt_teaspoon_g ? "1/4 teaspoon"
               : grams < 0.75 * salt_teaspoon_g ? "1/2 teaspoon"
                                                : "1 teaspoon";
    const double spoons = grams / (food.id == "sucrose" ? sugar_tablespoon_g : powder_tablespoon_g);
    const double halves = std::max(1.0, std::round(2 * spoons));
    const int whole = static_cast<int>(halves / 2);
    const bool half = static_cast<int>(halves) % 2 != 0;
    return fmt::format("{}{} level tablespoon{}", whole > 0 ? std::to_string(whole) : "",
                       !half       ? ""
                       : whole > 0 ? " 1/2"
                                   : "1/2",
                       halves > 2 ? "s" : "");
}

std::string grams_text(const Food& food, double grams) {
    return fmt::format("{:g} g {} ({})", grams,
                       food.id == "table_salt" ? "salt"
                       : food.label.empty()    ? food.name
                                               : food.label,
                       spoons_text(food, grams));
}

size_t leg_with_bag(const Setting& now, LegKind kind) {
    size_t leg = 0;
    while (leg < now.event.legs.size() &&
           (now.event.legs[leg].kind != kind || !now.event.legs[leg].special_needs))
        ++leg;
    return leg;
}

/// The bottles of the special-needs bag, all full: those that the plan drinks from, and those that stand in
/// for a lost one.
void pack_bag_bottles(const Setting& now, const DrinkChoice& drink, size_t number, double to_fill_ml,
                      Schedule& out) {
    const size_t leg = leg_with_bag(now, LegKind::bike);
    if (leg == now.event.legs.size())
        return;
    const SpecialNeeds& bag = *now.event.legs[leg].special_needs;
    std::vector<std::string> take, spare;
    for (const double volume : bag.bottles_ml) {
        const auto name = fmt::format("B{}", ++number);
        const bool counted = to_fill_ml > least_ml && counts_on_bag(now, leg);
        (counted ? take : spare).push_back(name);
        out.mix.push_back(mix_bottle(now, drink.drink, name, volume, volume, drink.added_sodium_mg_per_ml));
        out.carry.push_back({"", 1, "bottle", "bike bag",
                             fmt::format("{}: {:.0f} ml bottle in the special-needs bag of the bike{}", name,
                                         volume, counted ? "" : ", in place of a lost one")});
        to_fill_ml -= volume;
    }
    out.special_needs.push_back(
        {static_cast<int>(leg), LegKind::bike, bag.km, !take.empty(),
         take.empty()
             ? fmt::format("Bag at km {:g}: {}, only for a lost bottle", bag.km, fmt::join(spare, " "))
             : fmt::format("Bag at km {:g}: take {}. No bag: water at the next station, one gel", bag.km,
                           fmt::join(take, " "))});
}

/// The bike's bottles, filled once for all bike legs and to the end of a slow day.
void pack_bottles(const Setting& now, const std::vector<Decided>& legs, Schedule& out) {
    double to_fill_ml = 0;
    const DrinkChoice* drink = nullptr;
    bool handed_up = false;
    for (const auto& leg : legs)
        if (leg.leg->kind == LegKind::bike && leg.own_ml > 0) {
            to_fill_ml += leg.choice.drink.own_ml;
            handed_up = handed_up || leg.choice.drink.filled_up || leg.handed_ml > 0;
            drink = leg.own_drink();
        }
    size_t number = 0;
    for (const double volume : now.kit.bottles_ml) {
        const auto name = fmt::format("B{}", ++number);
        if (to_fill_ml <= least_ml)
            continue;
        // To the top or to half: nobody marks 300 ml on a bottle (common practice). Who counts on a bottle
        // from a station once these are empty starts with full ones.
        const double fill_ml = to_fill_ml <= volume / 2 && !handed_up ? volume / 2 : volume;
        out.mix.push_back(
            mix_bottle(now, drink->drink, name, volume, fill_ml, drink->added_sodium_mg_per_ml));
        out.carry.push_back(
            {"", 1, "bottle", "bike", fmt::format("{}: {:.0f} ml bottle on the bike", name, volume)});
        to_fill_ml -= volume;
    }
    if (drink)
        pack_bag_bottles(now, *drink, number, to_fill_ml, out);
}

std::string place_of(LegKind kind) {
    return kind == LegKind::bike ? "bike" : kind == LegKind::run ? "belt" : kind == LegKind::t1 ? "T1" : "T2";
}

/// How the places are said in a sentence.
std::string place_text(const std::string& place) {
    return place == "bike"      ? "in a box or pocket on the bike"
           : place == "belt"    ? "in the run belt"
           : place == "run bag" ? "in the special-needs bag of the run"
                                : "laid out in " + place;
}

/// What the belt has no room for at the start of the run lies in the bag: the last items of the leg.
bool in_bag(const Setting& now, const Decided& leg, size_t taken) {
    if (leg.leg->room_before_bag < 0)
        return false;
    int later = 0, all = 0;
    for (size_t i = 0; i < leg.taken.size(); ++i) {
        const bool carried = leg.taken[i].item && leg.feeds[i].items.front().from != "station";
        all += carried;
        later += carried && i >= taken;
    }
    return later <= all - now.kit.run_gels;
}

struct Pile {
    const Food* food = nullptr;
    double servings = 0;
    std::string unit;
};

/// A gel to spare where the run's bag has room for it, and the word for the card.
void pack_run_bag(const Setting& now, Schedule& out) {
    const size_t leg = leg_with_bag(now, LegKind::run);
    if (leg == now.event.legs.size())
        return;
    const SpecialNeeds& bag = *now.event.legs[leg].special_needs;
    double planned = 0;
    for (const auto& item : out.carry)
        planned += item.where == "run bag" ? item.amount : 0;
    const auto gel =
        std::find_if(now.menu.run_food.begin(), now.menu.run_food.end(), [](const Portion& portion) {
            return portion.food->form == Form::gel && portion.food->caffeine_mg <= 0;
        });
    const bool spare = planned < bag.gels && gel != now.menu.run_food.end();
    if (spare)
        out.carry.push_back(
            {gel->food->id, 1, gel->unit, "run bag",
             fmt::format("1 x {} (to spare), in the special-needs bag of the run", gel->food->name)});
    if (planned + spare <= 0)
        return;
    out.special_needs.push_back(
        {static_cast<int>(leg), LegKind::run, bag.km, planned > 0,
         planned > 0 ? fmt::format("Bag at km {:g}: fill the belt. No bag: what stations hand out", bag.km)
                     : fmt::format("Bag at km {:g}: a spare gel", bag.km)});
}

void note_special_needs(const Setting& now, Schedule& out) {
    for (size_t i = 0; i < now.event.legs.size(); ++i)
        if (now.event.legs[i].special_needs &&
            std::none_of(out.special_needs.begin(), out.special_needs.end(),
                         [i](const BagStop& stop) { return stop.leg_index == static_cast<int>(i); }))
            out.assumptions.push_back(
                fmt::format("Nothing by plan goes into the special-needs bag on the {}.",
                            to_string(now.event.legs[i].kind)));
    for (const auto& stop : out.special_needs)
        out.assumptions.push_back(fmt::format("The special-needs bag on the {} may be lost: {}. Stopping for "
                                              "it takes 30 to 120 s (common practice, "
                                              "no source), which the times leave out.",
                                              to_string(stop.leg),
                                              stop.counted_on
                                                  ? "then what the stations after it hand out takes its place"
                                                  : "the plan counts on nothing in it"));
}

/// Where bottles are taken, each when the drink before it is gone: at the last station until then.
std::vector<double> hand_ups_km(const Setting& now, const Decided& leg) {
    std::vector<double> out;
    const auto stations = stations_of(now.event, now.effort, leg.leg->leg);
    double left_ml = 0; // of what was taken so far
    for (const auto& feed : leg.taken) {
        if (feed.sips == 0 || feed.own_drink)
            continue;
        left_ml -= feed.sips * leg.leg->sip_ml;
        if (left_ml >= -1e-9)
            continue;
        left_ml += leg.leg->per_station_ml;
        double km = 0;
        for (const auto& station : stations)
            if (station.form == ServedIn::bottle && station.km <= feed.km + 1e-6)
                km = station.km;
        if (out.empty() || km > out.back())
            out.push_back(km);
    }
    return out;
}

void pack_other_drink(const Setting& now, const Decided& leg, Schedule& out) {
    if (leg.own_ml <= 0)
        return;
    const auto kind = leg.leg->kind;
    if (is_transition(kind)) {
        out.carry.push_back(
            {"", 1, "bottle", place_of(kind), fmt::format("1 x 500 ml bottle in {}", place_of(kind))});
        out.mix.push_back(mix_bottle(now, leg.own_drink()->drink, leg.leg->vessel, 500, 500, 0));
    }
    if (kind == LegKind::run && leg.grid().every_s > 0) {
        const double flask_ml = now.kit.flask_ml;
        out.carry.push_back(
            {"", 1, "flask", "belt", fmt::format("{:.0f} ml {} on the run", flask_ml, leg.leg->vessel)});
        out.mix.push_back(mix_bottle(now, leg.own_drink()->drink, leg.leg->vessel, flask_ml, flask_ml, 0));
    }
}

} // namespace

Mix mix_bottle(const Setting& now, const Drink& drink, const std::string& name, double volume_ml,
               double fill_ml, double added_mg_per_ml) {
    Mix mix;
    mix.bottle = name;
    mix.volume_ml = fill_ml;
    double salt_g = added_mg_per_ml * fill_ml / sodium_mg_per_g_weighed_salt;
    for (const auto& [food, g_per_ml] : drink.mix_g_per_ml) {
        if (food->id == "table_salt")
            salt_g += g_per_ml * fill_ml;
        else
            mix.add.push_back({food->id, weighable_g(g_per_ml * fill_ml)});
    }
    if (weighable_g(salt_g) > 0)
        mix.add.push_back({"table_salt", weighable_g(salt_g)});
    std::vector<std::string> parts;
    for (const auto& item : mix.add)
        if (const Food* food = now.pantry.find(item.food))
            parts.push_back(grams_text(*food, item.grams));
    const std::string content =
        parts.empty() ? "water" : fmt::format("{}, then water", fmt::join(parts, " + "));
    mix.text = fill_ml < volume_ml
                   ? fmt::format("{} ({:.0f} ml bottle): {} to {:.0f} ml", name, volume_ml, content, fill_ml)
                   : fmt::format("{} ({:.0f} ml bottle): {} to the top", name, volume_ml, content);
    return mix;
}

void pack_food(const Setting& now, const std::vector<Decided>& legs, Schedule& out) {
    std::map<std::pair<std::string, std::string>, Pile> piles; // by place and food
    const Food* spare = nullptr;
    std::string spare_place;
    for (const auto& leg : legs) {
        // Bike feeds go on by the clock on a slow day; run feeds stay at their kilometres.
        const auto place = place_of(leg.leg->kind);
        for (size_t i = 0; i < leg.taken.size(); ++i) {
            const Portion* item = leg.taken[i].item;
            if (!item || leg.feeds[i].items.front().from == "station")
                continue;
            const bool with_caffeine = item->food->caffeine_mg > 0; // never one more than planned
            auto& pile = piles[{in_bag(now, leg, i) ? "run bag" : place, item->food->id}];
            pile.food = item->food;
            pile.unit = item->unit;
            pile.servings +=
                item->amount *
                (leg.leg->kind == LegKind::bike && !with_caffeine ? stretch(now, leg.leg->leg) : 1);
            if (!with_caffeine && item->food->form == Form::gel && (!spare || place == "bike")) {
                spare = item->food;
                spare_place = place;
            }
        }
    }
    double in_belt = 0; // a gel with caffeine lies beside the plain ones
    for (const auto& [key, pile] : piles)
        in_belt += key.first == "belt" ? std::ceil(pile.servings - 0.01) : 0;
    for (const auto& [key, pile] : piles) {
        const double needed = std::ceil(pile.servings - 0.01);
        const bool room = key.first != "belt" || in_belt < now.kit.run_gels;
        const bool with_spare = pile.food == spare && key.first == spare_place && room;
        const double count = needed + (with_spare ? 1 : 0);
        out.carry.push_back({pile.food->id, count, pile.unit, key.first,
                             fmt::format("{:g} x {}{}, {}", count, pile.food->name,
                                         with_spare ? " (one to spare)" : "", place_text(key.first))});
    }
}

/// Water has no food of its own.
std::string handed_label(const LegProgram& leg) {
    const Food* food = leg.station_drink.drink.food;
    return food ? food->label : "water";
}

void note_refill(const Setting& now, const std::vector<Decided>& legs, Schedule& out) {
    for (const auto& leg : legs) {
        if (leg.leg->kind != LegKind::bike)
            continue;
        if (leg.handed_ml <= 0) {
            if (leg.choice.drink.filled_up)
                out.refill_note = fmt::format("Bike, on a slow day: take 1 {} when your own is empty",
                                              handed_label(*leg.leg));
            continue;
        }
        std::vector<std::string> kms;
        for (const double km : hand_ups_km(now, leg))
            kms.push_back(fmt::format("{:g}", km));
        out.refill_note = fmt::format("Bike, km {}: take 1 {}, into the empty cage", fmt::join(kms, " "),
                                      handed_label(*leg.leg));
    }
}

void pack(const Setting& now, const std::vector<Decided>& legs, Schedule& out) {
    pack_bottles(now, legs, out);
    for (const auto& leg : legs)
        pack_other_drink(now, leg, out);
    pack_food(now, legs, out);
    pack_run_bag(now, out);
    note_special_needs(now, out);
    note_refill(now, legs, out);
}

} // namespace tuck::schedule
