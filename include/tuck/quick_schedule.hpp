// The schedule for an answer at once, while a slider moves.
#pragma once

#include "tuck/schedule.hpp"

namespace tuck {

/// As make_schedule, with the same lines, but `unmet` is empty: what would help is found by solving many
/// times more.
Schedule quick_schedule(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                        const Need& need, const Pantry& pantry);

} // namespace tuck
