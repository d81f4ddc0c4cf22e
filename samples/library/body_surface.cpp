// One published model, by its name.
#include <tuck/model.hpp>

#include <cstdio>

int main() {
    const auto* surface = tuck::find_model("body_surface");
    const auto result = tuck::run_model(*surface, {{"mass_kg", "70"}, {"height_m", "1.75"}});
    std::printf("%.2f m2\n", result.values.at(0).second);
}
