// What to buy for a plan.
#pragma once

#include "tuck/food.hpp"
#include "tuck/plan.hpp"

#include <vector>

namespace tuck::plan {

/// One item a food: pieces over all bags, grams over all bottles, in the order of first use. Pure.
std::vector<ShoppingItem> shopping(const Plan& plan, const Pantry& pantry);

/// The sums over several plans; pieces are whole.
void add_shopping(const std::vector<ShoppingItem>& more, std::vector<ShoppingItem>& all);

} // namespace tuck::plan
