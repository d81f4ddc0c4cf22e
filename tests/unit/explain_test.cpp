// The chain behind a number, as `tuck explain` prints it.
#include "stage_examples.hpp"
#include "text/layout.hpp"
#include "text/plan_json.hpp"
#include "text/plan_text.hpp"
#include "text/trace_pointer.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

using namespace tuck;
using namespace tuck::example;

namespace {

const Plan& plan() {
    static const Plan made = [] {
        Event event = race("standard", 24);
        event.days = 200;
        event.station_policy = StationPolicy::typical;
        return compose_plan(athlete(70, Level::steady), event, pantry());
    }();
    return made;
}

bool has(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("a pointer gives its value, its reasons and where it came from", "[explain]") {
    const auto text = faces::explain_text(plan(), "/needs/2/fluid_ml_per_h");
    CHECK(text.rfind("/needs/2/fluid_ml_per_h = bike", 0) == 0);
    CHECK(has(text, "all drink of the day at most"));
    CHECK(has(text, "from /needs/2/sweat_ml_per_h"));
    CHECK(has(text, "from /durations/2"));
    CHECK(has(text, "Martin 1998")); // the chain ends at the models
}

TEST_CASE("plain words find the number", "[explain]") {
    CHECK(has(faces::explain_text(plan(), "bike fluid"), "/needs/2/fluid_ml_per_h"));
    CHECK(has(faces::explain_text(plan(), "run time"), "/durations/4"));
    CHECK(has(faces::explain_text(plan(), "BIKE Sodium"), "/needs/2/sodium_mg_per_h"));
}

TEST_CASE("a number inside a family is explained by the family", "[explain]") {
    CHECK(faces::explain_text(plan(), "/feeds/0/carb_g").rfind("/feeds", 0) == 0);
    CHECK(faces::explain_text(plan(), "/durations/2/p90_s").rfind("/durations/2", 0) == 0);
    CHECK(faces::explain_text(plan(), "/outlook/chance/mass_gain").rfind("/outlook", 0) == 0);
    // The nearest family: not that of leg 1 for leg 10, and not a name that merely begins alike.
    CHECK(faces::explain_text(plan(), "/totalsum").empty());
}

TEST_CASE("what is not there is not made up", "[explain]") {
    CHECK(faces::explain_text(plan(), "/no/such/number").empty());
    CHECK(faces::explain_text(plan(), "unicorn").empty());
}

TEST_CASE("every trace names reasons with sources, and only traces that exist", "[explain]") {
    for (const auto& trace : plan().traces) {
        INFO(faces::pointer_of(trace.key));
        for (const auto& reason : trace.because) {
            CHECK_FALSE(reason.text.empty());
            CHECK_FALSE(reason.source.empty());
        }
        for (const auto& from : trace.from)
            CHECK(faces::trace_of(plan(), from));
    }
}

TEST_CASE("a trace stands where its pointer says, and holds what stands there", "[explain]") {
    const auto document = nlohmann::json::parse(faces::plan_json(plan()));
    std::set<std::string> pointers;
    std::size_t numbers = 0;
    for (const auto& trace : plan().traces) {
        const auto pointer = faces::pointer_of(trace.key);
        INFO(pointer);
        CHECK(pointers.insert(pointer).second);
        CHECK(faces::trace_of(plan(), pointer) == &trace);
        if (trace.key.field == PlanField::heat || trace.key.part == PlanPart::broken_rules)
            continue; // a table of the reasons alone; lines that were not typed break no rule
        const auto& there = document.at(nlohmann::json::json_pointer(pointer));
        if (trace.values.empty()) {
            CHECK(there.is_structured());
            continue;
        }
        const auto& value = trace.values.front();
        ++numbers;
        if (there.is_boolean())
            CHECK(there.get<bool>() == (value.number == 1));
        else if (there.is_number())
            CHECK(there.get<double>() == Approx(value.number).margin(0.05)); // rounded there to a tenth
        else if (there.contains("p50_s")) {
            CHECK(there.at("p10_s").get<double>() == Approx(value.low.value()).margin(0.5)); // to a second
            CHECK(there.at("p50_s").get<double>() == Approx(value.number).margin(0.5));
            CHECK(there.at("p90_s").get<double>() == Approx(value.high.value()).margin(0.5));
        } else if (there.contains("p50")) {
            CHECK(there.at("p05").get<double>() == Approx(value.low.value()).margin(0.5)); // to a gram
            CHECK(there.at("p50").get<double>() == Approx(value.number).margin(0.5));
            CHECK(there.at("p95").get<double>() == Approx(value.high.value()).margin(0.5));
        } else
            CHECK(there.at("carb_g").get<double>() == Approx(value.number).margin(0.05));
    }
    CHECK(numbers == 5 + 1 + 5 * 4 + 1 + 1 + 2); // durations, total, needs, totals, fuelling_needed, outlook
}

TEST_CASE("simulated days tell their numbers where there are any", "[explain]") {
    CHECK(faces::explain_text(plan(), "/outlook/glycogen_left_g")
              .starts_with(
                  fmt::format("/outlook/glycogen_left_g = {:.0f} (", plan().outlook.glycogen_left_g.p50)));
    Event event = race("standard", 24);
    event.days = 0;
    const auto without = compose_plan(athlete(70, Level::steady), event, pantry());
    CHECK(faces::explain_text(without, "/outlook/glycogen_left_g").starts_with("/outlook/glycogen_left_g\n"));
}

TEST_CASE("everything is explained when nothing is asked, in 80 columns", "[explain]") {
    std::istringstream text(faces::explain_text(plan(), ""));
    int lines = 0;
    for (std::string line; std::getline(text, line); ++lines)
        CHECK(faces::width_of(line) <= 80);
    CHECK(lines > 100);
}
