#include "schedule/pins.hpp"

#include "base/conditions.hpp"
#include "schedule/rule_words.hpp"
#include "schedule/slots.hpp"
#include "schedule/solver.hpp"

#include <fmt/format.h>
#include <optional>

namespace tuck::schedule {

namespace {

/// The first leg of its kind that is long enough.
std::optional<size_t> leg_of(const Setting& now, const Pin& pin) {
    for (size_t i = 0; i < now.effort.legs.size(); ++i) {
        const auto& leg = now.effort.legs[i];
        const bool inside = pin.km ? *pin.km * 1000 <= leg.distance_m : *pin.at_s <= leg.time.p50_s;
        if (leg.kind == pin.leg && inside)
            return i;
    }
    return std::nullopt;
}

/// Why the pin cannot stand, or empty; `program` then holds it.
std::string place(const Setting& now, const Pin& pin, Program& program) {
    const auto index = leg_of(now, pin);
    if (!index)
        return fmt::format("no {} of this day is that long", to_string(pin.leg));
    auto& leg = program.legs[*index];
    const Food* food = now.pantry.find(pin.food);
    const auto portion = food ? pinned_portion(now.athlete, *food, now.need.limits) : std::nullopt;
    if (!portion)
        return "it is avoided, holds an allergen, or has no portion for one hand";
    if (leg.grids.empty())
        return leg.kind == LegKind::bike ? "hands stay on the bar" : "nothing is planned on this leg";
    const auto& way = now.effort.legs[*index];
    const double at_s = pin.km ? time_at_s(way, *pin.km) : *pin.at_s;
    if (belt_full(leg, at_s))
        return "the run belt is full";
    if (const auto why = why_not_at(now, *index, at_s, portion->solid); !why.empty())
        return why;
    FixedItem item{*index, at_s, clock_of(now, *index, at_s), *portion, {}, true};
    item.km = km_at(way, at_s);
    item.amounts = carried_amounts(*portion, leg.kind);
    if (leg.pocket_mg >= 0 && item.amounts[mass] > leg.pocket_mg)
        return "the pockets are full";
    Program trial = program;
    fix(trial, item);
    if (const auto solution = solve(trial, quick_work); !solution.any)
        return fmt::format("it breaks {}", words_of(solution.broken).rule);
    program = std::move(trial);
    return "";
}

} // namespace

std::vector<std::string> fix_pins(const Setting& now, Program& program) {
    std::vector<std::string> refused;
    for (const auto& pin : now.event.pins)
        if (const auto why = place(now, pin, program); !why.empty())
            refused.push_back(fmt::format("{} cannot be kept: {}.", pin.said, why));
    return refused;
}

} // namespace tuck::schedule
