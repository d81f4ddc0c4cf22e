#include "body/water.hpp"

namespace tuck::body {

double total_body_water_male_l(double age_y, double height_cm, double mass_kg) {
    return 2.447 - 0.09516 * age_y + 0.1074 * height_cm + 0.3362 * mass_kg;
}

double total_body_water_female_l(double height_cm, double mass_kg) {
    return -2.097 + 0.1069 * height_cm + 0.2466 * mass_kg;
}

double serum_sodium_mmol_per_l(double start_mmol_per_l, double body_water_l, double change_na_k_mmol,
                               double change_water_l) {
    constexpr double intercept = 23.8;
    constexpr double slope = 1.03;
    return ((start_mmol_per_l + intercept) * body_water_l + slope * change_na_k_mmol) /
               (body_water_l + change_water_l) -
           intercept;
}

double sweat_loss_kg(const Weighing& w) {
    constexpr double not_sweat_kg_per_kcal = 0.0002; // respiratory water, carbon dioxide less oxygen
    return w.before_kg - w.after_kg + w.drink_kg + w.food_kg - w.urine_kg - w.stool_kg -
           not_sweat_kg_per_kcal * w.energy_kcal;
}

double whole_body_sodium_from_forearm(double patch_mmol_per_l) {
    return 0.57 * patch_mmol_per_l + 11.05;
}

} // namespace tuck::body
