// Asks the installed library for a race, and for one published model.
#include <tuck/compose.hpp>
#include <tuck/event.hpp>
#include <tuck/model.hpp>

#include <cstdio>

int main() {
    for (const auto& leg : tuck::preset_legs("standard"))
        std::printf("%s %.0f\n", tuck::to_string(leg.kind), leg.distance_m);
    const auto* surface = tuck::find_model("body_surface");
    if (!surface)
        return 1;
    const auto result = tuck::run_model(*surface, {{"mass_kg", "70"}, {"height_m", "1.75"}});
    std::printf("surface %.2f\n", result.values.at(0).second);
}
