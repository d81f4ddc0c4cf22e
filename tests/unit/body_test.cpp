// The body stage against field data and direction of physics.
#include "stage_examples.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tuck;
using namespace tuck::example;

namespace {

double sweat(const Athlete& a, const Event& e, LegKind kind) {
    return of(body_of(a, e).legs, kind).sweat_ml_per_h;
}

/// The model gives means; the stage prints the median of a log-normal spread around them.
double mean_of(double median, double log_sd) {
    return median * std::exp(log_sd * log_sd / 2);
}

} // namespace

TEST_CASE("sweat of racing athletes lies in the range of the field", "[body]") {
    // 0.3-2.4 L/h in athletes (Sawka 2009 statement, as quoted).
    for (const double mass : {60.0, 75.0})
        for (const double celsius : {15.0, 20.0, 25.0, 30.0})
            for (const LegKind kind : {LegKind::bike, LegKind::run}) {
                INFO(mass << " kg, " << celsius << " C, " << to_string(kind));
                const double ml_per_h = sweat(athlete(mass, Level::keen), race("standard", celsius), kind);
                CHECK(ml_per_h > 300);
                CHECK(ml_per_h < 2400);
            }
}

TEST_CASE("the middle of temperate endurance sport is the middle of the survey", "[body]") {
    // Endurance athletes 1.28 +- 0.57 L/h (Barnes 2019), tests in all weathers: a run at 20-28 C lies within
    // one SD.
    for (const double celsius : {20.0, 24.0, 28.0}) {
        const double ml_per_h = sweat(athlete(75, Level::keen), race("standard", celsius), LegKind::run);
        CHECK(ml_per_h > 1280 - 570);
        CHECK(ml_per_h < 1280 + 570);
    }
    // And the spread between athletes is the survey's: 0.57 / 1.28.
    auto event = race("standard");
    event.weather.sun_share = 0.5; // a sun that is not known spreads it further
    const auto body = body_of(athlete(), event);
    CHECK(body.sweat_log_sd < body_of(athlete(), race("standard")).sweat_log_sd);
    CHECK(std::sqrt(std::exp(body.sweat_log_sd * body.sweat_log_sd) - 1) == Approx(0.57 / 1.28).margin(0.01));
}

TEST_CASE("swimmers sweat as in the pool study", "[body]") {
    // Macaluso 2011: 0.48 L/h at 23 C and 1.25 at 32 C, swimmers of 72.7 kg.
    for (const auto& [water_c, ml_per_h] : {std::pair{23.0, 480.0}, {32.0, 1250.0}}) {
        Event event = race("standard");
        event.weather.water_temperature_c = water_c;
        leg_of(event, LegKind::swim).time_s = 1500 / 1.1; // their speed, taken at 1.1 m/s
        const auto body = body_of(athlete(72.7), event);
        CHECK(mean_of(of(body.legs, LegKind::swim).sweat_ml_per_h, body.sweat_log_sd) ==
              Approx(ml_per_h).margin(5));
    }
}

TEST_CASE("hotter is wetter, wind dries, damp air wastes", "[body]") {
    double last = 0;
    for (const double celsius : {10.0, 16.0, 22.0, 28.0, 34.0}) {
        const double now = sweat(athlete(), session(LegKind::run, 60, 12e3, celsius), LegKind::run);
        CHECK(now > last);
        last = now;
    }
    last = 1e9;
    for (const double wind : {0.0, 3.0, 6.0, 10.0}) {
        Event event = session(LegKind::run, 60, 12e3, 25);
        event.weather.wind_m_s = wind;
        const double now = sweat(athlete(), event, LegKind::run);
        CHECK(now < last);
        last = now;
    }
    Event dry = session(LegKind::run, 60, 12e3, 30), damp = dry;
    dry.weather.humidity_pct = 30;
    damp.weather.humidity_pct = 85;
    CHECK(sweat(athlete(), damp, LegKind::run) > sweat(athlete(), dry, LegKind::run));
    // Heavier and faster means more heat.
    CHECK(sweat(athlete(85), session(LegKind::run, 60, 12e3), LegKind::run) >
          sweat(athlete(60), session(LegKind::run, 60, 12e3), LegKind::run));
    CHECK(sweat(athlete(), session(LegKind::run, 60, 14e3), LegKind::run) >
          sweat(athlete(), session(LegKind::run, 60, 10e3), LegKind::run));
}

