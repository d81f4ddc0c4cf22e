// Time and distance: power law, critical speeds, slowing by heat.
#pragma once

namespace tuck::effort {

/// Time over another distance, s: T2 = T1 (D2/D1)^b. Riegel 1981; made for 3.5-230 min.
double riegel_time_s(double time_s, double distance, double new_distance, double exponent);
/// Critical speed, m/s, from two trials: slope of distance on time.
double critical_speed_m_s(double d1_m, double t1_s, double d2_m, double t2_s);
/// Distance above critical speed (D'), m, from the same trials.
double critical_distance_m(double d1_m, double t1_s, double d2_m, double t2_s);
/// Run slowing factor in heat: 1 + k max(0, WBGT - 15). k 0.0035 trained to 0.006 back of field (judgement
/// between Ely 2007 and Mantzios 2022); half of it on the bike.
double heat_factor(double wbgt_c, double k);
/// Share of sea-level aerobic power left at an altitude, not acclimatised: 6.3 % less per 1000 m above 300 m.
/// Wehrlin & Hallen 2006, from memory; 300-2800 m.
double aerobic_share_at_altitude(double altitude_m);

} // namespace tuck::effort
