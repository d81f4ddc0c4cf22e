#include "schedule/menu.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::schedule {

namespace {

constexpr double gel_water_ml_per_g = 6; // 150 ml with 25 g, the low end of common practice
constexpr double melts_from_c = 25;      // chocolate, common practice, no source
constexpr double least_portion_g = 10, most_portion_g = 32;
constexpr size_t most_choices = 3; // of each kind: few kinds are easier to follow

// Tried in this order where the athlete asks for nothing (common practice, no source).
const std::vector<std::string> usual_solids{"energy_bar", "banana_ripe", "rice_cake_home", "fig_biscuit"};
const std::vector<std::string> usual_gels{"gel_25", "gel_isotonic"};
const std::vector<std::string> usual_powders{"isotonic_powder"};

bool listed(const std::vector<std::string>& words, const Food& food) {
    return std::any_of(words.begin(), words.end(),
                       [&food](const std::string& w) { return w == food.id || w == food.group; });
}

bool fits(const Food& food, const char* where) {
    return std::find(food.fits.begin(), food.fits.end(), where) != food.fits.end();
}

int rank_of(const Athlete& athlete, const Food& food, const std::vector<std::string>& usual) {
    if (listed(athlete.like, food) || listed(athlete.only, food))
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
std::optional<double> handy_amount(const Food& food) {
    std::optional<double> best;
    for (int parts = 1; parts <= 8; ++parts) {
        const double amount = parts * food.smallest;
        const double carb = amount * food.carb_g;
        if (carb < least_portion_g || carb > most_portion_g)
            continue;
        if (!best || std::abs(carb - 20) < std::abs(*best * food.carb_g - 20))
            best = amount;
    }
    return best;
}

std::optional<Portion> portion_of(const Food& food, int rank) {
    const auto amount = handy_amount(food);
    if (!amount)
        return std::nullopt;
    const bool chewed = food.form == Form::bar || food.form == Form::solid;
    Portion out{&food, *amount, unit_word(food), {}, chewed, rank};
    out.dose.carb_g = *amount * food.carb_g;
    out.dose.glucose_g = *amount * food.glucose_g;
    out.dose.fructose_g = *amount * food.fructose_g;
    out.dose.fluid_ml = *amount * food.water_g;
    out.dose.sodium_mg = *amount * food.sodium_mg;
    out.dose.caffeine_mg = *amount * food.caffeine_mg;
    // Drunk with it, beside the water that is in it.
    out.dose.gel_water_ml = food.needs_water ? gel_water_ml_per_g * out.dose.carb_g + out.dose.fluid_ml : 0;
    return out;
}

void keep_best(std::vector<Portion>& portions) {
    std::stable_sort(portions.begin(), portions.end(),
                     [](const Portion& a, const Portion& b) { return a.rank < b.rank; });
    const bool any_usual = !portions.empty() && portions.front().rank < 100;
    while (portions.size() > most_choices || (any_usual && portions.back().rank >= 100))
        portions.pop_back();
}

Drink drink_from_powder(const Food& powder, int rank) {
    const double per_ml = 1 / powder.makes_ml.value_or(500);
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
        const bool strong = food.carb_g / *food.makes_ml > strongest_drink;
        if (rank < 100 && (!strong || limits.strong_drink))
            menu.bottles.push_back(drink_from_powder(food, rank));
        else if (rank == 0)
            menu.left_out.push_back(food.name +
                                    ": a drink above 8 % is planned only after it has been rehearsed.");
    }
    if (menu.bottles.empty())
        if (const auto home = home_drink(athlete, limits, pantry))
            menu.bottles.push_back(*home);
    std::stable_sort(menu.bottles.begin(), menu.bottles.end(),
                     [](const Drink& a, const Drink& b) { return a.rank < b.rank; });
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
    if (!limits.solids)
        menu.solids.clear();
    fill_bottles(athlete, limits, pantry, menu);
    return menu;
}

std::string amount_text(double amount, const std::string& unit) {
    if (amount == 0.5)
        return "1/2 " + unit;
    if (amount == 1)
        return unit == "swallow" || unit == "cup" ? "1 " + unit : unit;
    return fmt::format("{:g} {}s", amount, unit);
}

} // namespace tuck::schedule
