#include "schedule/menu.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::schedule {

namespace {

// Common practice, no source: a gel up to 30 g is well served by 150 ml, a larger one by 6 ml for each gram.
constexpr double gel_water_ml_per_g = figure("gel.water_ml_per_g"),
                 usual_gel_water_ml = figure("gel.water_ml"), usual_gel_g = figure("gel.usual_g");
// Above 60 g/h a stronger drink of both sugars is worth its kind (Jeukendrup 2014); with the tolerance that
// every rate has, 66 is 60. What each sugar path takes is a rule of its own.
constexpr double high_rate_g_per_h = figure("menu.strong_from_g_per_h");
constexpr double least_drink = figure("menu.least_drink_g_per_ml");
/// Of a drink powder that is too strong by its packet: the part of it that makes a drink of about 8 %, in
/// tens of grams a litre.
double diluted(const Food& powder) {
    const double g_per_l = 1000 * powder.serving_g / *powder.makes_ml;
    return std::floor(100 * strongest_drink * powder.serving_g / powder.carb_g) * 10 / g_per_l;
}
constexpr double melts_from_c = figure("menu.melts_from_c");
constexpr double least_portion_g = 10, most_portion_g = 32, most_asked_for_g = 45;
constexpr size_t most_choices = 3; // of each kind: few kinds are easier to follow

// Tried in this order where the athlete asks for nothing (common practice, no source).
const std::vector<std::string> usual_solids{"energy_bar", "banana_ripe", "rice_cake_home", "fig_biscuit"};
// The usual gel and drink hold both sugars, so that a higher rate does not change what is eaten.
const std::vector<std::string> usual_gels{"gel_25", "gel_isotonic"};
const std::vector<std::string> usual_powders{"isotonic_powder", "highcarb_powder"};

bool listed(const std::vector<std::string>& words, const Food& food) {
    return std::any_of(words.begin(), words.end(),
                       [&food](const std::string& w) { return w == food.id || w == food.group; });
}

bool fits(const Food& food, const char* where) {
    return std::find(food.fits.begin(), food.fits.end(), where) != food.fits.end();
}

int rank_of(const Athlete& athlete, const Food& food, const std::vector<std::string>& usual) {
    if (food.own || listed(athlete.like, food) || listed(athlete.only, food))
        return 0;
    const auto at = std::find(usual.begin(), usual.end(), food.id);
    return at == usual.end() ? 100 : 1 + static_cast<int>(at - usual.begin());
}

std::string unit_word(const Food& food) {
    switch (food.form) {
    case Form::gel:
        return "gel";
    case Form::bar:
        return "bar";
    default:
        return "piece";
    }
}

/// The serving, or the part of it, or several of it, that comes nearest to 20 g of carbohydrate.
std::optional<double> handy_amount(const Food& food, bool asked_for) {
    std::optional<double> best;
    for (int parts = 1; parts <= 8; ++parts) {
        const double amount = parts * food.smallest;
        const double carb = amount * food.carb_g;
        if (carb < least_portion_g || carb > most_portion_g)
            continue;
        if (!best || std::abs(carb - 20) < std::abs(*best * food.carb_g - 20))
            best = amount;
    }
    if (!best && asked_for && food.carb_g <= most_asked_for_g)
        best = 1; // whole, as it comes
    return best;
}

/// So much of a food; `rank` as in the menu.
Portion portion_with(const Food& food, double amount, int rank) {
    const bool chewed = food.form == Form::bar || food.form == Form::solid;
    Portion out{&food, amount, unit_word(food), {}, chewed, rank};
    out.dose.carb_g = amount * food.carb_g;
    out.dose.glucose_g = amount * food.glucose_g;
    out.dose.fructose_g = amount * food.fructose_g;
    out.dose.fluid_ml = amount * food.water_g;
    out.dose.sodium_mg = amount * food.sodium_mg;
    out.dose.caffeine_mg = amount * food.caffeine_mg;
    // Drunk with it, beside the water that is in it.
    const double wanted_ml =
        std::min(gel_water_ml_per_g * out.dose.carb_g,
                 out.dose.carb_g <= usual_gel_g ? usual_gel_water_ml : gel_water_ml_per_g * out.dose.carb_g);
    out.dose.gel_water_ml = food.needs_water ? wanted_ml + out.dose.fluid_ml : 0;
    return out;
}

std::optional<Portion> portion_of(const Food& food, int rank) {
    const auto amount = handy_amount(food, rank == 0);
    return amount ? std::optional(portion_with(food, *amount, rank)) : std::nullopt;
}

void keep_best(std::vector<Portion>& portions) {
    std::stable_sort(portions.begin(), portions.end(),
                     [](const Portion& a, const Portion& b) { return a.rank < b.rank; });
    const bool any_usual = !portions.empty() && portions.front().rank < 100;
    while (portions.size() > most_choices || (any_usual && portions.back().rank >= 100))
        portions.pop_back();
    const auto asked_for = [&portions](bool solid) {
        return std::any_of(portions.begin(), portions.end(),
                           [solid](const Portion& p) { return p.rank == 0 && p.solid == solid; });
    };
    const bool solid = asked_for(true), soft = asked_for(false);
    for (auto& portion : portions)
        portion.generic = portion.rank > 0 && (portion.solid ? solid : soft);
}

/// Who likes a food of one form gets it before any of the other form, unless that costs about a line more.
void stand_behind_liked(std::vector<Portion>& portions, const std::vector<Portion>& others) {
    constexpr int places = 3;
    const auto liked = [](const Portion& portion) { return portion.rank == 0; };
    if (std::any_of(others.begin(), others.end(), liked) &&
        std::none_of(portions.begin(), portions.end(), liked))
        for (auto& portion : portions)
            portion.rank += places;
}

/// At the strength of the packet, or diluted from it.
Drink drink_from_powder(const Food& powder, int rank, double strength) {
    const double per_ml = strength / powder.makes_ml.value_or(500);
    Drink out;
    out.food = &powder;
    out.mix_g_per_ml = {{&powder, powder.serving_g * per_ml}};
    out.carb_g = powder.carb_g * per_ml;
    out.glucose_g = powder.glucose_g * per_ml;
    out.fructose_g = powder.fructose_g * per_ml;
    out.sodium_mg = powder.sodium_mg * per_ml;
    out.caffeine_mg = powder.caffeine_mg * per_ml;
    out.rank = rank;
    return out;
}

/// Sugar and salt in water: 6 % and 1.5 g/L of salt, for those who have no powder.
std::optional<Drink> home_drink(const Athlete& athlete, const IntakeLimits& limits, const Pantry& pantry) {
    const Food* sugar = pantry.find("sucrose");
    const Food* salt = pantry.find("table_salt");
    const Food* drink = pantry.find("drink_home_6pct");
    if (!sugar || !salt || !drink || !drink->serving_ml || !allowed(athlete, *sugar, limits) ||
        !allowed(athlete, *drink, limits))
        return std::nullopt;
    Drink out = served_drink(drink);
    out.mix_g_per_ml = {{sugar, 0.06}, {salt, 0.0015}};
    out.rank = listed(athlete.like, *drink) ? 0 : 5;
    return out;
}

void fill_bottles(const Athlete& athlete, const IntakeLimits& limits, const Pantry& pantry, Menu& menu) {
    for (const auto& [id, food] : pantry.foods) {
        if (food.form != Form::powder || !food.makes_ml || !allowed(athlete, food, limits))
            continue;
        const int rank = rank_of(athlete, food, usual_powders);
        const bool high = limits.carb_g > high_rate_g_per_h;
        if (rank >= 100 || (rank > 0 && (rank > 1) != high))
            continue;
        const double packet = food.carb_g / *food.makes_ml;
        const bool strong = packet > strongest_drink;
        if (!strong || limits.strong_drink)
            menu.bottles.push_back(drink_from_powder(food, rank, 1));
        if (strong && packet * diluted(food) > least_drink)
            menu.bottles.push_back(drink_from_powder(food, rank, diluted(food)));
        else if (strong && !limits.strong_drink && rank == 0)
            menu.left_out.push_back(food.name +
                                    ": a drink above 8 % is planned only after it has been rehearsed.");
    }
    if (menu.bottles.empty())
        if (const auto home = home_drink(athlete, limits, pantry))
            menu.bottles.push_back(*home);
    std::stable_sort(menu.bottles.begin(), menu.bottles.end(),
                     [](const Drink& a, const Drink& b) { return a.rank < b.rank; });
    for (auto& drink : menu.bottles)
        drink.generic = menu.bottles.front().rank == 0 && drink.rank > 0;
    menu.bottles.push_back(served_drink(pantry.find("water_tap")));
}

} // namespace

