// The plan in three sentences, for who has never seen one: what to carry, what to take when, what if it goes
// wrong.
#pragma once

#include "say/words.hpp"
#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck::say {

/// At most three sentences, places on the road in `units`. Empty where the plan is refused: nothing of it is
/// to be followed.
std::vector<std::string> in_short(const Plan& plan, Units units = Units::metric,
                                  Language language = Language::english);

/// What a run without a line says: that nothing is needed, or that nothing can be had. Empty: there is no
/// such leg.
std::string silent_run(const Plan& plan, Language language = Language::english);

/// What to buy for the bottles; empty where nothing is mixed from a sports drink powder.
std::string what_iso_is(const Plan& plan, Language language = Language::english);

} // namespace tuck::say
