// A plan from C++. Usage: plan FOODS, the folder share/tuck/foods of the installation. The athlete is
// invented.
#include <tuck/ask.hpp>

#include <cstdio>

int main(int argc, char** argv) {
    tuck::Ask ask;
    ask.pantry = argc > 1 ? argv[1] : "";
    ask.event = tuck::Document("my race", R"({"distance": "standard", "weather": {"temperature_c": 24}})");
    ask.options = {{"--mass", {"68kg"}}, {"--level", {"steady"}}, {"--stations", {"typical"}}};
    try {
        const auto plan = tuck::answer(tuck::read_ask(ask)).plan;
        std::printf("%s, %.0f min\n", plan.refused ? "refused" : "safe", plan.total.p50_s / 60);
        for (const auto& feed : plan.feeds)
            std::printf("%-4s %3.0f min: %2.0f g, %3.0f ml\n", tuck::to_string(feed.leg),
                        feed.at_s.count() / 60, feed.carb_g.count(), feed.fluid_ml.count());
    } catch (const tuck::Error& error) { // one line for each fault
        std::fprintf(stderr, "%s\n", error.what());
        return 2;
    }
}
