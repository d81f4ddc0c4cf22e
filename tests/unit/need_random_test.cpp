// What holds for every plausible athlete and day: bounds, and no cliff (a hundredth more of an input moves
// sweat and ceiling by less than a tenth, unless a named rule of ours lies between).
#include "stage_examples.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace tuck;

namespace {

struct Case {
    Athlete athlete;
    Event event;
};

struct Rolled {
    Body body;
    Need need;
};

Rolled roll(const Case& of) {
    const auto effort = estimate_effort(of.athlete, of.event);
    auto body = describe_body(of.athlete, of.event, effort);
    auto need = state_need(of.athlete, of.event, effort, body);
    return {std::move(body), std::move(need)};
}

Case drawn(std::mt19937& random) {
    const auto between = [&random](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const auto yes = [&random](int in) { return random() % static_cast<unsigned>(in) == 0; };
    static const char* distances[] = {"super-sprint", "sprint", "standard", "middle", "long"};
    Case out{example::athlete(between(42, 120), static_cast<Level>(random() % 5)),
             example::race(distances[random() % 5], between(-5, 42))};
    out.event.weather.humidity_pct = between(15, 100);
    out.event.weather.wind_m_s = between(0, 9);
    if (yes(2))
        out.event.weather.sun_w_m2 = between(0, 1000);
    if (yes(3))
        out.athlete.age_y = between(14, 75);
    if (yes(3))
        out.athlete.sex = yes(2) ? Sex::female : Sex::male;
    if (yes(3))
        out.athlete.height_m = between(1.5, 1.98);
    if (yes(3))
        out.athlete.sweat = MeasuredSweat{between(300, 2400), yes(2) ? Sport::bike : Sport::run,
                                          between(5, 35), std::nullopt};
    if (yes(2))
        out.athlete.rehearsed.carb_g_per_h = between(20, 120);
    out.athlete.rehearsed.gut_trained = yes(4);
    if (yes(3))
        out.athlete.rehearsed.fluid_ml_per_h = between(300, 1300);
    return out;
}

Case nudged(Case of, int input) {
    switch (input) {
    case 0:
        of.athlete.mass_kg *= 1.01;
        break;
    case 1:
        of.event.weather.temperature_c += 0.2;
        break;
    case 2:
        of.event.weather.humidity_pct = std::min(100.0, *of.event.weather.humidity_pct * 1.01);
        break;
    case 3:
        of.event.weather.wind_m_s = *of.event.weather.wind_m_s * 1.01;
        break;
    default:
        if (of.athlete.sweat)
            of.athlete.sweat->sweat_ml_per_h *= 1.01;
    }
    return of;
}

} // namespace

TEST_CASE("random athletes and days: every need is finite and within its bounds", "[need][random][slow]") {
    std::mt19937 random(20261129);
    for (int n = 0; n < 3000; ++n) {
        const Case of = drawn(random);
        const auto [body, need] = roll(of);
        INFO(n << ": " << of.athlete.mass_kg << " kg, " << of.event.preset << ", "
               << of.event.weather.temperature_c << " C");
        for (std::size_t i = 0; i < need.legs.size(); ++i) {
            const auto& leg = need.legs[i];
            for (const double each : {leg.carb_g_per_h, leg.fluid_ml_per_h, leg.fluid_aim_ml_per_h,
                                      leg.sodium_mg_per_h, leg.sweat_ml_per_h})
                CHECK((std::isfinite(each) && each >= 0 && !std::signbit(each)));
            CHECK(leg.fluid_ml_per_h <= leg.sweat_ml_per_h + 1e-9);
            CHECK(leg.fluid_ml_per_h <= 1420); // refused above, Noakes 2005
            CHECK(leg.fluid_ml_per_h <= std::max(800.0, of.athlete.rehearsed.fluid_ml_per_h) + 1e-9);
            CHECK(leg.fluid_aim_ml_per_h <= leg.fluid_ml_per_h + 1e-9);
            CHECK(leg.carb_g_per_h <= (of.athlete.rehearsed.gut_trained ? 120 : 90)); // practice
        }
    }
}

TEST_CASE("random athletes and days: no cliff in sweat and ceiling", "[need][random][slow]") {
    std::mt19937 random(20261130);
    int tried = 0;
    for (int n = 0; n < 1500; ++n) {
        const Case of = drawn(random);
        const auto [body, need] = roll(of);
        const int input = static_cast<int>(random() % 5);
        const Case other = nudged(of, input);
        const auto [other_body, other_need] = roll(other);
        INFO(n << ": " << of.athlete.mass_kg << " kg, " << of.event.preset << ", "
               << of.event.weather.temperature_c << " C, input " << input);
        REQUIRE(other_need.legs.size() == need.legs.size());
        for (std::size_t i = 0; i < need.legs.size(); ++i) {
            const auto near = [](double a, double b) { return std::abs(a - b) <= 0.1 * std::max(a, b) + 10; };
            CHECK(near(need.legs[i].sweat_ml_per_h, other_need.legs[i].sweat_ml_per_h));
            CHECK(near(need.legs[i].fluid_ml_per_h, other_need.legs[i].fluid_ml_per_h));
            ++tried;
        }
    }
    CHECK(tried > 5000);
}
