// The ceiling on drink: its closed form, and what the simulated days say of a plan that is drunk up to it.
#include "need/fluid.hpp"
#include "stage_examples.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tuck;
using namespace tuck::example;

namespace {

double hours(const Effort& effort, std::size_t leg) {
    return effort.legs[leg].time.p50_s / 3600;
}

/// All that the printed ceilings of a day allow, ml.
double allowed_ml(const Need& need, const Effort& effort) {
    double sum = 0;
    for (std::size_t i = 0; i < need.legs.size(); ++i)
        sum += need.legs[i].fluid_ml_per_h * hours(effort, i);
    return sum;
}

struct Day {
    Athlete person;
    Event event;
    Effort effort;
    Body body;
    Need need;

    Day(const Athlete& who, const Event& what)
        : person(who), event(what), effort(estimate_effort(who, what)),
          body(describe_body(who, what, effort)), need(state_need(who, what, effort, body)) {}

    /// Every leg drunk up to its printed ceiling, every ten minutes: more than any plan of ours.
    PlanOutlook drunk_to_the_ceiling() const {
        Schedule schedule;
        for (std::size_t i = 0; i < effort.legs.size(); ++i) {
            const auto& leg = effort.legs[i];
            const double ml = need.legs[i].fluid_ml_per_h * hours(effort, i);
            const int feeds = std::max(1, static_cast<int>(leg.time.p50_s / 600));
            for (int k = 0; ml > 0 && k < feeds; ++k) {
                PlanFeed feed;
                feed.leg_index = leg.leg_index;
                feed.leg = leg.kind;
                feed.at_s = leg.time.p50_s * (k + 0.5) / feeds;
                feed.fluid_ml = ml / feeds;
                schedule.feeds.push_back(feed);
            }
        }
        return look_ahead(person, event, effort, body, schedule);
    }
};

Athlete tested(double ml_per_h, double celsius) {
    Athlete out = athlete(70, Level::steady);
    out.sweat = MeasuredSweat{ml_per_h, Sport::run, celsius, 60.0};
    return out;
}

} // namespace

TEST_CASE("all drink of a day: the sweat that 95 athletes in 100 reach, and 1 % of body mass",
          "[need][fluid]") {
    // practice.md. Endurance athletes differ by a CV of 45 % (Barnes 2019: 1.28 +- 0.57 L/h): log SD 0.43,
    // whose 5th percentile is exp(-1.645 * 0.43) = 0.49 of the median.
    const Day day(athlete(70, Level::steady), race("long", 12));
    const auto fluid = need::day_fluid(70, day.effort, day.body);
    // What forecast (2.5 C) and pace leave open, some 0.2 in the logarithm in the cool, takes a little more.
    CHECK(fluid.careful_share <= 0.494);
    CHECK(fluid.careful_share == Approx(std::exp(-1.645 * std::hypot(0.43, 0.2))).margin(0.02));
    CHECK(fluid.margin_ml == Approx(700));
    CHECK(fluid.day_ml == Approx(fluid.careful_share * fluid.sweat_ml + 700));
    CHECK(allowed_ml(day.need, day.effort) <= fluid.day_ml);
    CHECK(allowed_ml(day.need, day.effort) > 0.97 * fluid.day_ml); // floors of 10 ml/h alone
}

TEST_CASE("a short race may drink what it sweats, a long one less, and a test raises it", "[need][fluid]") {
    const auto of_sweat = [](const Athlete& who, const char* name) {
        const Day day(who, race(name, 20));
        return need::day_fluid(who.mass_kg, day.effort, day.body).of_sweat;
    };
    const Athlete untested = athlete(70, Level::steady);
    CHECK(of_sweat(untested, "sprint") == 1);
    CHECK(of_sweat(untested, "standard") > 0.8);
    CHECK(of_sweat(untested, "middle") < of_sweat(untested, "standard"));
    CHECK(of_sweat(untested, "long") < of_sweat(untested, "middle"));
    CHECK(of_sweat(tested(900, 20), "long") > of_sweat(untested, "long"));
}

TEST_CASE("drunk up to the ceiling, at most 5 days in 100 gain over 1 % of body mass",
          "[need][fluid][outlook][slow]") {
    // The closed form against the simulated days, which know more: weather, pace, breath, water from burning.
    std::size_t most = 0;
    for (const char* name : {"super-sprint", "sprint", "standard", "middle", "long"})
        for (const double mass_kg : {50.0, 70.0, 95.0})
            for (const double celsius : {8.0, 20.0, 33.0}) {
                const Day day(athlete(mass_kg, Level::steady), race(name, celsius));
                const auto outlook = day.drunk_to_the_ceiling();
                const double n = outlook.days;
                INFO(name << ", " << mass_kg << " kg, " << celsius << " C: " << outlook.water_gain_over_1pct);
                CHECK(outlook.water_gain_over_1pct <= 0.05 + 2 * std::sqrt(0.05 * 0.95 / n));
                most += outlook.water_gain_over_1pct > 0.02;
            }
    CHECK(most > 0); // the rule binds somewhere, else it would be idle
}

TEST_CASE("a sweat test narrows the ceiling's margin and keeps its chance", "[need][fluid][outlook][slow]") {
    for (const char* name : {"middle", "long"})
        for (const double ml_per_h : {500.0, 900.0, 1300.0}) {
            const Day day(tested(ml_per_h, 20), race(name, 20));
            const auto outlook = day.drunk_to_the_ceiling();
            INFO(name << ", " << ml_per_h << " ml/h: " << outlook.water_gain_over_1pct);
            CHECK(outlook.water_gain_over_1pct <= 0.05 + 2 * std::sqrt(0.05 * 0.95 / outlook.days));
        }
}

TEST_CASE("a health word or a light body in a long race keeps the 20th percentile too", "[need][fluid]") {
    const auto held = [](const Athlete& who, const char* name) {
        const Day day(who, race(name, 20));
        for (std::size_t i = 0; i < day.need.legs.size(); ++i)
            if (day.need.legs[i].fluid_ml_per_h > day.body.legs[i].sweat_p20_ml_per_h)
                return false;
        return true;
    };
    Athlete heart = athlete(70, Level::steady), pregnant = athlete(70, Level::steady);
    heart.health.heart_kidney_or_blood_pressure = true;
    pregnant.health.pregnant_or_breastfeeding = true;
    CHECK(held(heart, "sprint"));
    CHECK(held(pregnant, "standard"));
    CHECK(held(athlete(44, Level::steady), "middle"));
    CHECK_FALSE(held(athlete(44, Level::steady), "sprint"));
    CHECK_FALSE(held(athlete(70, Level::steady), "sprint"));
}

TEST_CASE("over one litre an hour is warned of, and no mass is told to whom it hurts", "[need][fluid]") {
    Athlete heavy = tested(1800, 25);
    heavy.rehearsed.fluid_ml_per_h = 1200;
    CHECK(says(need_of(heavy, race("standard", 25)).warnings, "much_fluid"));
    heavy.rehearsed.fluid_ml_per_h = 1000;
    CHECK_FALSE(says(need_of(heavy, race("standard", 25)).warnings, "much_fluid"));

    Athlete shy = athlete(60, Level::steady);
    const auto open = need_of(shy, race("middle", 20));
    CHECK(says(of(open.legs, LegKind::bike).because, "body mass"));
    shy.health.past_eating_disorder = true;
    const auto hidden = need_of(shy, race("middle", 20));
    for (const auto& reason : of(hidden.legs, LegKind::bike).because) {
        CHECK(reason.text.find("mass") == std::string::npos);
        CHECK(reason.text.find('%') == std::string::npos);
    }
}
