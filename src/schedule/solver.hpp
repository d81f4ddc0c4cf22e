// The best schedule of the whole day, with proof.
#pragma once

#include "schedule/program.hpp"

#include <vector>

namespace tuck::schedule {

struct LegSolution {
    size_t grid = 0;
    DrinkLine drink;
    std::vector<ItemLine> items; // in time order
};

struct Solution {
    bool any =
        false; // false: fixed items break a rule whatever is chosen, or the work ran out before any plan
    Rule broken = Rule::none;
    std::vector<LegSolution> legs; // as the program's; legs without a grid stay empty
    Cost points = 0;
    Cost bound = 0;     // proven: nothing costs less
    long long work = 0; // nodes and steps of bounds, the same on every machine
};

/// How much a search may do before it stops with a gap; the same result on every machine.
inline constexpr long long usual_work = 12'000'000;
inline constexpr long long quick_work = 400'000; // for questions beside the plan

/// Branch and bound over the legs in order: in each leg over rhythms and drink lines by what they can cost at
/// least, and over item lines in time order. Ties go to what was found first. Pure.
Solution solve(const Program& program, long long work = usual_work);

} // namespace tuck::schedule
