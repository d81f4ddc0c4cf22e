// Body water, serum sodium and salt in sweat.
#include "body/sweat_salt.hpp"
#include "body/water.hpp"
#include "models/entry.hpp"

#include <stdexcept>

namespace tuck::registry {
namespace {

double body_water(const Given& g) {
    const double mass_kg = g.positive("mass_kg");
    const double height_cm = g.positive("height_cm");
    return g.word("sex") == "male"
               ? body::total_body_water_male_l(g.not_negative("age_y"), height_cm, mass_kg)
               : body::total_body_water_female_l(height_cm, mass_kg);
}

double serum_sodium(const Given& g) {
    const double body_water_l = g.positive("TBW_L");
    if (body_water_l + g["dWater_L"] <= 0) {
        throw std::invalid_argument("dWater_L: must leave body water above 0");
    }
    return body::serum_sodium_mmol_per_l(g.positive("Na0_mmol_L"), body_water_l, g["dNaK_mmol"],
                                         g["dWater_L"]);
}

std::vector<std::string> site_names() {
    std::vector<std::string> names;
    for (const body::PatchSite& site : body::patch_sites()) {
        names.push_back(site.name);
    }
    return names;
}

} // namespace

std::vector<Model> salt_models() {
    return {
        {"total_body_water",
         "Total body water.",
         "L",
         {word("sex", {"female", "male"}), or_else(in("age_y", "y", 17, 86), "40"),
          in("height_cm", "cm", 140, 210), in("mass_kg", "kg", 40, 130)},
         "Watson et al. 1980, Am J Clin Nutr 33:27 (SD 3.8 L men, 3.6 L women; age counts for men only)",
         run<body_water>},
        {"serum_sodium",
         "Serum sodium after a change of body water and of sodium plus potassium.",
         "mmol/L",
         {in("Na0_mmol_L", "mmol/L", 125, 150), in("TBW_L", "L", 20, 70),
          in("dNaK_mmol", "mmol", -1500, 1500), in("dWater_L", "L", -6, 6)},
         "Nguyen & Kurtz 2003, 2005 (1.03, 23.8); within 0.2 mmol/L at 0 to -4 % of mass, 2.6 too low at +2 "
         "% (Baker 2008)",
         run<serum_sodium>},
        {"isonatric_intake",
         "Sodium plus potassium of an intake that leaves serum sodium as it is.",
         "mmol/L",
         {in("Na_mmol_L", "mmol/L", 125, 150)},
         "Nguyen & Kurtz 2005 (0.97 Na + 23.1)",
         run<[](const Given& g) { return body::isonatric_intake_mmol_per_l(g.positive("Na_mmol_L")); }>},
        {"whole_body_sweat_sodium",
         "Whole-body sweat sodium from a patch.",
         "mmol/L",
         {in("patch_mmol_L", "mmol/L", 5, 110), or_else(word("site", site_names()), "forearm")},
         "Baker et al. 2009 (forearm, thigh, five sites), Baker 2020 (mean bias of the other sites)",
         run<[](const Given& g) {
             return *body::whole_body_sodium_from_patch(g.word("site"), g.not_negative("patch_mmol_L"));
         }>},
        {"sweat_salt",
         "Salt in sweat from sodium and chloride.",
         "g/L",
         {in("Na_mmol_L", "mmol/L", 5, 110), in("Cl_mmol_L", "mmol/L", 5, 110)},
         "molar masses 22.99 and 35.45",
         run<[](const Given& g) {
             return body::sweat_salt_g_per_l(g.not_negative("Na_mmol_L"), g.not_negative("Cl_mmol_L"));
         }>},
    };
}

} // namespace tuck::registry
