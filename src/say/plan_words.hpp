// How every face says the same things of a plan.
#pragma once

#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// "Bike", "T2".
std::string leg_name(LegKind leg);

/// "12.3 km", "750 m", "7.6 mi"; empty in a transition.
std::string distance_text(const LegEffort& leg, Units units);

/// Degrees Celsius to a tenth: "24", "23.9".
std::string degrees_text(double celsius);

/// The event's name, or "Race plan" or "Session plan" where it has none.
std::string plan_title(const Plan& plan);

/// "12 g/h less than aimed for. What binds: what the bottles hold. What would help: another bottle of 750 ml
/// (8 g/h more)." Where nothing helps, that is said.
std::string unmet_text(const Unmet& unmet);
/// Every shortfall of the plan; those that nothing helps share one sentence at the end.
std::vector<std::string> unmet_texts(const Plan& plan);

/// Warnings as a reader meets them. `first`: every danger, and cautions as long as there are no more than
/// three. `always`: what every long day carries. `also`: the rest.
struct SortedWarnings {
    std::vector<const Warning*> first, also, always;
};
SortedWarnings sorted_warnings(const Plan& plan);

/// "1:05:00" or "52:30".
std::string time_text(double seconds);

/// A number of a chain of reasons without its unit, in metric: "70", "3:27:34 (3:14:36 - 3:41:24)".
std::string number_text(const TraceValue& value);
/// With unit, in those of the reader: "20 fl oz/h"; several after commas: "310 g, 2292 ml, 961 mg sodium".
std::string values_text(const std::vector<TraceValue>& values, Units units);

} // namespace tuck::faces