TEST_CASE("a sweat test in the day's own conditions comes back", "[body]") {
    for (const double measured : {500.0, 900.0, 1800.0}) {
        Athlete a = athlete(70, Level::keen);
        a.sweat = MeasuredSweat{measured, Sport::bike, 22.0, 60.0};
        const auto body = body_of(a, race("standard", 22));
        CHECK(body.sweat_measured);
        // The rate of the warm body; out of the water it still warms a little, so the leg's mean lies below.
        const double here = mean_of(of(body.legs, LegKind::bike).sweat_ml_per_h, body.sweat_log_sd);
        CHECK(here < measured + 1);
        CHECK(here > 0.90 * measured);
        // Day to day about 0.15 L/h (Smith 2021): a test knows more than none.
        CHECK(body.sweat_log_sd < body_of(athlete(), race("standard", 22)).sweat_log_sd);
    }
    // A test on a cool day says more for a hot one.
    Athlete cool = athlete();
    cool.sweat = MeasuredSweat{800, Sport::bike, 15.0, 60.0};
    CHECK(sweat(cool, race("standard", 30), LegKind::bike) > 900);
}

TEST_CASE("the careful figure is the 20th percentile", "[body]") {
    const auto body = body_of(athlete(), race("standard"));
    for (const auto& leg : body.legs)
        // z of 0.20 is -0.841621 (statistics.NormalDist().inv_cdf(0.2), Python 3.11).
        CHECK(leg.sweat_p20_ml_per_h ==
              Approx(leg.sweat_ml_per_h * std::exp(-0.8416212335729143 * body.sweat_log_sd)));
    // Practice: about 0.6-0.7 of the mean without a test.
    const auto& bike = of(body.legs, LegKind::bike);
    const double of_mean = bike.sweat_p20_ml_per_h / mean_of(bike.sweat_ml_per_h, body.sweat_log_sd);
    CHECK(of_mean > 0.6);
    CHECK(of_mean < 0.7);
}

TEST_CASE("energy of a run is about a kilocalorie per kilogram and kilometre", "[body]") {
    // ACSM running equation, level: 0.2 ml/kg per m; 1 L of oxygen gives about 5 kcal: 1.0 kcal/kg/km,
    // and 3.5 ml/kg/min at rest on top, so 1.0-1.15 at 12 km/h.
    const auto body = body_of(athlete(70), session(LegKind::run, 60, 12e3));
    const double per_kg_km = body.legs[0].energy_kcal_per_h / 70 / 12;
    CHECK(per_kg_km > 0.95);
    CHECK(per_kg_km < 1.15);
}

TEST_CASE("energy of a ride follows the pedals", "[body]") {
    // Gross efficiency 19.8 +- 0.6 % in trained men at 95-305 W (Moseley & Jeukendrup 2001).
    const auto event = session(LegKind::bike, 60, 32e3);
    const auto effort = estimate_effort(athlete(), event);
    const auto body = describe_body(athlete(), event, effort);
    CHECK(effort.legs[0].power_w / body.legs[0].metabolic_w == Approx(0.198).margin(0.004));
}

TEST_CASE("carbohydrate's share grows with intensity and stays a share", "[body]") {
    const auto share = [](const char* name) { return body_of(athlete(), race(name)).legs[0].carb_share; };
    CHECK(share("sprint") > share("middle"));
    CHECK(share("middle") > share("long"));
    for (const auto& name : preset_names())
        for (const auto& leg : body_of(athlete(), race(name)).legs) {
            CHECK(leg.carb_share > 0);
            CHECK(leg.carb_share <= 1);
            // 4 kcal/g; nobody burns more than some 4 g/min.
            CHECK(leg.carb_use_g_per_h == Approx(leg.carb_share * leg.energy_kcal_per_h / 4));
        }
}

TEST_CASE("water and salt of the body", "[body]") {
    // Watson 1980: men 2.447 - 0.09516 age + 0.1074 cm + 0.3362 kg; women -2.097 + 0.1069 cm + 0.2466 kg.
    Athlete a = athlete(70);
    CHECK(body_of(a, race("sprint")).total_body_water_l == 35); // half: the low bracket where sex is not said
    a.sex = Sex::male;
    a.height_m = 1.78;
    a.age_y = 30;
    CHECK(body_of(a, race("sprint")).total_body_water_l ==
          Approx(2.447 - 0.09516 * 30 + 0.1074 * 178 + 0.3362 * 70).margin(0.01));
    a.sex = Sex::female;
    CHECK(body_of(a, race("sprint")).total_body_water_l ==
          Approx(-2.097 + 0.1069 * 178 + 0.2466 * 70).margin(0.01));
    // Sodium: 22.99 mg/mmol (atomic mass).
    a.sweat_sodium_mmol_per_l = 50;
    CHECK(body_of(a, race("sprint")).sweat_sodium_mg_per_l == Approx(50 * 22.99));
}
