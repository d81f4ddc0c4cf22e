// Body water, serum sodium, and the arithmetic of a sweat test.
#pragma once

namespace tuck::body {

inline constexpr double mg_per_mmol_sodium = 22.99;

/// Total body water, L (Watson 1980).
double total_body_water_male_l(double age_y, double height_cm, double mass_kg);
double total_body_water_female_l(double height_cm, double mass_kg);

/// Serum sodium after a change of body water (L) and of sodium plus potassium (mmol), mmol/L
/// (Nguyen & Kurtz 2003/2005): [(Na1 + 23.8) TBW + 1.03 d(Na+K)] / (TBW + dTBW) - 23.8.
double serum_sodium_mmol_per_l(double start_mmol_per_l, double body_water_l, double change_na_k_mmol,
                               double change_water_l);

/// Weighing before and after, all masses in kg (1 L = 1 kg).
struct Weighing {
    double before_kg = 0, after_kg = 0, drink_kg = 0, food_kg = 0, urine_kg = 0, stool_kg = 0;
    double energy_kcal = 0; // for what is lost without sweating: 0.20 g/kcal; 0: no correction
};
/// Sweat lost, kg: before - after + drink + food - urine - stool - 0.0002 kg/kcal (Baker 2017 table 3;
/// Cheuvront & Montain 2017).
double sweat_loss_kg(const Weighing& weighing);

/// Whole-body sweat sodium, mmol/L, from a forearm patch: 0.57 x + 11.05 (Baker 2009).
double whole_body_sodium_from_forearm(double patch_mmol_per_l);

} // namespace tuck::body
