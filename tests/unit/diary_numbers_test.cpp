// What single entries of a diary teach, number by number. Entries are invented; rules are those of
// `tuck model figures` or stand beside the check.
#include "diary/learning.hpp"
#include "diary/weighing.hpp"
#include "diary_entries.hpp"
#include "effort/levels.hpp"
#include "tuck/rehearsal.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tuck;
using example::entry;
using namespace tuck::diary;
using Catch::Contains;

namespace {

RaceRecord raced(const std::vector<RacedLeg>& legs) {
    RaceRecord race;
    race.temperature_c = 18;
    race.legs = legs;
    return race;
}

RehearsalRecord ridden(double carb_g_per_h) {
    RehearsalRecord r;
    r.bike.minutes = 120;
    r.bike.carb_g = 2 * carb_g_per_h;
    r.run.minutes = 20;
    return r;
}

SweatTest salty(double mmol_per_l) {
    SweatTest test;
    test.before_kg = 70;
    test.after_kg = 69;
    test.minutes = 60;
    test.sodium = SodiumTest{mmol_per_l, ""};
    return test;
}

} // namespace

TEST_CASE("paces of a race: open water is 5 % slower, and a run pays for the ride before it", "[paces]") {
    const Athlete athlete;
    const auto learned = learn({entry(1, raced({{Sport::swim, 1500, 1890, 0, 0},
                                                {Sport::bike, 40000, 4500, 0, 0},
                                                {Sport::run, 10000, 3000, 0, 0}}))},
                               athlete);
    REQUIRE(learned.paces.size() == 3);
    CHECK(learned.paces[0].time_s == Approx(1890 / 1.05)); // textbook: 3 to 10 %, figure pace.open_water
    CHECK(learned.paces[1].time_s == Approx(4500));
    CHECK(learned.paces[2].time_s == Approx(3000 / effort::run_off_bike_factor(athlete.level, 40000)));
    const auto alone =
        learn({entry(1, raced({{Sport::swim, 1500, 1890, 0, 0}, {Sport::run, 10000, 3000, 0, 0}}))}, athlete);
    REQUIRE(alone.paces.size() == 2);
    CHECK(alone.paces[1].time_s == Approx(3000)); // nobody rode before it
}

TEST_CASE("a weighed race counts for the sport that filled more than half of it", "[sweat]") {
    auto race = raced({{Sport::bike, 40000, 4500, 4500, 0}, {Sport::run, 10000, 3000, 3000, 0}});
    race.before_kg = 70;
    race.after_kg = 69;
    const Athlete athlete;
    CHECK(reading_of(athlete, race)->sport == Sport::bike);
    race.legs[0].time_s = 1500;
    CHECK(reading_of(athlete, race)->sport == Sport::run);
    race.legs[0].time_s = 0; // planned, and never told
    CHECK_FALSE(reading_of(athlete, race));
}

TEST_CASE("each sodium test adds its own precision: one over its relative variance", "[sodium]") {
    const auto reading = read_sodium(*salty(50).sodium);
    const double precision = std::pow(reading.mmol_per_l / reading.sd_mmol_per_l, 2);
    const auto one = learn({entry(1, salty(50))}, {}).sodium_mmol_per_l,
               two = learn({entry(1, salty(50)), entry(2, salty(50))}, {}).sodium_mmol_per_l;
    CHECK(1 / (two.log_sd * two.log_sd) - 1 / (one.log_sd * one.log_sd) == Approx(precision));
    // A 90 % interval of a normal logarithm: 1.645 SD each way (tables of the standard normal).
    CHECK(std::log(one.high / one.median) == Approx(1.645 * one.log_sd).epsilon(0.0005));
    CHECK(std::log(one.median / one.low) == Approx(1.645 * one.log_sd).epsilon(0.0005));
}

TEST_CASE("a plan that came within 85 % of what was asked has rehearsed what was asked", "[ladder]") {
    auto session = ridden(0);
    session.bike.asked_carb_g_per_h = 60;
    session.bike.carb_g = session.bike.planned_carb_g = 102; // 51 g/h: 85 %
    CHECK(learn({entry(1, session)}, {}).bike.carb_g_per_h == Approx(60));
    session.bike.carb_g = session.bike.planned_carb_g = 101;
    CHECK(learn({entry(1, session)}, {}).bike.carb_g_per_h == Approx(50.5));
}

