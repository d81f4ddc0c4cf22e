// The names of the plan's numbers as JSON pointers, and back: nothing else in the tree writes or reads them.
#pragma once

#include "tuck/plan.hpp"

#include <string>

namespace tuck::faces {

/// Their keys in the plan's JSON: "needs", "fluid_ml_per_h"; empty for PlanField::all.
const char* key_of(PlanPart part);
const char* key_of(PlanField field);

/// "/needs/2/fluid_ml_per_h": where the number stands in the plan's JSON.
std::string pointer_of(const TraceKey& key);

/// The chain behind a number; nullptr where the plan has none of it.
const Trace* trace_of(const Plan& plan, const TraceKey& key);
/// The same for a pointer as it was typed, or of the nearest family that holds the number: "/feeds/3/carb_g"
/// is one of "/feeds".
const Trace* trace_of(const Plan& plan, const std::string& pointer);

} // namespace tuck::faces
