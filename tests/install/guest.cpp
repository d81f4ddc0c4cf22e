// Every public header compiles for a stranger, and a library call answers.
#include <tuck/athlete.hpp>
#include <tuck/event.hpp>
#include <tuck/food.hpp>
#include <tuck/plan.hpp>
#include <tuck/reason.hpp>

#include <iostream>

int main() {
    const auto legs = tuck::preset_legs("standard");
    if (legs.size() != 5 || tuck::allergen_names().size() != 14)
        return 1;
    for (const auto& leg : legs)
        std::cout << tuck::to_string(leg.kind) << ' ' << leg.distance_m << '\n';
}
