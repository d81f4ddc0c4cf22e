// Food labels and drinks.
#include "body/label.hpp"
#include "models/entry.hpp"

namespace tuck::registry {
namespace {

constexpr char eu[] = "Regulation (EU) No 1169/2011";

body::LabelNutrients nutrients(const Given& g) {
    body::LabelNutrients label;
    label.carb_g = g.not_negative("carb_g");
    label.polyols_g = g.not_negative("polyols_g");
    label.fat_g = g.not_negative("fat_g");
    label.protein_g = g.not_negative("protein_g");
    label.alcohol_g = g.not_negative("alcohol_g");
    label.acids_g = g.not_negative("acids_g");
    label.fibre_g = g.not_negative("fibre_g");
    return label;
}

double us_rounding(const Given& g) {
    const double amount = g.not_negative("amount");
    const std::string& nutrient = g.word("nutrient");
    if (nutrient == "energy_kcal") {
        return body::us_rounded_energy_kcal(amount);
    }
    if (nutrient == "fat_g") {
        return body::us_rounded_fat_g(amount);
    }
    if (nutrient == "sodium_mg" || nutrient == "potassium_mg") {
        return body::us_rounded_sodium_mg(amount);
    }
    return body::us_rounded_carb_g(amount);
}

ModelResult osmolality(const Given& g) {
    body::Solutes s;
    s.glucose = g.not_negative("glucose_g_L");
    s.fructose = g.not_negative("fructose_g_L");
    s.sucrose = g.not_negative("sucrose_g_L");
    s.maltodextrin = g.not_negative("maltodextrin_g_L");
    s.dextrose_equivalent = g.positive("DE");
    s.salt = g.not_negative("NaCl_g_L");
    s.potassium_chloride = g.not_negative("KCl_g_L");
    s.sodium_citrate = g.not_negative("citrate_g_L");
    const double dissolved = s.glucose + s.fructose + s.sucrose + s.maltodextrin + s.salt +
                             s.potassium_chloride + s.sodium_citrate;
    const bool dilute = dissolved <= 120;
    return {{{"osmolality_mosm_kg", body::osmolality_mosm_per_kg(s)},
             {"ideal_mosm_L", body::ideal_osmolarity_mosm_per_l(s)}},
            dilute,
            dilute ? "" : "above about 12 % the dilute-solution model fails"};
}

} // namespace

std::vector<Model> label_models() {
    const auto grams = [](const char* name) { return or_else(in(name, "g", 0, 1000), "0"); };
    const auto dissolved = [](const char* name) { return or_else(in(name, "g/L", 0, 120), "0"); };
    return {
        {"eu_salt",
         "Salt on an EU label from sodium.",
         "g",
         {in("sodium_g", "g", 0, 100)},
         eu,
         run<[](const Given& g) { return body::eu_salt_from_sodium_g(g.not_negative("sodium_g")); }>},
        {"eu_sodium",
         "Sodium from salt on an EU label.",
         "g",
         {in("salt_g", "g", 0, 100)},
         eu,
         run<[](const Given& g) { return body::eu_sodium_from_salt_g(g.not_negative("salt_g")); }>},
        {"eu_energy",
         "Energy on an EU label: kJ and kcal, each from its own factors.",
         "kJ",
         {grams("carb_g"), grams("polyols_g"), grams("fat_g"), grams("protein_g"), grams("alcohol_g"),
          grams("acids_g"), grams("fibre_g")},
         "Regulation (EU) No 1169/2011, Annex XIV",
         run<[](const Given& g) -> ModelResult {
             const body::LabelNutrients label = nutrients(g);
             return {{{"kJ", body::eu_energy_kj(label)}, {"kcal", body::eu_energy_kcal(label)}}, true, ""};
         }>},
        {"us_label_rounding",
         "An amount per serving as a US label prints it.",
         "as the nutrient",
         {in("amount", "as the nutrient", 0, 100000),
          word("nutrient", {"energy_kcal", "fat_g", "sodium_mg", "potassium_mg", "carb_g", "fibre_g",
                            "sugars_g", "protein_g"})},
         "21 CFR 101.9(c)",
         run<us_rounding>},
        {"drink_volume",
         "Volume of a drink that brings a rate of carbohydrate.",
         "L/h",
         {in("carb_g_h", "g/h", 0, 120), in("strength_pct", "g/100 mL", 2, 15)},
         "arithmetic",
         run<[](const Given& g) {
             return body::drink_volume_l_per_h(g.not_negative("carb_g_h"), g.positive("strength_pct"));
         }>},
        {"drink_osmolality",
         "Osmolality of a drink from what is dissolved in it.",
         "mOsm/kg",
         {dissolved("glucose_g_L"), dissolved("fructose_g_L"), dissolved("sucrose_g_L"),
          dissolved("maltodextrin_g_L"), or_else(in("DE", "1", 5, 40), "18"), dissolved("NaCl_g_L"),
          dissolved("KCl_g_L"), dissolved("citrate_g_L")},
         "osmotic coefficients of a public physiology table; partial volumes and the coefficient of citrate "
         "from memory",
         run<osmolality>},
    };
}

} // namespace tuck::registry
