#include "body/energy.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::body {
namespace {

constexpr double rest_ml_per_kg_min = 3.5;
constexpr double swim_slowest_m_s = 0.8; // lower end of Kimber 2002

// Peronnet & Massicotte 1991: the table's two ends (pure fat, pure carbohydrate) and the straight line
// through its energy column, kJ per litre of oxygen.
constexpr double rq_fat = 0.7036;
constexpr double rq_carb = 0.996;
constexpr double kj_per_l_at_rq_0 = 16.89;
constexpr double kj_per_l_per_rq = 4.84;
constexpr double kj_per_kcal = 4.184;
constexpr double kcal_per_l_carb = 5.189;

double in_table(double rq) {
    return std::clamp(rq, rq_fat, rq_carb);
}

} // namespace

double run_vo2_ml_per_kg_min(double speed_m_per_min, double grade) {
    return rest_ml_per_kg_min + 0.2 * speed_m_per_min + 0.9 * speed_m_per_min * grade;
}

double on_foot_vo2_ml_per_kg_min(double speed_km_per_h) {
    constexpr double walks_to = 6, runs_from = 8, m_per_min = 1000 / 60.0;
    const auto running = [](double v) { return 2.209 + 3.163 * v + 0.000525542 * v * v * v; };
    if (speed_km_per_h >= runs_from)
        return running(speed_km_per_h);
    if (speed_km_per_h <= walks_to)
        return walk_vo2_ml_per_kg_min(speed_km_per_h * m_per_min, 0);
    const double runs = (speed_km_per_h - walks_to) / (runs_from - walks_to);
    return runs * running(runs_from) + (1 - runs) * walk_vo2_ml_per_kg_min(walks_to * m_per_min, 0);
}

double walk_vo2_ml_per_kg_min(double speed_m_per_min, double grade) {
    return rest_ml_per_kg_min + 0.1 * speed_m_per_min + 1.8 * speed_m_per_min * grade;
}

double cycle_vo2_ml_per_kg_min(double power_w, double mass_kg) {
    return 7.0 + 10.8 * power_w / mass_kg;
}

double cycle_metabolic_power_w(double power_w, double gross_efficiency) {
    return power_w / gross_efficiency;
}

double ride_metabolic_power_w(double power_w, double mass_kg) {
    constexpr double trained_efficiency = 0.20;
    const double acsm_w = cycle_vo2_ml_per_kg_min(power_w, mass_kg) * mass_kg / 1000 / 60 * joule_per_l_o2;
    return std::max(acsm_w, cycle_metabolic_power_w(power_w, trained_efficiency));
}

double swim_vo2_l_per_min(double speed_m_per_s, double mass_kg) {
    return 3.65 * speed_m_per_s + 0.02 * mass_kg - 2.545;
}

double swim_metabolic_power_w(double speed_m_per_s, double mass_kg) {
    const double known = std::max(speed_m_per_s, swim_slowest_m_s);
    const double joule_per_m = swim_vo2_l_per_min(known, mass_kg) * joule_per_l_o2 / 60 / known;
    return joule_per_m * speed_m_per_s;
}

double walk_cost_j_per_kg_m(double grade) {
    return ((((280.5 * grade - 58.7) * grade - 76.8) * grade + 51.9) * grade + 19.6) * grade + 2.5;
}

double kcal_per_l_o2(double rq) {
    return (kj_per_l_at_rq_0 + kj_per_l_per_rq * in_table(rq)) / kj_per_kcal;
}

double carb_share_from_rq(double rq) {
    const double share = (in_table(rq) - rq_fat) / (rq_carb - rq_fat) * kcal_per_l_carb / kcal_per_l_o2(rq);
    return std::clamp(share, 0.0, 1.0);
}

double carb_share_from_intensity(double fraction_of_vo2max) {
    constexpr double steepness = 6.1;
    constexpr double crossover = 0.60; // half of the energy from carbohydrate
    return 1 / (1 + std::exp(-steepness * (fraction_of_vo2max - crossover)));
}

} // namespace tuck::body
