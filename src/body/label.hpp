// Arithmetic of food labels and drinks.
#pragma once

namespace tuck::body {

/// Salt on an EU label, g, from sodium in g, and back: factor 2.5, Regulation (EU) 1169/2011, Annex I.
double eu_salt_from_sodium_g(double sodium_g);
double eu_sodium_from_salt_g(double salt_g);

/// Nutrients of a label, g.
struct LabelNutrients {
    double carb_g = 0, polyols_g = 0, fat_g = 0, protein_g = 0, alcohol_g = 0, acids_g = 0, fibre_g = 0;
};
/// Energy of a label; kJ and kcal each from their own factors. Regulation (EU) 1169/2011, Annex XIV.
double eu_energy_kj(const LabelNutrients& label);
double eu_energy_kcal(const LabelNutrients& label);

/// Roundings of a US label, 21 CFR 101.9(c): energy in kcal, fat in g, sodium and potassium in mg; the last
/// for carbohydrate, fibre, sugars and protein in g ("less than 1 g" is returned as 1).
double us_rounded_energy_kcal(double kcal);
double us_rounded_fat_g(double g);
double us_rounded_sodium_mg(double mg);
double us_rounded_carb_g(double g);

/// Volume that brings a rate of carbohydrate at a strength in g/100 ml, L/h.
double drink_volume_l_per_h(double carb_g_per_h, double strength_pct);

/// What is dissolved, g per litre of drink.
struct Solutes {
    double glucose = 0, fructose = 0, sucrose = 0, maltodextrin = 0;
    double dextrose_equivalent = 18;
    double salt = 0, potassium_chloride = 0, sodium_citrate = 0; // NaCl, KCl, citrate dihydrate
};
/// Osmolality, mOsm per kg of water: sum of osmotic coefficient x ions x molarity over the water in a litre.
/// Within 5 % for sugar and salt up to 10 %; 20 % with maltodextrin of unknown chain length; not for gels.
double osmolality_mosm_per_kg(const Solutes& solutes);
/// Osmolarity with every coefficient 1, mOsm per litre.
double ideal_osmolarity_mosm_per_l(const Solutes& solutes);

} // namespace tuck::body
