#include "base/slope.hpp"

namespace tuck {

double run_cost_j_per_kg_m(double grade) {
    return ((((155.4 * grade - 30.4) * grade - 43.3) * grade + 46.3) * grade + 19.5) * grade + 3.6;
}

} // namespace tuck
