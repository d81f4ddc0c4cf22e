// The best schedule of the whole day, with proof.
#pragma once

#include "schedule/program.hpp"

#include <vector>

namespace tuck::schedule {

struct Solution {
    bool any = false; // false: fixed items break a rule whatever is chosen
    Rule broken = Rule::none;
    std::vector<LegSolution> legs; // as the program's; legs without a grid stay empty
    Cost points = 0;
    Cost bound = 0;     // proven: no plan of these legs, in this order, costs less
    long long work = 0; // plans and rows looked at, the same on every machine
};

/// How much a search may do before it stops with a gap; the same result on every machine.
inline constexpr long long usual_work = 20'000'000;
inline constexpr long long quick_work = 2'000'000; // for questions beside the plan

/// Leg by leg: clocks and drink lines by what they can cost at least, and under each every pair of item lines
/// that may beat the best plan so far. Ties go to what was found first. Pure.
Solution solve(const Program& program, long long work = usual_work);

} // namespace tuck::schedule
