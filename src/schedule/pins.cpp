#include "schedule/pins.hpp"

#include "base/conditions.hpp"
#include "schedule/rule_words.hpp"
#include "schedule/slots.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <optional>

namespace tuck::schedule {

namespace {

constexpr double apart_s = 60 * figure("feed.apart_min");

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

/// A food that the plan itself may take at this moment: in its own amount, carried or handed out.
const FoodChoice* of_the_plan(const LegProgram& leg, const Food& food, double at_s) {
    for (const auto& grid : leg.grids)
        for (size_t i = 0; i < grid.regular; ++i)
            for (size_t f = 0; f < leg.foods.size(); ++f)
                if (std::abs(grid.slots[i].at_s - at_s) < 1 && grid.slots[i].foods >> f & 1u &&
                    leg.foods[f].portion.food == &food && (leg.foods[f].served || !belt_full(leg, at_s)))
                    return &leg.foods[f];
    return nullptr;
}

bool near_another(const Program& program, const FixedItem& item) {
    return std::any_of(program.fixed.begin(), program.fixed.end(), [&item](const FixedItem& other) {
        return other.leg == item.leg && std::abs(other.at_s - item.at_s) < apart_s;
    });
}

/// What the leg itself forbids of something to eat, whatever the moment; empty: nothing.
std::string why_not_on(const Setting& now, const LegProgram& leg, const Food& food) {
    const bool bike = leg.kind == LegKind::bike;
    if (std::find(food.fits.begin(), food.fits.end(), to_string(leg.kind)) == food.fits.end())
        return fmt::format("it is no food for a {}", bike ? "ride" : "run");
    if (bike && !leg.stops && hands_of(now.athlete) != Hands::bottle_and_food)
        return "only the bottle is taken while riding";
    return "";
}

/// The item at the moment of the pin, or why there is none.
std::optional<FixedItem> item_of(const Setting& now, const Pin& pin, const LegProgram& leg,
                                 std::string& why) {
    const Food* food = now.pantry.find(pin.food);
    const auto portion = food ? pinned_portion(now.athlete, *food, now.need.limits) : std::nullopt;
    const auto& way = now.effort.legs[leg.leg];
    const double at_s = pin.km ? time_at_s(way, *pin.km) : pin.at_s->count();
    FixedItem item;
    item.leg = leg.leg;
    item.at_s = at_s;
    item.km = km_at(way, at_s);
    item.clock_s = clock_of(now, leg.leg, at_s);
    item.pinned = true;
    snap(leg, item);
    if (const FoodChoice* own = food ? of_the_plan(leg, *food, item.at_s) : nullptr) {
        item.portion = own->portion;
        item.amounts = own->amounts;
        item.served = own->served;
        return item;
    }
    if (food && holds_allergen(now.athlete, *food))
        why = "it holds an allergen of yours";
    else if (food && food->caffeine_mg > 0 && now.need.limits.caffeine_dose_mg <= 0)
        why = "it holds caffeine, which this plan has none of";
    else if (!portion)
        why = "it is avoided, or has no portion for one hand";
    else if (belt_full(leg, item.at_s))
        why = "the run belt is full";
    else if (why = why_not_on(now, leg, *food); why.empty())
        why = why_not_at(now, leg.leg, item.at_s, portion->solid);
    if (!why.empty())
        return std::nullopt;
    item.portion = *portion;
    item.amounts = carried_amounts(*portion, leg.kind);
    return item;
}

/// Not a matter of taste: an allergen, or caffeine for somebody who must have none.
bool harms(const Setting& now, const Pin& pin) {
    const Food* food = now.pantry.find(pin.food);
    if (!food)
        return false;
    const auto& athlete = now.athlete;
    const bool barred = athlete.age_y.value_or(18) < 18 || athlete.health.pregnant_or_breastfeeding ||
                        athlete.health.heart_kidney_or_blood_pressure;
    return holds_allergen(athlete, *food) || (food->caffeine_mg > 0 && barred);
}

/// Why the pin cannot stand, or empty; `program` then holds it.
std::string place(const Setting& now, const Pin& pin, Program& program, WorkBudget& budget) {
    const auto index = leg_of(now, pin);
    if (!index)
        return fmt::format("no {} of this day is that long", to_string(pin.leg));
    const auto& leg = program.legs[*index];
    if (leg.grids.empty())
        return leg.kind == LegKind::bike ? "hands stay on the bar" : "nothing is planned on this leg";
    std::string why;
    const auto item = item_of(now, pin, leg, why);
    if (!item)
        return why;
    if (near_another(program, *item))
        return "another wish is less than 5 min away";
    if (leg.pocket_mg >= 0 && item->amounts[mass] > leg.pocket_mg)
        return "the pockets are full";
    Program trial = program;
    fix(trial, *item);
    if (const auto solution = budget.solve(trial, quick_work); !solution.any)
        return solution.broken == Rule::none ? "no plan with it was found"
                                             : fmt::format("it breaks {}", words_of(solution.broken).rule);
    program = std::move(trial);
    return "";
}

} // namespace

std::vector<KeptOut> fix_pins(const Setting& now, const std::vector<Pin>& pins, Program& program,
                              WorkBudget& budget) {
    std::vector<KeptOut> out;
    for (const auto& pin : pins)
        if (const auto why = place(now, pin, program, budget); !why.empty())
            out.push_back({pin.said, why, harms(now, pin)});
    return out;
}

} // namespace tuck::schedule
