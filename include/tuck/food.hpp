// Foods: one generic item per serving. Plain data; the pantry is read by io.
#pragma once

#include "tuck/quantity.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace tuck {

enum class Form { solid, bar, gel, chew, drink, powder, tablet, capsule };

const char* to_string(Form form);
std::optional<Form> form_from(const std::string& word);

/// The 14 groups of Annex II of EU Regulation 1169/2011, our short words, in the annex's order.
const std::vector<std::string>& allergen_names();

/// One serving of a generic food. Masses in g, sodium and caffeine in mg, energy in kcal, volume in ml.
/// `carb_g` is available carbohydrate (without fibre); glucose_g and fructose_g are the gut's two transport
/// paths after splitting (free glucose + half of sucrose + starch ...; free fructose + half of sucrose), so
/// glucose_g + fructose_g <= carb_g.
struct Food {
    std::string id;
    std::vector<std::string> was; // ids that it had in earlier releases
    std::string name;
    std::string group; // file it stands in: "gels", "bars", "fruit" ...
    std::string label; // at most 10 characters, for the card: "gel", "bar", "banana"
    Form form = Form::solid;
    Grams serving_g = 0;
    std::optional<Millilitres> serving_ml; // drinks and gels
    std::optional<Millilitres> makes_ml;   // powders and tablets: the drink that one serving makes
    double energy_kcal = 0;
    Grams carb_g = 0;
    Grams sugars_g = 0;
    Grams glucose_g = 0;
    Grams fructose_g = 0;
    Grams fibre_g = 0;
    Grams fat_g = 0;
    Grams protein_g = 0;
    Milligrams sodium_mg = 0;
    Milligrams caffeine_mg = 0;
    Grams water_g = 0;
    double smallest = 1;                // smallest part of a serving that a rider can take: 0.5 for a bar
    std::vector<std::string> fits;      // "bike", "run", "before", "after": where it can be used
    std::vector<std::string> allergens; // words of allergen_names()
    bool melts = false;                 // soft from about 28 C
    bool needs_water = false;           // an ordinary gel
    bool solid = false;                 // must be chewed
    bool vegan = true;
    bool own = false; // of the athlete's own, not of the pantry: used first
    std::string source;
    std::string locator;
    std::string provenance; // "read" | "memory" | "computed"
};

struct Pantry {
    std::map<std::string, Food> foods; // by id
    const Food* find(const std::string& id) const {
        auto it = foods.find(id);
        return it == foods.end() ? nullptr : &it->second;
    }
};

} // namespace tuck
