#include "schedule/supplies.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace tuck::schedule {

namespace {

constexpr double sodium_mg_per_g_weighed_salt = 387.6; // USDA SR, NDB 02047
constexpr double fill_step_ml = 50, least_fill_ml = 300;

double stretch(const Setting& now, size_t leg) {
    return now.effort.legs[leg].time.p90_s / now.effort.legs[leg].time.p50_s;
}

/// Rounded so that kitchen scales can weigh it.
double weighable_g(double grams) {
    return grams < 5 ? std::round(grams * 10) / 10 : std::round(grams);
}

std::string grams_text(const Food& food, double grams) {
    return fmt::format("{:g} g {}", grams,
                       food.id == "table_salt" ? "salt"
                       : food.label.empty()    ? food.name
                                               : food.label);
}

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

/// The bike's bottles, filled once for all bike legs and to the end of a slow day.
void pack_bottles(const Setting& now, const std::vector<Decided>& legs, Schedule& out) {
    double to_fill_ml = 0;
    const DrinkChoice* drink = nullptr;
    for (const auto& leg : legs)
        if (leg.leg->kind == LegKind::bike && leg.own_ml > 0) {
            to_fill_ml += leg.own_ml * stretch(now, leg.leg->leg);
            drink = leg.own_drink();
        }
    for (size_t i = 0; i < now.kit.bottles_ml.size() && to_fill_ml > 1; ++i) {
        const double volume = now.kit.bottles_ml[i];
        const double wanted = std::max(least_fill_ml, std::ceil(to_fill_ml / fill_step_ml) * fill_step_ml);
        const auto name = fmt::format("B{}", i + 1);
        out.mix.push_back(mix_bottle(now, drink->drink, name, volume, std::min(volume, wanted),
                                     drink->added_sodium_mg_per_ml));
        out.carry.push_back(
            {"", 1, "bottle", "bike", fmt::format("{}: {:.0f} ml bottle on the bike", name, volume)});
        to_fill_ml -= volume;
    }
}

std::string place_of(LegKind kind) {
    return kind == LegKind::bike ? "bike" : kind == LegKind::run ? "belt" : kind == LegKind::t1 ? "T1" : "T2";
}

/// How the places are said in a sentence.
std::string place_text(const std::string& place) {
    return place == "bike"   ? "in a box or pocket on the bike"
           : place == "belt" ? "in the run belt"
                             : "laid out in " + place;
}

struct Pile {
    const Food* food;
    double servings = 0;
    std::string unit;
};

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
            auto& pile = piles[{place, item->food->id}];
            pile.food = item->food;
            pile.unit = item->unit;
            pile.servings += item->amount * (leg.leg->kind == LegKind::bike && !with_caffeine
                                                 ? stretch(now, leg.leg->leg)
                                                 : 1);
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

void note_refill(const Setting& now, const std::vector<Decided>& legs, Schedule& out) {
    for (const auto& leg : legs) {
        if (leg.leg->kind != LegKind::bike || leg.handed_ml <= 0)
            continue;
        const auto stations = stations_of(now.event, now.effort, leg.leg->leg);
        std::vector<std::string> kms;
        for (const auto& station : stations)
            kms.push_back(fmt::format("{:g}", station.km));
        out.refill_note = fmt::format("Take a bottle at km {}", fmt::join(kms, " "));
    }
}

void pack_other_drink(const Setting& now, const Decided& leg, Schedule& out) {
    if (leg.own_ml <= 0)
        return;
    const auto kind = leg.leg->kind;
    if (is_transition(kind)) {
        out.carry.push_back({"", 1, "bottle", place_of(kind),
                             fmt::format("1 x 500 ml bottle in {}", place_of(kind))});
        out.mix.push_back(mix_bottle(now, leg.own_drink()->drink, transition_bottle(kind), 500, 500, 0));
    }
    if (kind == LegKind::run && leg.grid().every_s > 0) {
        const double flask_ml = now.kit.flask_ml;
        out.carry.push_back({"", 1, "flask", "belt", fmt::format("{:.0f} ml flask on the run", flask_ml)});
        out.mix.push_back(mix_bottle(now, leg.own_drink()->drink, "flask", flask_ml, flask_ml, 0));
    }
}

} // namespace

void pack(const Setting& now, const std::vector<Decided>& legs, Schedule& out) {
    pack_bottles(now, legs, out);
    for (const auto& leg : legs)
        pack_other_drink(now, leg, out);
    pack_food(now, legs, out);
    note_refill(now, legs, out);
}

} // namespace tuck::schedule
