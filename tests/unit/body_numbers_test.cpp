// Borders of single numbers of the body and of labels, each with its source.
#include "body/label.hpp"
#include "body/land_heat.hpp"
#include "body/sweat_salt.hpp"
#include "tuck/body.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace tuck;
using Catch::Contains;

TEST_CASE("a patch reads no sodium below nothing (Baker 2020: a bias is taken off)", "[salt]") {
    CHECK(*body::whole_body_sodium_from_patch("chest", 20) == 0);
    CHECK(*body::whole_body_sodium_from_patch("chest", 22.5) == Approx(0.5));
    CHECK(*body::whole_body_sodium_from_patch("five_sites", 0) == Approx(0.44)); // Baker 2009
}

TEST_CASE("US labels: sodium below 5 mg is nothing, to 140 by fives, then by tens (21 CFR 101.9(c)(4))",
          "[label]") {
    CHECK(body::us_rounded_sodium_mg(4.9) == 0);
    CHECK(body::us_rounded_sodium_mg(5) == 5);
    CHECK(body::us_rounded_sodium_mg(6) == 5);
    CHECK(body::us_rounded_sodium_mg(138) == 140);
    CHECK(body::us_rounded_sodium_mg(146) == 150);
}

TEST_CASE("heat is told for the tenth minute, the first hour, the third, and the mean of the leg",
          "[rules]") {
    const auto heads = [](double minutes) {
        Event event;
        event.weather.temperature_c = 20;
        event.legs.resize(1);
        event.legs[0].kind = LegKind::bike;
        event.legs[0].time_s = 60 * minutes;
        Athlete athlete;
        athlete.mass_kg = 70;
        return describe_body(athlete, event, estimate_effort(athlete, event))
            .legs.at(0)
            .heat_because.at(0)
            .text;
    };
    CHECK_THAT(heads(180), Contains("10'") && Contains("60'") && Contains("180'") && Contains("mean"));
    CHECK_THAT(heads(179), Contains("60'") && !Contains("180'") && Contains("mean"));
    CHECK_THAT(heads(59), Contains("10'") && !Contains("60'") && Contains("mean"));
}

TEST_CASE("in hot air that is full of water no sweat evaporates, and its heat is stored", "[heat]") {
    body::LandLoad load;
    load.metabolic_w = 1000;
    load.area_m2 = 1.9;
    load.air_c = 40; // above the skin's vapour pressure of 5.6 kPa at 35 C
    load.humidity_pct = 100;
    load.air_speed_m_s = 3;
    const auto heat = body::land_heat_balance(load);
    CHECK(heat.evaporated_w == 0);
    CHECK(heat.stored_w > 900);
    CHECK(heat.metabolic_w ==
          Approx(heat.mechanical_w + heat.respiratory_w + heat.dry_w + heat.evaporated_w + heat.stored_w));
}

TEST_CASE("a test in the cold is held against a quarter of a litre at least", "[sweat]") {
    // Where the model gives almost nothing, 300 ml/h are 1.2 times it and no more (our choice).
    Event event;
    event.weather.temperature_c = 10;
    event.legs.resize(1);
    event.legs[0].kind = LegKind::run;
    event.legs[0].time_s = 3600;
    event.legs[0].distance_m = 8000;
    Athlete athlete;
    athlete.mass_kg = 55;
    athlete.sweat = MeasuredSweat();
    athlete.sweat->sweat_ml_per_h = 300;
    athlete.sweat->temperature_c = -20;
    const auto body = describe_body(athlete, event, estimate_effort(athlete, event));
    const auto& because = body.legs.at(0).because;
    const bool told = std::any_of(because.begin(), because.end(), [](const Reason& reason) {
        return reason.text.find("300 ml/h at -20 C, 1.20 times the model there") != std::string::npos;
    });
    CHECK(told);
}