TEST_CASE("after vomiting no rate below nothing is left", "[ladder]") {
    auto bad = ridden(10);
    bad.vomited = true;
    const auto learned = learn({entry(1, ridden(10)), entry(2, bad)}, {});
    CHECK(learned.bike.stop);
    CHECK(learned.bike.carb_g_per_h == 0);
    CHECK_FALSE(std::signbit(learned.bike.carb_g_per_h));
}

TEST_CASE("a sweat test of an hour or more is not asked to be longer", "[sweat]") {
    const auto asks_for_longer = [](double minutes) {
        auto test = salty(50);
        test.minutes = minutes;
        for (const auto& advice : judge_sweat_test({}, test, {}).advice)
            if (advice.find("60 minutes or more") != std::string::npos)
                return true;
        return false;
    };
    CHECK(asks_for_longer(59));
    CHECK_FALSE(asks_for_longer(60));
    CHECK_FALSE(asks_for_longer(90));
}

TEST_CASE("a sweat rate above 5 L/h is refused in litres an hour (our choice)", "[sweat]") {
    SweatTest test; // some 6 L in an hour; the highest on record is 5.73 L/h (Baker 2016)
    test.before_kg = 100;
    test.after_kg = 99;
    test.drank_ml = 5200;
    test.minutes = 60;
    const auto result = judge_sweat_test({}, test, {});
    REQUIRE_FALSE(result.implausible.empty());
    CHECK_THAT(result.implausible, Contains("L/h of sweat; allowed up to 5 L/h: check weights and minutes"));
}

TEST_CASE("the usual session of a race by its name, or by its likely length", "[rehearsal]") {
    // Common practice, no source: tuck/rehearsal.hpp.
    Event race;
    race.legs.resize(3);
    race.legs[0].kind = LegKind::swim;
    race.legs[1].kind = LegKind::bike;
    race.legs[2].kind = LegKind::run;
    struct Usual {
        const char* preset;
        double likely_min, ride_min, run_min;
    };
    for (const Usual& usual : {Usual{"super-sprint", 999, 30, 10},
                               {"sprint", 999, 45, 15},
                               {"duathlon-sprint", 999, 45, 15},
                               {"standard", 999, 75, 20},
                               {"duathlon-standard", 999, 75, 20},
                               {"middle", 999, 150, 20},
                               {"long", 999, 210, 30},
                               {"", 69.9, 30, 10},
                               {"", 70, 45, 15},
                               {"", 114.9, 45, 15},
                               {"", 115, 75, 20},
                               {"", 209.9, 75, 20},
                               {"", 210, 150, 20},
                               {"", 479.9, 150, 20},
                               {"", 480, 210, 30}}) {
        INFO(usual.preset << " " << usual.likely_min);
        race.preset = usual.preset;
        const auto session = usual_session(race, usual.likely_min * 60);
        CHECK(session.ride_min == usual.ride_min);
        CHECK(session.run_min == usual.run_min);
    }
}

TEST_CASE("a day of the series names only what takes place on it", "[rehearsal]") {
    Rehearsal first;
    first.ride_min = 75;
    first.session_carb_g_per_h = first.race_carb_g_per_h = 60;
    const auto ride = rehearsal_series(first, {}, 3, "2027-06-13");
    REQUIRE_FALSE(ride.days.empty());
    CHECK_THAT(ride.days[0].text, Contains("75 min ride, race food at 60 g/h") && !Contains("run"));
    first.run_min = 20;
    CHECK_THAT(rehearsal_series(first, {}, 3, "2027-06-13").days[0].text,
               Contains("75 min ride, then 20 min run"));
    first.ride_min = 0;
    CHECK_THAT(rehearsal_series(first, {}, 3, "2027-06-13").days[0].text,
               Contains("20 min run") && !Contains("then"));
}