bool holds_allergen(const Athlete& athlete, const Food& food) {
    const auto hit = [&food](const std::string& allergen) {
        return std::find(food.allergens.begin(), food.allergens.end(), allergen) != food.allergens.end();
    };
    return std::any_of(athlete.allergy.begin(), athlete.allergy.end(), hit) ||
           (athlete.health.coeliac && hit("gluten"));
}

bool allowed(const Athlete& athlete, const Food& food, const IntakeLimits& limits) {
    if (!athlete.only.empty() && !listed(athlete.only, food))
        return false;
    if (listed(athlete.avoid, food) || holds_allergen(athlete, food))
        return false;
    return !(limits.fructose_path_g <= 0 && food.fructose_g > 0);
}

std::optional<Portion> served_portion(const Athlete& athlete, const Food& food, const IntakeLimits& limits) {
    const bool soft = food.form == Form::gel || food.form == Form::chew;
    const bool chewed = food.form == Form::bar || food.form == Form::solid;
    if ((!soft && !(chewed && limits.solids_on_run)) || food.caffeine_mg > 0 || !fits(food, "run") ||
        !allowed(athlete, food, limits))
        return std::nullopt;
    return portion_of(food, rank_of(athlete, food, soft ? usual_gels : usual_solids));
}

std::optional<Portion> pinned_portion(const Athlete& athlete, const Food& food, const IntakeLimits& limits) {
    const bool hand = food.form == Form::gel || food.form == Form::chew || food.form == Form::bar ||
                      food.form == Form::solid;
    return hand && allowed(athlete, food, limits) ? portion_of(food, 0) : std::nullopt;
}

