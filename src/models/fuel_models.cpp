// Fuel: shares, stores, intake and the limits that are published for it.
#include "body/energy.hpp"
#include "body/guidance.hpp"
#include "body/oxidation.hpp"
#include "models/entry.hpp"

namespace tuck::registry {
namespace {

ModelResult caffeine(const Given& g) {
    const std::string& who = g.word("who");
    const auto user = who == "pregnant" ? body::CaffeineUser::pregnant
                      : who == "minor"  ? body::CaffeineUser::minor
                                        : body::CaffeineUser::adult;
    const body::CaffeineLimit limit = body::caffeine_limit(user, g.positive("mass_kg"));
    const char* note =
        user == body::CaffeineUser::minor ? "a basis only: the data for minors are insufficient" : "";
    return {{{"dose_mg", limit.dose_mg}, {"day_mg", limit.day_mg}}, true, note};
}

ModelResult carb_guidance(const Given& g) {
    const body::CarbGuidance& row = body::carb_guidance_for(g.word("source"), g.not_negative("minutes"));
    return {{{"low_g_h", row.low_g_per_h}, {"high_g_h", row.high_g_per_h}}, true, row.note};
}

double exogenous(const Given& g) {
    const double cap_g_per_h = g.word("sugars") == "one" ? 60 : 105; // Jeukendrup 2014
    return body::exogenous_oxidation_g_per_h(g.not_negative("intake_g_h"), g.between("efficiency", 0, 1),
                                             cap_g_per_h);
}

} // namespace

std::vector<Model> fuel_models() {
    return {
        {"carb_share_from_intensity",
         "Share of energy from carbohydrate at a share of VO2max; honest band +-10.",
         "%",
         {in("pct_vo2max", "%", 25, 95)},
         "our logistic through the captions of Rapoport 2010, not the author's fit",
         run<[](const Given& g) {
             return 100 * body::carb_share_from_intensity(g.between("pct_vo2max", 0, 150) / 100);
         }>},
        {"distance_to_empty",
         "Distance run until glycogen is gone, with nothing eaten.",
         "km",
         {or_else(in("liver_kcal_per_kg_body", "kcal/kg", 4, 10), "9.0"),
          or_else(in("leg_share", "1", 0.15, 0.25), "0.214"),
          or_else(in("muscle_kcal_per_kg", "kcal/kg", 40, 144), "80"), in("carb_share", "1", 0.1, 1),
          or_else(in("cost_kcal_kg_km", "kcal/kg/km", 0.8, 1.2), "1.0")},
         "our form of Rapoport 2010, PLoS Comput Biol 6:e1000960 (captions of figs 2 and 3)",
         run<[](const Given& g) {
             return body::distance_to_empty_km(g.not_negative("liver_kcal_per_kg_body"),
                                               g.not_negative("leg_share"),
                                               g.not_negative("muscle_kcal_per_kg"), g.positive("carb_share"),
                                               g.positive("cost_kcal_kg_km"));
         }>},
        {"glycogen_given",
         "Share of the glycogen that an intensity asks for that the stores still give.",
         "%",
         {in("left_pct", "%", 0, 200)},
         "our line between Spencer et al. 1992 and Watt et al. 2002: all down to half of ordinary full "
         "stores, then "
         "in proportion",
         run<[](const Given& g) {
             return 100 * body::glycogen_given(g.between("left_pct", 0, 1000) / 100);
         }>},
        {"exogenous_oxidation",
         "Carbohydrate of food and drink that is burnt.",
         "g/h",
         {in("intake_g_h", "g/h", 0, 120), or_else(in("efficiency", "1", 0.6, 0.95), "0.86"),
          or_else(word("sugars", {"one", "several"}), "several")},
         "Podlogar et al. 2022 (86 % of 90 g/h, 75 % of 120); caps 60 and 105 g/h, Jeukendrup 2014",
         run<exogenous>},
        {"carb_guidance",
         "Published advice on carbohydrate during exercise by duration.",
         "g/h",
         {in("minutes", "min", 0, 1440),
          or_else(word("source", {"ioc_2010", "jeukendrup_2014", "burke_2011"}), "ioc_2010")},
         "IOC consensus 2010 (as reported by a dietitian); Jeukendrup 2014; Burke et al. 2011",
         run<carb_guidance>},
        {"caffeine_limit",
         "Caffeine of no concern, at once and in a day.",
         "mg",
         {word("who", {"adult", "pregnant", "minor"}), or_else(in("mass_kg", "kg", 20, 150), "70")},
         "EFSA 2015, EFSA Journal 13(5):4102",
         run<caffeine>},
        {"pre_drink",
         "Drink in the four hours before the start.",
         "mL",
         {in("mass_kg", "kg", 30, 150)},
         "Sawka et al. 2007 (ACSM): 5-7 mL/kg",
         run<[](const Given& g) -> ModelResult {
             const double mass_kg = g.positive("mass_kg");
             return {{{"low_ml", body::pre_drink_low_ml_per_kg * mass_kg},
                      {"high_ml", body::pre_drink_high_ml_per_kg * mass_kg}},
                     true,
                     ""};
         }>},
    };
}

} // namespace tuck::registry
