// Races of one leg and a handful of slots: what plain enumeration can still walk through. Rules and prices in
// words of their own, built from the definitions and not from the rows that the search uses.
#pragma once

#include "schedule/program.hpp"

#include <functional>
#include <vector>

namespace tuck::schedule {

Program tiny(unsigned seed);

/// The rules as practice says them: 1.1, 2.2 and 1.25 times the rate, the printed ceiling, drink below sweat,
/// a swallow for one gel only, no gel with a concentrated drink, which serves none as water either.
bool legal(const Program& program, const DrinkLine& drink, const std::vector<ItemLine>& items);

Cost price_by_definition(const Program& program, const DrinkLine& drink, const std::vector<ItemLine>& items);

/// Every drink line with none, one and two item lines, one after the other; legal or not.
using Visit = std::function<void(const DrinkLine&, const std::vector<ItemLine>&)>;
void walk(const Program& program, const Visit& visit);

} // namespace tuck::schedule
