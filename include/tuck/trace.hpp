// Traces: the chain behind every number of a plan, from its reasons to the numbers that it came from.
#pragma once

#include "tuck/reason.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck {

/// What of a plan has a chain of its own: a number, or a family of numbers.
enum class PlanPart {
    durations,
    total,
    needs,
    feeds,
    lines,
    totals,
    carry,
    mix,
    unmet,
    broken_rules,
    fuelling_needed,
    before,
    after,
    outlook,
    inputs,
    weather,
    shopping,
    day_sums
};

/// Which number of a part; `all`: the part as a whole.
enum class PlanField { all, carb, fluid, sodium, sweat, heat, chance, drivers, serum_sodium, glycogen_left };

/// The name of a number. As a JSON pointer it is written by text/trace_pointer.hpp alone.
struct TraceKey {
    PlanPart part = PlanPart::total;
    int leg_index = -1; // place in Plan::durations; -1: of no single leg
    PlanField field = PlanField::all;
    bool operator==(const TraceKey&) const = default;
};

/// A number as the plan holds it, in its metric unit.
struct TraceValue {
    double number = 0;                         // of a spread the median
    std::string unit;                          // "s", "g/h", "ml", "mmol/L"; "bool": 1 or 0
    std::optional<double> low = {}, high = {}; // of a duration p10 and p90, of simulated days p05 and p95
    std::string of = {};                       // "sodium", where neither field nor unit says it
    bool up_to = false;                        // a ceiling: never rounded up
};

struct Trace {
    TraceKey key;
    std::vector<Reason> because;
    std::vector<TraceKey> from;          // what it was worked out from
    std::vector<TraceValue> values = {}; // empty: a list or a table
};

} // namespace tuck
