// What no person and no day can be is an error of the library, not a plan. Ranges are those of the files, our
// choice.
#include "stage_examples.hpp"
#include "tuck/error.hpp"

#include <catch2/catch.hpp>
#include <limits>

using namespace tuck;
using namespace tuck::example;
using Catch::Contains;

TEST_CASE("a mass of -5 kg is an error, not a plan", "[plan]") {
    auto event = race("sprint");
    event.days = 0;
    const auto& foods = pantry();
    CHECK_NOTHROW(compose_plan(athlete(70), event, foods));
    for (const double mass_kg : {-5.0, 0.0, 24.0, 251.0, std::numeric_limits<double>::quiet_NaN(),
                                 std::numeric_limits<double>::infinity()})
        CHECK_THROWS_WITH(compose_plan(athlete(mass_kg), event, foods),
                          Contains("athlete.mass_kg") && Contains("25 to 250 kg"));
}

TEST_CASE("a day without a leg, and legs that cannot be", "[plan]") {
    auto event = race("sprint");
    event.days = 0;
    auto wrong = event;
    wrong.legs.clear();
    CHECK_THROWS_WITH(compose_plan(athlete(), wrong, pantry()), Contains("at least one leg"));
    wrong = event;
    wrong.legs[0].distance_m = -750;
    wrong.weather.temperature_c = 90;
    CHECK_THROWS_WITH(compose_plan(athlete(), wrong, pantry()),
                      Contains("legs.distance_m") && Contains("weather.temperature_c"));
    wrong = event;
    wrong.legs[0].time_s = 0;
    CHECK_THROWS_AS(compose_plan(athlete(), wrong, pantry()), Error);
    wrong = event;
    wrong.days = -1;
    CHECK_THROWS_AS(compose(athlete(), wrong, pantry(), true), Error);
}
