// The chain behind a number, as `tuck explain` prints it.
#include "stage_examples.hpp"
#include "text/layout.hpp"
#include "text/plan_text.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
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
    const auto known = faces::explained_numbers(plan());
    for (const auto& trace : plan().traces) {
        INFO(trace.number);
        for (const auto& reason : trace.because) {
            CHECK_FALSE(reason.text.empty());
            CHECK_FALSE(reason.source.empty());
        }
        for (const auto& from : trace.from)
            CHECK(std::find(known.begin(), known.end(), from) != known.end());
    }
}

TEST_CASE("everything is explained when nothing is asked, in 80 columns", "[explain]") {
    std::istringstream text(faces::explain_text(plan(), ""));
    int lines = 0;
    for (std::string line; std::getline(text, line); ++lines)
        CHECK(faces::width_of(line) <= 80);
    CHECK(lines > 100);
}