Portion typed_portion(const Food& food, double amount) {
    return portion_with(food, amount, 0);
}

Drink typed_drink(const Food& food) {
    return food.form == Form::powder ? drink_from_powder(food, 0, 1) : served_drink(&food);
}

Drink mixed_drink(const Food& named, const std::vector<std::pair<const Food*, double>>& grams, double ml) {
    Drink out;
    out.food = &named;
    for (const auto& [food, g] : grams) {
        const double share = g / ml / food->serving_g;
        out.mix_g_per_ml.push_back({food, g / ml});
        out.carb_g += share * food->carb_g;
        out.glucose_g += share * food->glucose_g;
        out.fructose_g += share * food->fructose_g;
        out.sodium_mg += share * food->sodium_mg;
        out.caffeine_mg += share * food->caffeine_mg;
    }
    return out;
}

Drink served_drink(const Food* food) {
    Drink out;
    out.food = food;
    if (!food || !food->serving_ml || *food->serving_ml <= 0)
        return out;
    const double per_ml = 1 / *food->serving_ml;
    out.carb_g = food->carb_g * per_ml;
    out.glucose_g = food->glucose_g * per_ml;
    out.fructose_g = food->fructose_g * per_ml;
    out.sodium_mg = food->sodium_mg * per_ml;
    out.caffeine_mg = food->caffeine_mg * per_ml;
    return out;
}

Menu make_menu(const Athlete& athlete, const Weather& weather, const IntakeLimits& limits,
               const Pantry& pantry) {
    Menu menu;
    for (const auto& [id, food] : pantry.foods) {
        const bool soft = food.form == Form::gel || food.form == Form::chew;
        const bool hand = soft || food.form == Form::bar || food.form == Form::solid;
        if (!hand || !allowed(athlete, food, limits) || (food.melts && weather.temperature_c >= melts_from_c))
            continue;
        const auto portion = portion_of(food, rank_of(athlete, food, soft ? usual_gels : usual_solids));
        if (!portion)
            continue;
        if (food.caffeine_mg > 0) {
            if (limits.caffeine_dose_mg >= portion->dose.caffeine_mg && soft && !menu.caffeine)
                menu.caffeine = portion;
            continue;
        }
        if (fits(food, "bike"))
            (soft ? menu.gels : menu.solids).push_back(*portion);
        if (fits(food, "run") && (soft || limits.solids_on_run))
            menu.run_food.push_back(*portion);
    }
    keep_best(menu.solids);
    keep_best(menu.gels);
    keep_best(menu.run_food);
    stand_behind_liked(menu.solids, menu.gels);
    stand_behind_liked(menu.gels, menu.solids);
    if (!limits.solids)
        menu.solids.clear();
    fill_bottles(athlete, limits, pantry, menu);
    return menu;
}

} // namespace tuck::schedule
