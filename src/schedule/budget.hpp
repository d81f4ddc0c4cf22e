// The work that one plan may do, shared by everything that it asks of the search.
#pragma once

#include "schedule/solver.hpp"

#include <algorithm>

namespace tuck::schedule {

/// Every trial, the plan itself and all questions beside it draw from one sum, so that no event takes longer
/// than this much. Counted in steps of the search, never in time: the same plan on every machine.
class WorkBudget {
public:
    explicit WorkBudget(long long work = usual_work) : left_(work) {}

    /// Solves with at most `work` of what is left. Nothing left: no solution, and no rule named.
    Solution solve(const Program& program, long long work) {
        const long long granted = std::min(work, left_);
        if (granted <= 0)
            return {};
        auto solution = schedule::solve(program, granted);
        left_ -= std::min(left_, std::max(solution.work, least_));
        return solution;
    }

    void spend(long long work) { left_ -= std::min(left_, work); }
    long long left() const { return left_; }

private:
    static constexpr long long least_ = 1000; // building a search costs something even where it ends at once
    long long left_;
};

} // namespace tuck::schedule
