// A squad's kitchen: what to buy, what to mix, and the labels of all bottles and bags in roster order.
#pragma once

#include "sheet/sheet_content.hpp"
#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// One athlete's part of it.
struct KitchenShare {
    std::string event, who; // "12 Ada Birch"
    std::vector<ShoppingItem> shopping;
    std::vector<Mix> mix;
    std::vector<SheetLabels::Label> labels;
};
KitchenShare kitchen_share(const Plan& plan);

/// Pages for the kitchen table: bottles that are mixed alike stand in one line.
SheetContent squad_kitchen(const std::string& event, const std::vector<KitchenShare>& shares);

} // namespace tuck::faces
