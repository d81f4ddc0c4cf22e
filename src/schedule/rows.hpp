// The hard rules of one leg as rows over its slots, once its drink line is chosen.
#pragma once

#include "schedule/program.hpp"

#include <optional>
#include <vector>

namespace tuck::schedule {

/// What else is taken on the day: feeds of other legs, and fixed items.
struct Other {
    DayTimes clock_s{never, never, never};
    Amounts amounts{};
};

/// sum over item feeds at slots lo..hi of amount[resource] <= slack
struct Row {
    int resource = carb, lo = 0, hi = 0;
    std::int32_t slack = 0;
};

struct Rows {
    std::vector<Row> rows;
    bool broken = false; // by the drink line and the others alone
    Rule broken_rule = Rule::none;
};

/// The gut's limits of the leg in which a moment of the day lies; on the fast day those of the whole day.
const Caps& caps_at(const Program& program, size_t day, double clock_s);

/// On a run stations are places: who is fast drinks the same by the same kilometre, and more in an hour, as
/// he sweats more. The ceiling of the leg holds on every day, and so does the most that anybody may drink in
/// an hour. What the hour from a moment of the day may hold, ml.
double hour_of_drink_ml(const Program& program, const LegProgram& leg, size_t day, double from_s);

/// How near to a gel its water is drunk on a day. On the run stations are places, so the quarter of an hour
/// is that of the likely day.
double gel_water_within_s(const LegProgram& leg, size_t day);

/// What a leg may drink on a day, with the transition before it, which starts at `from_s`.
struct Budget {
    double ml = 0, from_s = 0;
};
Budget fluid_budget(const Program& program, const LegProgram& leg, size_t day);

/// All rows of a leg on a grid under a drink line; rows that another one implies are left out.
Rows rows_of(const Program& program, const LegProgram& leg, const Grid& grid, const DrinkLine& line,
             const std::vector<Other>& others);

/// Whether item lines keep the rows.
bool keeps(const Rows& rows, const LegProgram& leg, const Grid& grid, const std::vector<ItemLine>& items);

/// What a leg takes, as others for the next ones.
std::vector<Other> taken(const LegProgram& leg, const LegSolution& choice);

/// The fixed items of the whole race as others.
std::vector<Other> fixed_others(const Program& program);

} // namespace tuck::schedule
