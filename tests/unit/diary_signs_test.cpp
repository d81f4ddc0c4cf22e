// What sessions teach beside their rate: signs, foods, caps, and what a weighed race tells. The step rules
// are common practice, no source: src/diary/learn_gut.cpp names their figures.
#include "diary_entries.hpp"

#include <catch2/catch.hpp>

using namespace tuck;
using Catch::Contains;
using example::entry;

namespace {

RehearsalRecord session(double carb_g_per_h, int worst_on_bike, int worst_on_run = 0) {
    RehearsalRecord r;
    r.bike.minutes = 120;
    r.bike.carb_g = 2 * carb_g_per_h;
    r.bike.fluid_ml = 1000;
    r.bike.symptoms["nausea"] = worst_on_bike;
    r.run.minutes = 20;
    r.run.carb_g = 10;
    r.run.symptoms["cramps"] = worst_on_run;
    return r;
}

template <class... Records>
Learned after(const Records&... records) {
    int id = 0;
    return learn({entry(++id, records)...}, {});
}

RaceRecord race(double carb_g_per_h) {
    RaceRecord r;
    r.temperature_c = 20;
    r.legs = {{Sport::bike, 40000, 4500, 4500, 0}, {Sport::run, 10000, 3000, 3000, 0}};
    r.bike.minutes = 75;
    r.bike.carb_g = carb_g_per_h * 1.25;
    r.run.minutes = 50;
    return r;
}

} // namespace

TEST_CASE("signs: a thirst with a full bottle asks for a reminder, little thirst for nothing") {
    auto left = session(60, 1);
    left.bike.planned_fluid_ml = 1500; // a third is left
    CHECK_THAT(after(left).signs.at(0), Contains("500 ml") && Contains("less is fine"));
    left.thirst = 3;
    CHECK_THAT(after(left).signs.at(0), Contains("thirst of 3 of 10") && Contains("less is fine"));
    left.thirst = 6;
    CHECK_THAT(after(left).signs.at(0), Contains("A reminder helps"));
    left.bike.planned_fluid_ml = 1200; // a sixth: as planned
    CHECK(after(left).signs.empty());
    left.thirst = 7;
    CHECK_THAT(after(left).signs.at(0), Contains("though the planned drink was taken"));
}

TEST_CASE("signs: a slump and stops for the gut are told, of the last session alone") {
    auto bad = session(60, 1);
    bad.slump = true;
    bad.stops = 1;
    const auto once = after(bad);
    REQUIRE(once.signs.size() == 2);
    CHECK_THAT(once.signs[0], Contains("A slump"));
    CHECK_THAT(once.signs[1], Contains("1 stop for the gut"));
    bad.stops = 2;
    CHECK_THAT(after(bad).signs.at(1), Contains("2 stops"));
    CHECK(after(bad, session(60, 1)).signs.empty());
}

TEST_CASE("foods of what went well come first, the latest before the others, each once") {
    auto older = session(60, 1), newer = session(60, 3), bad = session(60, 4);
    older.foods = "gel_25,banana_ripe";
    newer.foods = "energy_bar, gel_25,"; // as a person types it
    bad.foods = "fig_biscuit";
    CHECK(after(older, newer, bad).foods == std::vector<std::string>{"energy_bar", "gel_25", "banana_ripe"});
    newer.vomited = true;
    CHECK(after(older, newer).foods == std::vector<std::string>{"gel_25", "banana_ripe"});
    auto raced = race(60);
    raced.foods = "rice_cake_home";
    CHECK(after(older, raced).foods.at(0) == "rice_cake_home");
    raced.blood = true;
    CHECK(after(older, raced).foods.at(0) == "gel_25");
}

TEST_CASE("foods that went well are liked after those that the athlete likes, and never what they avoid") {
    auto good = session(60, 0);
    good.foods = "gel_25,energy_bar,fig_biscuit";
    Athlete athlete;
    athlete.like = {"fig_biscuit"};
    athlete.avoid = {"energy_bar"};
    CHECK(with_learned(athlete, after(good)).like == std::vector<std::string>{"fig_biscuit", "gel_25"});
}

TEST_CASE("gut: 4 or 5 twice running is a step down, and more than that is capped until it goes well") {
    const auto twice = after(session(60, 1), session(60, 1), session(70, 4), session(70, 5));
    CHECK(twice.bike.next_carb_g_per_h == 65);
    CHECK(twice.bike.at_most_g_per_h == 60); // what has gone well below it
    CHECK(with_learned({}, twice).rehearsed.at_most_g_per_h == 60);
    const auto apart = after(session(60, 1), session(70, 4), session(60, 1), session(70, 4));
    CHECK(apart.bike.next_carb_g_per_h == 70); // a good one lies between them: hold
    CHECK(apart.bike.at_most_g_per_h == 0);
    const auto well = after(session(70, 4), session(70, 5), session(65, 0), session(65, 0));
    CHECK(well.bike.next_carb_g_per_h == 70); // a small step: 75 would be beyond what went badly
    CHECK(after(session(70, 4), session(70, 5), session(70, 1)).bike.at_most_g_per_h == 0);
}

TEST_CASE("gut: worse than 7 goes down by more, and no rate is asked for below 30 g/h") {
    CHECK(after(session(80, 7)).bike.next_carb_g_per_h == 70);
    CHECK(after(session(80, 8)).bike.next_carb_g_per_h == 60);
    const auto little = after(session(30, 8));
    CHECK(little.bike.next_carb_g_per_h == 30);
    CHECK_THAT(little.bike.why, Contains("no more than 30 g/h, in smaller doses"));
}

