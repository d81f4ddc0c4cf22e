// The fields of a food, as they stand in the pantry.
#pragma once

#include "io/fields.hpp"
#include "io/units.hpp"
#include "tuck/food.hpp"

namespace tuck::io {

inline constexpr std::size_t most_foods_in_a_file = 500;
inline constexpr Range serving_range{0, 2000, "g"};

/// "bike", "run", "before", "after": where a food can be used.
const std::vector<std::string>& fit_names();

inline const Words<Form>& form_words() {
    static const Words<Form> words = [] {
        Words<Form> all;
        for (const auto form : {Form::solid, Form::bar, Form::gel, Form::chew, Form::drink, Form::powder,
                                Form::tablet, Form::capsule})
            all.emplace_back(to_string(form), form);
        return all;
    }();
    return words;
}

/// What words the lists may hold is judged with the sums: see food_check.hpp.
template <class V>
void visit_fields(Food& food, V& v) {
    const auto part = [&](const Field& f, Grams& value) {
        v.number(f, value, grams, serving_range, Need::required);
    };
    v.words({"id"}, food.id, 60, Need::required);
    v.list({"was", nullptr, "ids that it had in earlier releases"}, food.was, {}, 5);
    v.words({"name"}, food.name, 120, Need::required);
    v.words({"label", nullptr, "word for the card"}, food.label, 40, Need::required);
    v.choice({"form"}, food.form, form_words(), Need::required);
    part({"serving_g"}, food.serving_g);
    v.number({"serving_ml", nullptr, "volume of a serving, for what flows"}, food.serving_ml, volume_ml,
             {1, 2000, "ml"});
    v.number({"makes_ml", nullptr, "drink that one serving of powder or one tablet makes"}, food.makes_ml,
             volume_ml, {50, 2000, "ml"});
    v.number({"smallest", nullptr, "smallest part of a serving that can be taken; 1 if missing"},
             food.smallest, nullptr, {0, 1, "of a serving"}, Need::optional);
    v.number({"energy_kcal"}, food.energy_kcal, energy_kcal, {0, 20000, "kcal"}, Need::required);
    part({"carb_g", nullptr, "available carbohydrate, without fibre"}, food.carb_g);
    part({"sugars_g"}, food.sugars_g);
    part({"glucose_g", nullptr, "glucose path: free glucose, half of sucrose and lactose, maltose, starch"},
         food.glucose_g);
    part({"fructose_g", nullptr, "fructose path: free fructose, half of sucrose"}, food.fructose_g);
    part({"fibre_g"}, food.fibre_g);
    part({"fat_g"}, food.fat_g);
    part({"protein_g"}, food.protein_g);
    v.number({"sodium_mg", nullptr, "sodium, not salt: salt = sodium x 2.5"}, food.sodium_mg, milligrams,
             {0, 100000, "mg"}, Need::required);
    v.number({"caffeine_mg"}, food.caffeine_mg, milligrams, {0, 100000, "mg"}, Need::required);
    part({"water_g", nullptr, "water inside the serving"}, food.water_g);
    v.list({"fits", nullptr, "where it can be used; [] for what only goes into mixes"}, food.fits, {}, 4,
           Need::required);
    v.list({"allergens", nullptr, "groups of Annex II of EU Regulation 1169/2011; [] for none"},
           food.allergens, {}, 14, Need::required);
    v.flag({"melts", nullptr, "soft from about 28 C; false if missing"}, food.melts);
    food.needs_water = food.form == Form::gel;
    v.flag({"needs_water", nullptr, "taken with water; if missing, true for a gel"}, food.needs_water);
    v.flag({"solid", nullptr, "must be chewed; false if missing"}, food.solid);
    food.vegan = false;
    v.flag({"vegan", nullptr, "false if missing"}, food.vegan);
    v.words({"source", nullptr, "who gives the numbers"}, food.source, 200, Need::required);
    v.words({"locator", nullptr, "where in the source, and what was assumed"}, food.locator, 400);
    v.words({"provenance", nullptr, "read: seen in the source; memory: not seen; computed: from seen parts"},
            food.provenance, 20, Need::required);
}

} // namespace tuck::io
