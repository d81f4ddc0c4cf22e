// The menu: what this athlete may eat and drink on the move, from the pantry.
#pragma once

#include "schedule/timeline.hpp"
#include "tuck/athlete.hpp"
#include "tuck/food.hpp"
#include "tuck/need.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::schedule {

/// One thing taken in one go with one hand: "1/2 bar", "1 gel", "4 pieces".
struct Portion {
    const Food* food = nullptr;
    double amount = 1;    // servings
    std::string unit;     // "gel", "bar", "piece"
    Dose dose;            // at_s unused
    bool solid = false;   // a bar, fruit, bread: kept away from the swim and the run (chews count as gels)
    int rank = 0;         // 0: asked for by the athlete
    bool generic = false; // the athlete has or likes another one of its form
};

/// g/ml: up to 6-8 % empties well from the stomach (Murray 1999); above it a drink counts as concentrated.
inline constexpr double strongest_drink = 0.08;

/// A drink, per ml. `mix` powders are weighed into the bottle; a ready drink or water has none.
struct Drink {
    const Food* food = nullptr; // what a feed names
    std::vector<std::pair<const Food*, double>> mix_g_per_ml;
    double carb_g = 0, glucose_g = 0, fructose_g = 0, sodium_mg = 0, caffeine_mg = 0;
    int rank = 0;
    bool generic = false;
};

struct Menu {
    std::vector<Portion> solids;   // to chew, bike
    std::vector<Portion> gels;     // gels and chews, bike
    std::vector<Portion> run_food; // on the run
    std::vector<Drink> bottles;    // what may be mixed; plain water last
    std::optional<Portion> caffeine;
    std::vector<std::string> left_out; // sentences: what was left out and why, where it matters
};

Menu make_menu(const Athlete& athlete, const Weather& weather, const IntakeLimits& limits,
               const Pantry& pantry);

/// An allergen of the athlete's, or gluten where it is not tolerated.
bool holds_allergen(const Athlete& athlete, const Food& food);

/// Not avoided, no allergen of the athlete's, no fructose where none is tolerated.
bool allowed(const Athlete& athlete, const Food& food, const IntakeLimits& limits);

/// What a station hands out to eat, in the amount that is handy; nothing if it may not be eaten.
std::optional<Portion> served_portion(const Athlete& athlete, const Food& food, const IntakeLimits& limits);

/// What is asked for by name: the handy amount of a gel, a bar, chews or a bite; nothing if it may not be
/// eaten.
std::optional<Portion> pinned_portion(const Athlete& athlete, const Food& food, const IntakeLimits& limits);

/// Any amount of a food that somebody typed, whatever speaks against it.
Portion typed_portion(const Food& food, double amount);

/// A drink in the athlete's own bottle, whatever speaks against it: a powder as on its packet, a drink as it
/// is.
Drink typed_drink(const Food& food);

/// What grams of powders and salt in so many ml of water make; `named` is what feeds call it.
Drink mixed_drink(const Food& named, const std::vector<std::pair<const Food*, double>>& grams, double ml);

/// A drink that an aid station serves, or water.
Drink served_drink(const Food* food);

} // namespace tuck::schedule
