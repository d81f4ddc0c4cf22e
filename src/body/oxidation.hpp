// What is burnt: oxidation equations, stores, and what of a drink is used.
#pragma once

namespace tuck::body {

/// Carbohydrate and fat burnt, g/min, from VO2 and VCO2 in L/min; protein left out; steady state below about
/// 80 % VO2max. Coefficients as carried by public code citing the papers.
double carb_oxidation_glucose_g_per_min(double vo2, double vco2);  // 4.585 VCO2 - 3.226 VO2, Frayn 1983
double carb_oxidation_low_g_per_min(double vo2, double vco2);      // < 50 % VO2max, Jeukendrup & Wallis 2005
double carb_oxidation_moderate_g_per_min(double vo2, double vco2); // 50-75 % VO2max, same
double fat_oxidation_g_per_min(double vo2, double vco2);           // same

/// Energy per litre of oxygen, kcal/L, and carbohydrate share of it, 0..1, by the older table; rq 0.707-1.
/// One line through the ends of Lusk 1924.
double kcal_per_l_o2_lusk(double rq);
double carb_share_lusk(double rq);

/// Mass lost as gas in burning fuel, g per L of oxygen: 1.964 rq - 1.429 (molar masses, from memory).
double gas_mass_g_per_l_o2(double rq);

/// Energy, kcal, from MET, in two conventions that differ by 5 %: 3.5 mL/kg/min at 5 kcal/L, or
/// 1 kcal/kg/h per MET. ACSM metabolic equations; common use.
double met_energy_oxygen_kcal(double met, double mass_kg, double minutes);
double met_energy_mass_kcal(double met, double mass_kg, double minutes);

/// Distance until muscle and liver glycogen are gone, km: (liver + legs density) / (cost share); our form of
/// Rapoport 2010. liver in kcal per kg of body, density in kcal per kg of leg muscle, cost in kcal/kg/km.
double distance_to_empty_km(double liver_kcal_per_kg, double leg_share, double muscle_kcal_per_kg,
                            double carb_share, double cost_kcal_per_kg_km);

/// How much of the glycogen that an intensity asks for the stores still give, 0..1; `left_share` is what is
/// left of ordinary full stores. All down to a half, then in proportion; fat stands in, food is burnt as
/// before (Weltan 1998). Between two measurements that a line cannot both meet: at 75 % of VO2max 0.47 times
/// as much from a mean of 95 mmol/kg dry muscle as from 539 (Spencer 1992); at 57 % 0.29 times as much in
/// hours 3 and 4 (mean 180) as in hours 1 and 2 (342), when the carbohydrate burnt was 0.8 times as much
/// (Watt 2002). The half: our choice.
double glycogen_given(double left_share);
inline constexpr double glycogen_spared_from = 0.5;

/// Carbohydrate of food and drink that is burnt, g/h, at most `cap`. The efficiency holds to 90 g/h (0.86
/// there); of every gram beyond, 0.44 is burnt: 90.6 of 120 g/h, 75 % (Podlogar 2022). Cap 60 g/h one sugar,
/// 105 g/h several (Jeukendrup 2014).
double exogenous_oxidation_g_per_h(double intake_g_per_h, double efficiency, double cap_g_per_h);

/// Gross efficiency, %, from economy (W per L/min) and energy per litre of oxygen (kJ).
double efficiency_from_economy_pct(double economy_w_per_l_min, double kj_per_l);

} // namespace tuck::body
