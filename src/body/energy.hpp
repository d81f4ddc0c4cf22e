// Energy cost of moving and what fuel it comes from.
#pragma once

#include "base/slope.hpp"
#include "tuck/body.hpp"

namespace tuck::body {

/// Gross oxygen uptake of running, mL/kg/min. speed_m_per_min > 134 (80 if truly running); grade as a
/// fraction, 0 or uphill. ACSM metabolic equations, Table 6.3 (Guidelines, 10th ed.).
double run_vo2_ml_per_kg_min(double speed_m_per_min, double grade);

/// Gross oxygen uptake of covering level ground on foot outdoors, mL/kg/min, at a mean speed in km/h. From 8
/// km/h: 2.209 + 3.163 v + 0.000525542 v^3 (Leger & Mercier 1984: 130 trained and untrained men and women of
/// ten studies, and the wind resistance of Pugh 1970); to 25 km/h. To 6 km/h walking (ACSM). Between, people
/// walk a part of the time (Long & Srinivasan 2013): here at 6 km/h, and run the other at 8 (our choice).
double on_foot_vo2_ml_per_kg_min(double speed_km_per_h);

/// Gross oxygen uptake of walking, mL/kg/min. 50-100 m/min. Same table.
double walk_vo2_ml_per_kg_min(double speed_m_per_min, double grade);

/// Gross oxygen uptake of leg cycling from power in W (50-200), mL/kg/min. Same table.
double cycle_vo2_ml_per_kg_min(double power_w, double mass_kg);

/// Metabolic power of cycling, W, from mechanical power and gross efficiency (0.18-0.24; 0.20 typical,
/// Moseley & Jeukendrup 2001).
double cycle_metabolic_power_w(double power_w, double gross_efficiency);

/// Metabolic power of a ride, W: the ACSM equation, whose efficiency falls where power is low for the body
/// (15 % at 60 W and 70 kg), and never less than at a gross efficiency of 20 % (Moseley & Jeukendrup
/// 2001: 19.8 +- 0.6 % in trained men at 95-305 W), which rules from some 140 W on at 70 kg.
double ride_metabolic_power_w(double power_w, double mass_kg);

/// Oxygen uptake of front crawl, L/min: 3.65 v + 0.02 m - 2.545 (Kimber 2002). v >= 0.8 m/s.
double swim_vo2_l_per_min(double speed_m_per_s, double mass_kg);

/// Metabolic power of swimming, W. Below 0.8 m/s the equation above leaves its range: the cost per metre
/// at 0.8 m/s is held (our choice).
double swim_metabolic_power_w(double speed_m_per_s, double mass_kg);

using tuck::run_cost_j_per_kg_m;
/// Cost of walking on a slope, J/kg/m; poor near level. Minetti 2002.
double walk_cost_j_per_kg_m(double grade);

/// Energy per litre of oxygen, kcal/L; rq 0.7036-0.996. Peronnet & Massicotte 1991, one line through the
/// table.
double kcal_per_l_o2(double rq);
/// Share of energy from carbohydrate, 0..1; rq 0.7036-0.996. Same table.
double carb_share_from_rq(double rq);

inline constexpr double joule_per_l_o2 = 20900; // 5.0 kcal/L, Peronnet & Massicotte 1991 near RQ 0.85

} // namespace tuck::body