TEST_CASE("gut: the bike's step waits where the run behind it went badly, and each is told of its own") {
    const auto learned = after(session(60, 0, 4), session(60, 0, 4));
    CHECK(learned.bike.next_carb_g_per_h == 60);
    CHECK_THAT(learned.bike.why, Contains("worst symptom of the run after it was 4 of 10"));
    CHECK_THAT(learned.run.why, Contains("on the run"));
    CHECK(learned.run.carb_g_per_h == 0);
}

TEST_CASE("gut: a race counts as a session at race effort, with its run or without") {
    CHECK(after(race(60), race(60)).bike.next_carb_g_per_h == 70);
    auto ride = race(60);
    ride.run.minutes = 0;
    CHECK(after(ride, ride).bike.carb_g_per_h == 0);
    auto short_ride = race(60);
    short_ride.bike.minutes = 9; // shows no tolerance
    CHECK(after(short_ride).bike.carb_g_per_h == 0);
}

TEST_CASE(
    "gut: the rate of a session is what was asked where its plan came near, and what was planned else") {
    auto near = session(66, 1);
    near.bike.planned_carb_g = 132; // 66 g/h, of 70 asked: the rest is whole units
    near.bike.asked_carb_g_per_h = 70;
    CHECK(after(near).bike.carb_g_per_h == 70);
    near.bike.asked_carb_g_per_h = 90; // 66 is less than 85 % of it
    CHECK(after(near).bike.carb_g_per_h == 66);
    near.bike.carb_g = 115; // 87 % of what was planned
    CHECK(after(near).bike.carb_g_per_h == 0);
    CHECK_THAT(after(near).bike.why, Contains("87 % of what was planned"));
}

TEST_CASE("who only runs learns from the run, what else was rehearsed included") {
    RehearsalRecord run;
    run.run.minutes = 75;
    run.run.carb_g = 50;
    run.run.fluid_ml = 500;
    run.solids_on_run = run.strong_drink = true;
    const auto athlete = with_learned({}, after(run));
    CHECK(athlete.rehearsed.carb_g_per_h == Approx(40));
    CHECK(athlete.rehearsed.fluid_ml_per_h == Approx(400));
    CHECK(athlete.rehearsed.solids_on_run);
    CHECK(athlete.rehearsed.strong_drink);
    RehearsalRecord badly = run;
    badly.run.symptoms["urge"] = 6;
    const auto capped = with_learned({}, after(run, badly)).rehearsed;
    CHECK(capped.at_most_g_per_h == capped.run_at_most_g_per_h);
    CHECK(capped.run_at_most_g_per_h > 0);
}

TEST_CASE("a weighed race is a sweat test where the length of its day is known") {
    auto weighed = race(60);
    weighed.before_kg = 70;
    weighed.after_kg = 68.6;
    weighed.bike.fluid_ml = 700;
    const auto whole = after(weighed);
    CHECK(whole.sweat_factor.tests == 1);
    auto passed = weighed;
    passed.urine_ml = 400; // left the body and was no sweat
    CHECK(after(passed).sweat_factor.median < whole.sweat_factor.median);
    auto unknown = weighed;
    unknown.legs[1].time_s = 0;
    CHECK(after(unknown).sweat_factor.tests == 0);
    auto nothing = weighed;
    nothing.legs.clear();
    CHECK(after(nothing).sweat_factor.tests == 0);
    auto once = weighed;
    once.after_kg.reset();
    CHECK(after(once).sweat_factor.tests == 0);
}

TEST_CASE("after vomiting no rehearsal is proposed, and the doctor is named once") {
    auto vomited = session(60, 2);
    vomited.blood = true;
    const auto learned = after(vomited);
    for (const auto& next : learned.next)
        CHECK_THAT(next.text, !Contains("rehearsal"));
    REQUIRE(learned.warnings.size() == 1);
    CHECK(learned.warnings[0].code == "see_doctor");
}

TEST_CASE("steps of gut training are not ours for those whom a doctor guides") {
    for (auto part : {&Health::glucose_lowering_medicine, &Health::recent_gut_illness,
                      &Health::pregnant_or_breastfeeding}) {
        Athlete athlete;
        athlete.health.*part = true;
        const auto learned = learn({entry(1, session(60, 0)), entry(2, session(60, 0))}, athlete);
        CHECK(learned.bike.next_carb_g_per_h == 0);
        CHECK_THAT(learned.bike.why, Contains("a doctor or dietitian sets the rate"));
    }
}

TEST_CASE("a plan tells which of its numbers are the athlete's own") {
    auto good = session(60, 0);
    good.foods = "gel_25";
    SweatTest test;
    test.before_kg = 70;
    test.after_kg = 69;
    test.minutes = 60;
    test.sodium = SodiumTest{30, ""};
    const auto own = [](const Learned& learned) {
        std::string text;
        for (const auto& line : own_numbers(learned))
            text += line + "\n";
        return text;
    };
    CHECK(own_numbers(after()).empty());
    CHECK_THAT(own(after(test)), Contains("by 1 sweat test.") && Contains("sweat sodium is"));
    CHECK_THAT(own(after(test, test)), Contains("by 2 sweat tests."));
    CHECK_THAT(own(after(good)), Contains("60 g/h and 500 ml/h went well") && Contains("gel_25 went well"));
    auto badly = session(70, 8, 6);
    CHECK_THAT(own(after(badly)), Contains("on the bike and ") && Contains("on the run"));
    CHECK_THAT(own(after(race(60))), Contains("your own race times"));
}
