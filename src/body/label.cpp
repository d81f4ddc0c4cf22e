#include "body/label.hpp"

#include <cmath>

namespace tuck::body {
namespace {

constexpr double salt_per_sodium = 2.5;

double to_nearest(double value, double step) {
    return std::round(value / step) * step;
}

// Molar masses, g/mol.
constexpr double hexose = 180.156;
constexpr double disaccharide = 342.297;
constexpr double maltodextrin_times_de = 18016; // number-average mass = 18016 / DE
constexpr double nacl = 58.443;
constexpr double kcl = 74.551;
constexpr double citrate_dihydrate = 294.10;

// Osmotic coefficients near body strength; fructose as glucose, citrate from memory.
struct Coefficients {
    double hexose = 1.01, sucrose = 1.02, maltodextrin = 1, nacl = 0.93, kcl = 0.92, citrate = 0.80;
};
constexpr Coefficients ideal{1, 1, 1, 1, 1, 1};

double milliosmol_per_l(const Solutes& s, const Coefficients& k) {
    const double osmol = k.hexose * (s.glucose + s.fructose) / hexose + k.sucrose * s.sucrose / disaccharide +
                         k.maltodextrin * s.maltodextrin * s.dextrose_equivalent / maltodextrin_times_de +
                         k.nacl * 2 * s.salt / nacl + k.kcl * 2 * s.potassium_chloride / kcl +
                         k.citrate * 4 * s.sodium_citrate / citrate_dihydrate;
    return 1000 * osmol;
}

} // namespace

double eu_salt_from_sodium_g(double sodium_g) {
    return sodium_g * salt_per_sodium;
}
double eu_sodium_from_salt_g(double salt_g) {
    return salt_g / salt_per_sodium;
}

double eu_energy_kj(const LabelNutrients& l) {
    return 17 * l.carb_g + 10 * l.polyols_g + 37 * l.fat_g + 17 * l.protein_g + 29 * l.alcohol_g +
           13 * l.acids_g + 8 * l.fibre_g;
}

double eu_energy_kcal(const LabelNutrients& l) {
    return 4 * l.carb_g + 2.4 * l.polyols_g + 9 * l.fat_g + 4 * l.protein_g + 7 * l.alcohol_g +
           3 * l.acids_g + 2 * l.fibre_g;
}

double us_rounded_energy_kcal(double kcal) {
    if (kcal < 5) {
        return 0;
    }
    return to_nearest(kcal, kcal <= 50 ? 5 : 10);
}

double us_rounded_fat_g(double g) {
    if (g < 0.5) {
        return 0;
    }
    return to_nearest(g, g < 5 ? 0.5 : 1);
}

double us_rounded_sodium_mg(double mg) {
    if (mg < 5) {
        return 0;
    }
    return to_nearest(mg, mg <= 140 ? 5 : 10);
}

double us_rounded_carb_g(double g) {
    return g < 0.5 ? 0 : to_nearest(g, 1);
}

double drink_volume_l_per_h(double carb_g_per_h, double strength_pct) {
    return carb_g_per_h / (10 * strength_pct);
}

double osmolality_mosm_per_kg(const Solutes& s) {
    // Each gram takes room from water: partial volumes 0.62 and 0.35 ml/g, from memory.
    const double carb = s.glucose + s.fructose + s.sucrose + s.maltodextrin;
    const double salts = s.salt + s.potassium_chloride + s.sodium_citrate;
    const double water_kg_per_l = 0.998 * (1 - 0.00062 * carb - 0.00035 * salts);
    return milliosmol_per_l(s, {}) / water_kg_per_l;
}

double ideal_osmolarity_mosm_per_l(const Solutes& s) {
    return milliosmol_per_l(s, ideal);
}

} // namespace tuck::body
