#include "text/trace_pointer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace tuck::faces {

namespace {

constexpr const char* part_keys[] = {"durations",       "total",    "needs",   "feeds",   "lines",
                                     "totals",          "carry",    "mix",     "unmet",   "broken_rules",
                                     "fuelling_needed", "before",   "after",   "outlook", "inputs",
                                     "weather",         "shopping", "day_sums"};
static_assert(std::size(part_keys) == static_cast<std::size_t>(PlanPart::day_sums) + 1);

constexpr const char* field_keys[] = {
    "",     "carb_g_per_h", "fluid_ml_per_h", "sodium_mg_per_h",         "sweat_ml_per_h",
    "heat", "chance",       "drivers",        "serum_sodium_mmol_per_l", "glycogen_left_g"};
static_assert(std::size(field_keys) == static_cast<std::size_t>(PlanField::glycogen_left) + 1);

} // namespace

const char* key_of(PlanPart part) {
    return part_keys[static_cast<std::size_t>(part)];
}

const char* key_of(PlanField field) {
    return field_keys[static_cast<std::size_t>(field)];
}

std::string pointer_of(const TraceKey& key) {
    std::string out = fmt::format("/{}", key_of(key.part));
    if (key.leg_index >= 0)
        out += fmt::format("/{}", key.leg_index);
    if (key.field != PlanField::all)
        out += fmt::format("/{}", key_of(key.field));
    return out;
}

const Trace* trace_of(const Plan& plan, const TraceKey& key) {
    const auto found = std::find_if(plan.traces.begin(), plan.traces.end(),
                                    [&key](const Trace& trace) { return trace.key == key; });
    return found == plan.traces.end() ? nullptr : &*found;
}

const Trace* trace_of(const Plan& plan, const std::string& pointer) {
    const Trace* nearest = nullptr;
    std::size_t longest = 0;
    for (const Trace& trace : plan.traces) {
        const std::string own = pointer_of(trace.key) + "/";
        if ((pointer + "/").starts_with(own) && own.size() > longest) {
            nearest = &trace;
            longest = own.size();
        }
    }
    return nearest;
}

} // namespace tuck::faces
