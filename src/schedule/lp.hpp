// The program and its solution in the CPLEX LP format, so that any solver can check them.
#pragma once

#include "schedule/solver.hpp"

#include <string>

namespace tuck::schedule {

/// Exactly the lines that `solve` chooses from and the rows that it keeps, in the part of the format that CBC
/// and GLPK both read. Comments give our cost and proven bound. `solution.any` may be false.
std::string lp_text(const Program& program, const Solution& solution);

} // namespace tuck::schedule
