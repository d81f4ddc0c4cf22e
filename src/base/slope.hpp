// Running on slopes; on the lowest floor, because both the clock and the fuel need it.
#pragma once

namespace tuck {

/// Cost of running on a slope, J/kg/m. |grade| <= 0.45 (clamped by the caller). Minetti 2002, Fig. 1.
double run_cost_j_per_kg_m(double grade);

} // namespace tuck
