#include "body/oxidation.hpp"

#include <algorithm>

namespace tuck::body {
namespace {

constexpr double lusk_rq_fat = 0.707;
constexpr double lusk_kcal_fat = 4.686;
constexpr double lusk_kcal_carb = 5.047; // at rq 1

} // namespace

double carb_oxidation_glucose_g_per_min(double vo2, double vco2) {
    return 4.585 * vco2 - 3.226 * vo2;
}
double carb_oxidation_low_g_per_min(double vo2, double vco2) {
    return 4.344 * vco2 - 3.061 * vo2;
}
double carb_oxidation_moderate_g_per_min(double vo2, double vco2) {
    return 4.210 * vco2 - 2.962 * vo2;
}
double fat_oxidation_g_per_min(double vo2, double vco2) {
    return 1.695 * vo2 - 1.701 * vco2;
}

double kcal_per_l_o2_lusk(double rq) {
    const double share_of_way = (std::clamp(rq, lusk_rq_fat, 1.0) - lusk_rq_fat) / (1 - lusk_rq_fat);
    return lusk_kcal_fat + share_of_way * (lusk_kcal_carb - lusk_kcal_fat);
}

double carb_share_lusk(double rq) {
    const double oxygen_share = (std::clamp(rq, lusk_rq_fat, 1.0) - lusk_rq_fat) / (1 - lusk_rq_fat);
    return oxygen_share * lusk_kcal_carb / kcal_per_l_o2_lusk(rq);
}

double gas_mass_g_per_l_o2(double rq) {
    return 1.964 * rq - 1.429;
}

double met_energy_oxygen_kcal(double met, double mass_kg, double minutes) {
    return met * 3.5 * mass_kg / 200 * minutes;
}

double met_energy_mass_kcal(double met, double mass_kg, double minutes) {
    return met * mass_kg * minutes / 60;
}

double distance_to_empty_km(double liver_kcal_per_kg, double leg_share, double muscle_kcal_per_kg,
                            double carb_share, double cost_kcal_per_kg_km) {
    return (liver_kcal_per_kg + leg_share * muscle_kcal_per_kg) / (cost_kcal_per_kg_km * carb_share);
}

double glycogen_given(double left_share) {
    return std::clamp(left_share / glycogen_spared_from, 0.0, 1.0);
}

double exogenous_oxidation_g_per_h(double intake_g_per_h, double efficiency, double cap_g_per_h) {
    constexpr double well_burnt_g_per_h = 90, beyond = (90.6 - 77.4) / (120 - 90);
    const double well = std::min(intake_g_per_h, well_burnt_g_per_h);
    return std::min(efficiency * well + beyond * (intake_g_per_h - well), cap_g_per_h);
}

double efficiency_from_economy_pct(double economy_w_per_l_min, double kj_per_l) {
    return 100 * economy_w_per_l_min * 60 / (kj_per_l * 1000);
}

} // namespace tuck::body
