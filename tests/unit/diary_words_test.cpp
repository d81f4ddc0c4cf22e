// What a finished race is told to have been, and to change: the contract of `tuck diary race`, at its
// borders. The limits are our choice, no source: they stand in src/diary/words.cpp.
#include "tuck/diary.hpp"

#include <catch2/catch.hpp>

using namespace tuck;

namespace {

RaceRecord as_planned() {
    RaceRecord race;
    race.legs = {{Sport::bike, 40e3, 4200, 4200}, {Sport::run, 10e3, 3000, 3000}};
    race.bike.minutes = 70;
    race.run.minutes = 50;
    race.bike.carb_g = 60;
    race.run.carb_g = 40;
    race.planned_carb_g = 100;
    race.bike.planned_carb_g = 60;
    race.run.planned_carb_g = 40;
    race.bike.fluid_ml = race.bike.planned_fluid_ml = 600;
    race.run.fluid_ml = race.run.planned_fluid_ml = 400;
    race.temperature_c = 22;
    return race;
}

std::string told(const RaceRecord& race) {
    std::string out;
    for (const auto& sentence : changes_after(race, {}, {}))
        out += sentence + "\n";
    return out;
}

std::string in_short(const RaceRecord& race) {
    std::string out;
    for (const auto& sentence : race_in_short(race))
        out += sentence + "\n";
    return out;
}

bool says(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("a race that went as planned changes nothing") {
    CHECK(told(as_planned()) == "Nothing: the day went as planned, and the next plan is a little surer.\n");
    const auto text = in_short(as_planned());
    CHECK(says(text, "Planned: 100 g of carbohydrate and up to 1000 ml on bike and run"));
    CHECK(says(text, "it took 2:00"));
    CHECK(says(text, "Taken: 100 g (100 %) and 1000 ml."));
}

TEST_CASE("an unknown leg tells no time of the whole, and no plan tells no percentage") {
    auto race = as_planned();
    race.legs[1].time_s = 0;
    CHECK_FALSE(says(in_short(race), "it took"));
    race = as_planned();
    race.bike.planned_carb_g = race.run.planned_carb_g = 0;
    CHECK(says(in_short(race), "Taken: 100 g and 1000 ml."));
    CHECK_FALSE(says(told(race), "of the planned food"));
}

TEST_CASE("food left over is told from a tenth on") {
    auto race = as_planned();
    race.bike.carb_g = 50; // 90 % in all
    CHECK_FALSE(says(told(race), "of the planned food"));
    race.bike.carb_g = 49;
    CHECK(says(told(race), "89 % of the planned food was taken."));
}

TEST_CASE("more drunk is told from a twentieth on, less from a fifth; with thirst where to look") {
    auto race = as_planned();
    race.bike.fluid_ml = 650;
    CHECK_FALSE(says(told(race), "was drunk than planned"));
    race.bike.fluid_ml = 651;
    CHECK(says(told(race), "51 ml more was drunk than planned."));
    race.bike.fluid_ml = 400;
    CHECK_FALSE(says(told(race), "was drunk than planned"));
    race.bike.fluid_ml = 399;
    CHECK(says(told(race), "201 ml less was drunk than planned: less is fine."));
    race.thirst = 5;
    CHECK(says(told(race), "with a thirst of 5 of 10: less is fine."));
    race.thirst = 6;
    CHECK(says(told(race), "with a thirst of 6 of 10: look at where the bottle was out of reach."));
    race.bike.planned_fluid_ml = race.run.planned_fluid_ml = 0;
    CHECK_FALSE(says(told(race), "was drunk than planned"));
}

TEST_CASE("another weather than planned is told from 4 C on, warmer or colder") {
    auto race = as_planned();
    race.planned_temperature_c = 18.1;
    CHECK_FALSE(says(told(race), "The air was"));
    race.planned_temperature_c = 18;
    CHECK(says(told(race), "The air was 22 C, not 18 C"));
    race.planned_temperature_c = 26;
    CHECK(says(told(race), "The air was 22 C, not 26 C"));
}

TEST_CASE("a leg is late or early by its own name; hills do not become a pace") {
    auto race = as_planned();
    race.legs[0].time_s = 4200 * 1.2;
    CHECK(says(told(race), "The bike took 20 % longer than planned. Hills or heat were part of it"));
    race.legs[0].time_s = 4200 * 0.8;
    CHECK(says(told(race), "The bike took 20 % less than planned."));
    race.legs[0].time_s = 4200 * 1.031; // from 3 % on
    CHECK(says(told(race), "The bike took 3 % longer than planned."));
    race.legs[0].time_s = 4200 * 1.029;
    CHECK_FALSE(says(told(race), "The bike took"));
    race.legs[0].planned_s = 0;
    CHECK_FALSE(says(told(race), "The bike took"));
}

TEST_CASE("what went well is told once it rises, falls or comes for the first time") {
    Learned before, after;
    const auto changes = [&] {
        std::string out;
        for (const auto& sentence : changes_after(as_planned(), before, after))
            out += sentence + "\n";
        return out;
    };
    after.bike.carb_g_per_h = 50;
    CHECK(says(changes(), "50 g/h has gone well on the bike for the first time."));
    before.bike.carb_g_per_h = 45;
    CHECK(says(changes(), "What has gone well on the bike: 50 g/h, before 45."));
    before.bike.carb_g_per_h = 49.6;
    CHECK_FALSE(says(changes(), "gone well"));
    after.run.next_carb_g_per_h = 40;
    after.run.why = "Two good sessions in a row.";
    CHECK(says(changes(), "Next rehearsal, run: 40 g/h. Two good sessions in a row."));
    before.run.why = after.run.why; // said the last time
    CHECK_FALSE(says(changes(), "Two good sessions"));
    before.run.why.clear();
    after.run.next_carb_g_per_h = 0;
    CHECK_FALSE(says(changes(), "Two good sessions"));
    after.run.stop = true;
    CHECK(says(changes(), "Two good sessions in a row."));
}

TEST_CASE("how a race felt is told with all that was marked") {
    auto race = as_planned();
    race.bike.symptoms["nausea"] = 2;
    race.run.symptoms["cramps"] = 7;
    CHECK(says(in_short(race), "Felt: worst symptom 2 of 10 on the bike, 7 on the run.\n"));
    race.thirst = 4;
    race.slump = race.vomited = race.blood = true;
    CHECK(says(in_short(race), "7 on the run, thirst 4, a slump, vomiting, blood.\n"));
    CHECK(says(told(race), "A slump: eat from the first quarter of an hour on"));
}

TEST_CASE("a pace that the diary took is told, and only for its own sport") {
    auto race = as_planned();
    race.legs[0].time_s = 4600; // 10 % longer
    race.legs[1].time_s = 3300;
    Learned before, after;
    after.paces = {{Sport::bike, 40e3, 4600}};
    std::string text;
    for (const auto& sentence : changes_after(race, before, after))
        text += sentence + "\n";
    CHECK(says(text,
               "The bike took 10 % longer than planned. Plans with this diary take its pace from now on."));
    CHECK(says(text, "The run took 10 % longer than planned. Hills or heat were part of it"));
}

TEST_CASE("what a weighing taught is told in percent of the model's mean") {
    Learned before, after;
    before.sweat_factor = {1.0, 0.6, 1.6, 0, 0}; // median, low, high, spread, tests
    after.sweat_factor = {1.2, 0.9, 1.5, 0, 1};
    std::string all;
    for (const auto& sentence : changes_after(as_planned(), before, after))
        all += sentence;
    CHECK(says(all, "120 % of the model's mean (90 % sure: 90 to 150), before 100 % (60 to 160)"));
    CHECK(says(own_numbers(after).at(0),
               "120 % of the model's mean (90 % sure: 90 to 150 %), by 1 sweat test."));
    after.sweat_factor.tests = 2;
    CHECK(says(own_numbers(after).at(0), "by 2 sweat tests."));
}
