// What the one door says beside a plan: likely slips, and a course as it is ridden.
#include "ask/course.hpp"
#include "ask/odd.hpp"
#include "stage_examples.hpp"
#include "tuck/error.hpp"

#include <catch2/catch.hpp>

using namespace tuck;

TEST_CASE("a mass in pounds without its unit and a time that nobody needs are told") {
    const auto mass_notes = [](double mass_kg) {
        return ask::odd_notes(example::athlete(mass_kg), example::race("sprint"));
    };
    REQUIRE(mass_notes(130).size() == 1);
    CHECK_THAT(mass_notes(130)[0], Catch::Contains("odd_mass: a body of 130 kg") && Catch::Contains("59 kg"));
    CHECK(mass_notes(125).size() == 1); // from 125 kg on, our choice
    CHECK(mass_notes(124.9).empty());
    CHECK(mass_notes(330 * 0.45359237).empty()); // 330 lb, as they were typed: no slip
    const auto ride_notes = [](double km, double hours) {
        Event ride = example::session(LegKind::bike, 60 * hours, 1000 * km);
        return ask::odd_notes(example::athlete(), ride);
    };
    REQUIRE(ride_notes(40, 6).size() == 1);
    CHECK_THAT(ride_notes(40, 6)[0], Catch::Contains("360 min for 40 km is 6.7 km/h on the bike"));
    CHECK(ride_notes(40, 4.9).empty()); // 8 km/h and more is ridden
}

TEST_CASE("a day that is past is told, today and tomorrow are not") {
    Event event = example::race("sprint");
    CHECK(ask::past_note(event, "2027-05-02").empty());
    event.date = "2027-05-02";
    CHECK_THAT(ask::past_note(event, "2027-05-03"), Catch::Contains("2027-05-02 is past"));
    CHECK(ask::past_note(event, "2027-05-02").empty());
    CHECK(ask::past_note(event, "2027-05-01").empty());
}

TEST_CASE("a course is told in about a dozen rows, whatever its length") {
    for (const double km : {2.0, 7.5, 15.0, 40.0, 90.0, 150.0, 281.0, 600.0, 800.0, 1200.0}) {
        Course course;
        course.length_m = 1000 * km;
        for (int i = 0; i < 40 * km; ++i)
            course.steps.push_back({25, 0, 0, 0, 0});
        INFO(km << " km");
        const auto rows = ask::pass_course(course, {}).ride.sections.size();
        CHECK(rows >= 5);
        CHECK(rows <= 15);
    }
}

TEST_CASE("a ride over a course is told for 30 to 600 W") {
    Course course;
    course.length_m = 2000;
    course.steps.assign(80, {25, 0, 0, 0, 0});
    ask::CourseWords words;
    for (const char* inside : {"30W", "600W"}) {
        words.power = inside;
        CHECK_NOTHROW(ask::pass_course(course, words));
    }
    for (const char* outside : {"29W", "601W"}) {
        words.power = outside;
        CHECK_THROWS_AS(ask::pass_course(course, words), Error);
    }
}
