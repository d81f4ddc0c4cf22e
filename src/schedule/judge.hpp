// The judge of finished feeds: every rule once more, outside the search and without its tables.
#pragma once

#include "tuck/need.hpp"
#include "tuck/schedule.hpp"

#include <string>
#include <vector>

namespace tuck::schedule {

/// What is judged, and by what was asked and needed. Nothing of the search.
struct Case {
    const Athlete& athlete;
    const Event& event;
    const Effort& effort;
    const Need& need;
    const Pantry& pantry;
    const Schedule& schedule;
};

/// Every rule that the feeds, bottles and bags of a schedule break, on the likely, the fast (10th percentile)
/// and the slow day (90th); empty: it holds. Pure. Written from the rules as practice says them; where it and
/// the search differ, one of the two is wrong.
std::vector<Breach> judge(const Case& asked);

/// The names of all rules, in the order in which they are looked at.
std::vector<std::string> judged_rules();

} // namespace tuck::schedule
