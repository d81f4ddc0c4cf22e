// More of time and distance: inverses and the logarithmic endurance law.
#pragma once

namespace tuck::effort {

/// Distance covered in another time, same unit as `distance`: the inverse of the power law. Riegel 1981.
double riegel_distance(double time_s, double distance, double new_time_s, double exponent);
/// Time over a distance at the critical-speed hyperbola, s: (d - D') / CS. Too fast beyond 30 min.
double hyperbolic_time_s(double distance_m, double critical_speed_m_s, double critical_distance_m);
/// Share of maximal aerobic power held for a time, %: 100 + E ln(t / t_MAP), E in % per ln unit
/// (-4 elite to -10). Peronnet & Thibault 1989, from memory; t >= t_MAP.
double log_endurance_pct(double minutes, double endurance_pct, double map_minutes);

} // namespace tuck::effort
