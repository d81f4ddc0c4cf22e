#include "schedule/habit.hpp"

#include "schedule/solver.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tuck::schedule {

namespace {

constexpr double no_end = std::numeric_limits<double>::infinity();

/// Up to `below` the neutral value is `stands_for` (our choice: what a coach tells apart).
struct Step {
    double below, stands_for;
};

double neutral(std::initializer_list<Step> steps, double value) {
    for (const auto& step : steps)
        if (value < step.below)
            return step.stands_for;
    return value;
}

double neutral_length_s(LegKind kind, double s) {
    constexpr double min = 60;
    if (kind == LegKind::bike)
        return neutral(
            {{60 * min, 45 * min}, {120 * min, 80 * min}, {240 * min, 180 * min}, {no_end, 375 * min}}, s);
    if (kind == LegKind::run)
        return neutral(
            {{40 * min, 30 * min}, {80 * min, 60 * min}, {180 * min, 120 * min}, {no_end, 285 * min}}, s);
    return s;
}

double neutral_rate(double g_per_h) {
    return neutral({{38, 30}, {53, 45}, {67, 60}, {83, 75}, {105, 90}, {no_end, 120}}, g_per_h);
}

double neutral_ceiling(double ml_per_h) {
    return neutral({{200, 150}, {300, 250}, {400, 350}, {520, 450}, {700, 600}, {no_end, 800}}, ml_per_h);
}

Effort neutral_effort(Effort effort) {
    for (auto& leg : effort.legs) {
        const double times = neutral_length_s(leg.kind, leg.time.p50_s) / leg.time.p50_s;
        for (double* each : {&leg.time.p10_s, &leg.time.p50_s, &leg.time.p90_s})
            *each *= times;
        leg.speed_m_s /= times;
        leg.sections.clear();
        leg.busy.clear();
    }
    return effort;
}

Need neutral_need(Need need) {
    const double rate = need.limits.carb_g > 0 ? neutral_rate(need.limits.carb_g) / need.limits.carb_g : 1;
    need.limits.carb_g *= rate;
    for (auto& leg : need.legs) {
        leg.carb_g_per_h *= rate;
        const double drink =
            leg.fluid_ml_per_h > 0 ? neutral_ceiling(leg.fluid_ml_per_h) / leg.fluid_ml_per_h : 1;
        for (double* each :
             {&leg.fluid_ml_per_h, &leg.fluid_aim_ml_per_h, &leg.sodium_mg_per_h, &leg.sweat_ml_per_h})
            *each *= drink;
    }
    return need;
}

Habit habit_of(const LegProgram& leg, const LegSolution& best) {
    const Grid& grid = leg.grids[best.grid];
    Habit out;
    out.every_s = grid.every_s;
    if (best.drink.drink >= 0) {
        out.drink = leg.drinks[static_cast<size_t>(best.drink.drink)].drink.food;
        out.drink_step = best.drink.step;
    }
    for (const auto& line : best.items)
        out.items.push_back(
            {leg.foods[static_cast<size_t>(line.food)].portion.food,
             line.single ? 0 : static_cast<int>(std::lround(line.step * std::max(1.0, grid.every_s)))});
    return out;
}

void give(LegProgram& leg, const Habit& habit) {
    leg.habit = habit;
    for (auto& grid : leg.grids) {
        grid.points += price::unusual * static_cast<Cost>(habit.items.size()); // which their lines take back
        if (std::abs(grid.every_s - habit.every_s) > 1)
            grid.points += price::unusual;
    }
}

} // namespace

long long learn_habits(const Setting& now, Program& program, long long work) {
    const Effort effort = neutral_effort(now.effort);
    const Need need = neutral_need(now.need);
    KitInUse kit = now.kit; // another bottle is no other habit
    if (!kit.bottles_ml.empty())
        kit.bottles_ml = usual_bottles_ml(longest_ride_m(now.effort));
    Program other = program_of({now.athlete, now.event, effort, need, now.pantry, now.menu, kit});
    for (size_t i = 0; i < other.legs.size(); ++i)
        if (program.legs[i].grids.empty())
            other.legs[i].grids.clear();
    for (auto& leg : other.legs)
        leg.heat_pct = leg.heat_pct < 25 ? 0 : leg.heat_pct < 75 ? 50 : 100;
    const auto solution = solve(other, work);
    for (size_t i = 0; solution.any && i < program.legs.size(); ++i)
        if (!program.legs[i].grids.empty() && !other.legs[i].grids.empty())
            give(program.legs[i], habit_of(other.legs[i], solution.legs[i]));
    return solution.work;
}

} // namespace tuck::schedule
