// A solution, said as lines for a tired person and as the feeds that they expand to.
#pragma once

#include "schedule/frames.hpp"
#include "schedule/solver.hpp"
#include "tuck/schedule.hpp"

#include <vector>

namespace tuck::schedule {

/// What is taken at one moment of a leg on the likely day.
struct Taken {
    size_t slot = 0; // of the grid; beyond it: a fixed item on its own
    double at_s = 0, km = 0;
    bool by_place = false; // moved off its rhythm: on another day it comes where the road is clear
    const Portion* item = nullptr;
    int sips = 0;
    bool own_drink = true;
    double own_before_ml = 0; // own drink already drunk on this leg
};

/// One leg as it was decided.
struct Decided {
    const LegProgram* leg = nullptr;
    LegSolution choice;
    std::vector<Taken> taken; // in time order
    std::vector<Line> lines;
    std::vector<PlanFeed> feeds;
    double own_ml = 0, handed_ml = 0; // all swallows
    double carb_g = 0;
    const Grid& grid() const { return leg->grids[choice.grid]; }
    const DrinkChoice* own_drink() const {
        return choice.drink.drink < 0 ? nullptr : &leg->drinks[static_cast<size_t>(choice.drink.drink)];
    }
};

/// The short name of a food.
std::string food_label(const Food& food);

/// Expands what was decided; `drunk_ml` of the bike's bottles went on earlier bike legs. `program` must
/// outlive the result.
Decided decided(const Program& program, size_t leg, const LegSolution& choice, const KitInUse& kit,
                double drunk_ml);

} // namespace tuck::schedule
