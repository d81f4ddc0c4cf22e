// Rehearsals: their rates, their days, their calendar. The step rules are common practice, no source.
#include "base/dates.hpp"
#include "io/ical.hpp"
#include "io/marks_file.hpp"
#include "tuck/compose.hpp"
#include "tuck/rehearsal.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <unistd.h>

using namespace tuck;

namespace {

Event long_race() {
    Event race;
    race.name = "Invented Middle";
    race.preset = "middle";
    race.legs = preset_legs("middle");
    race.weather.temperature_c = 22;
    race.date = "2027-09-05";
    race.start_min = 7 * 60;
    race.days = 0;
    return race;
}

Athlete keen() {
    Athlete athlete;
    athlete.mass_kg = 72;
    athlete.level = Level::keen;
    return athlete;
}

Learned shown(double carb_g_per_h, int good, double next_g_per_h) {
    Learned learned;
    learned.bike.carb_g_per_h = carb_g_per_h;
    learned.bike.good_at_this_rate = good;
    learned.bike.next_carb_g_per_h = next_g_per_h;
    learned.bike.why = "as the test says";
    return learned;
}

RehearsalAsk ask_for(double ride_min, double run_min) {
    RehearsalAsk ask;
    ask.ride_min = ride_min;
    ask.run_min = run_min;
    ask.temperature_c = 18;
    return ask;
}

} // namespace

TEST_CASE("no diary: the session takes what a plan of the race would take today, whatever its own length") {
    // 60 g/h is the most before any rehearsal beyond 3 h; the race asks for 90 over 2.5 h (Burke 2011).
    const auto first = plan_rehearsal(keen(), long_race(), {}, ask_for(150, 20));
    CHECK(first.race_carb_g_per_h == Approx(90));
    CHECK(first.session_carb_g_per_h == Approx(60));
    CHECK(!first.as_the_race);
    REQUIRE(first.event.legs.size() == 3);
    CHECK(first.event.legs[0].kind == LegKind::bike);
    CHECK(first.event.legs[0].time_s == 150 * 60);
    CHECK(first.event.legs[1].kind == LegKind::t2);
    CHECK(first.event.legs[2].time_s == 20 * 60);
    CHECK(!first.event.race);
    CHECK(first.event.weather.temperature_c == 18);
    const auto shorter = plan_rehearsal(keen(), long_race(), {}, ask_for(90, 15));
    CHECK(shorter.session_carb_g_per_h == Approx(60));
}

TEST_CASE("the diary's next step is taken, never beyond the race's own rate") {
    CHECK(plan_rehearsal(keen(), long_race(), shown(60, 2, 70), ask_for(150, 20)).session_carb_g_per_h == 70);
    const auto last = plan_rehearsal(keen(), long_race(), shown(90, 2, 100), ask_for(150, 20));
    CHECK(last.session_carb_g_per_h == Approx(90));
    CHECK(last.as_the_race);
}

TEST_CASE("no new step in the last 10 days") {
    auto ask = ask_for(150, 20);
    ask.date = "2027-08-27"; // nine days before
    CHECK(plan_rehearsal(keen(), long_race(), shown(60, 2, 70), ask).session_carb_g_per_h == 60);
    ask.date = "2027-08-26"; // ten
    CHECK(plan_rehearsal(keen(), long_race(), shown(60, 2, 70), ask).session_carb_g_per_h == 70);
}

TEST_CASE("vomiting or blood: no session, a doctor first") {
    auto learned = shown(60, 0, 0);
    learned.bike.stop = true;
    const auto refused = plan_rehearsal(keen(), long_race(), learned, ask_for(150, 20));
    CHECK(refused.refused);
    REQUIRE(!refused.warnings.empty());
    CHECK(refused.warnings[0].severity == Severity::danger);
}

TEST_CASE("late in the day there is no caffeine") {
    auto athlete = keen();
    athlete.caffeine = true;
    auto ask = ask_for(150, 20);
    ask.start_min = 14 * 60 + 59;
    CHECK(plan_rehearsal(athlete, long_race(), {}, ask).athlete.caffeine);
    ask.start_min = 15 * 60;
    CHECK(!plan_rehearsal(athlete, long_race(), {}, ask).athlete.caffeine);
}

TEST_CASE("a short race has no food to rehearse, and it is said") {
    Event sprint = long_race();
    sprint.legs = preset_legs("super-sprint");
    const auto none = plan_rehearsal(keen(), sprint, {}, ask_for(60, 15));
    CHECK(none.session_carb_g_per_h == 0);
    CHECK(!none.event.rehearses_carb_g_per_h);
    REQUIRE(!none.warnings.empty());
    CHECK(none.warnings[0].code == "nothing_to_rehearse");
}

TEST_CASE("a clinician's rate is not rehearsed by us") {
    auto athlete = keen();
    athlete.health.glucose_lowering_medicine = true;
    const auto none = plan_rehearsal(athlete, long_race(), {}, ask_for(150, 20));
    CHECK(none.session_carb_g_per_h == 0);
    CHECK(!none.event.rehearses_carb_g_per_h);
}

TEST_CASE("series: on the race's weekend day, two sessions a step, none in the last ten days, the last one "
          "as the race") {
    const auto first = plan_rehearsal(keen(), long_race(), {}, ask_for(150, 20));
    const auto series = rehearsal_series(first, {}, 6, "2027-09-05"); // a Sunday
    REQUIRE(series.days.size() == 5);
    const double rates[] = {60, 60, 70, 70, 80};
    for (std::size_t i = 0; i < 5; ++i) {
        CHECK(series.days[i].carb_g_per_h == rates[i]);
        CHECK(series.days[i].as_the_race == (i == 4));
        if (i > 0)
            CHECK(days_between(series.days[i - 1].date, series.days[i].date).value() == 7);
    }
    CHECK(series.days.back().date == "2027-08-22");
    CHECK(series.days.front().date == "2027-07-25");
    CHECK(series.reached_g_per_h == 80);
    REQUIRE(series.notes.size() == 2); // 90 is not reached, and it says so
    CHECK(series.notes[1].find("not 90") != std::string::npos);
}

TEST_CASE("series: never above the race, never two sessions on one day, whatever the weeks and days") {
    const auto first = plan_rehearsal(keen(), long_race(), shown(80, 2, 90), ask_for(150, 20));
    for (const Weekdays& days : {Weekdays{}, Weekdays{6, 3}, Weekdays{0}})
        for (int weeks = 3; weeks <= 26; ++weeks) {
            const auto series =
                rehearsal_series(first, shown(80, 2, 90), weeks, "2028-03-04", days); // a Saturday
            REQUIRE(!series.days.empty());
            for (std::size_t i = 0; i < series.days.size(); ++i) {
                CHECK(series.days[i].carb_g_per_h <= 90);
                CHECK(days_between(series.days[i].date, "2028-03-04").value() <= 7 * weeks);
                if (i > 0) {
                    CHECK(series.days[i - 1].carb_g_per_h <= series.days[i].carb_g_per_h);
                    CHECK(series.days[i - 1].date < series.days[i].date);
                }
            }
            CHECK(days_between(series.days.back().date, "2028-03-04").value() > 10);
        }
    CHECK(rehearsal_series(first, {}, 2, "2028-03-02", {4}).days.size() == 1);
}

TEST_CASE("series: a race that leaves no day before its last ten says so and proposes none") {
    Rehearsal first;
    first.session_carb_g_per_h = 60;
    first.race_carb_g_per_h = 90;
    // 15 June 2027 is a Tuesday: no Saturday lies between two weeks and 11 days before it.
    const auto series = rehearsal_series(first, {}, 2, "2027-06-15");
    CHECK(series.days.empty());
    REQUIRE(series.notes.size() == 1);
    CHECK(series.notes[0].find("too near") != std::string::npos);
}

TEST_CASE("a session is as long as its race asks for") {
    // Common practice, no source.
    const auto minutes = [](const char* preset) {
        Event race = long_race();
        race.preset = preset;
        race.legs = preset_legs(preset);
        const auto session = plan_rehearsal(keen(), race, {}, {});
        return std::pair(session.ride_min, session.run_min);
    };
    CHECK(minutes("sprint") == std::pair(45.0, 15.0));
    CHECK(minutes("standard") == std::pair(75.0, 20.0));
    CHECK(minutes("middle") == std::pair(150.0, 20.0));
    CHECK(minutes("long") == std::pair(210.0, 30.0));
    CHECK(minutes("duathlon-standard") == std::pair(75.0, 20.0));
    Event run = long_race();
    run.preset.clear();
    run.legs = {Leg{}};
    run.legs[0].kind = LegKind::run;
    run.legs[0].distance_m = 42195;
    CHECK(plan_rehearsal(keen(), run, {}, {}).ride_min == 0);
}

TEST_CASE("breakfast and clock of race day belong to the last one") {
    auto ask = ask_for(150, 20);
    ask.date = "2027-08-01";
    CHECK(!plan_rehearsal(keen(), long_race(), {}, ask).event.start_min);
    ask.date = "2027-08-22";
    const auto last = plan_rehearsal(keen(), long_race(), {}, ask);
    CHECK(last.as_race_day);
    CHECK(last.event.start_min == 7 * 60);
}

TEST_CASE("days of the calendar") {
    // Gregorian calendar: 2028 is a leap year, 2100 is not.
    CHECK(date_minus("2028-03-01", 1) == "2028-02-29");
    CHECK(date_minus("2100-03-01", 1) == "2100-02-28");
    CHECK(date_minus("2027-01-01", 1) == "2026-12-31");
    CHECK(days_between("2027-01-01", "2028-01-01").value() == 365);
}

TEST_CASE("calendar lines: CRLF, at most 75 octets, no character broken, text escaped") {
    // RFC 5545, sections 3.1 (folding) and 3.3.11 (escapes).
    std::string description = "semi; comma, back\\slash\nnew line ";
    for (int i = 0; i < 40; ++i)
        description += "\u00e9\u4e2d";
    const auto text = io::calendar("x", {{"2027-08-25", 7 * 60 + 5, 170, "Sum, mary", description}});
    CHECK(text.find("SUMMARY:Sum\\, mary\r\n") != std::string::npos);
    CHECK(text.find("DTSTART:20270825T070500\r\n") != std::string::npos);
    CHECK(text.find("DURATION:PT2H50M\r\n") != std::string::npos);
    std::string unfolded;
    std::size_t at = 0;
    while (at < text.size()) {
        const auto end = text.find("\r\n", at);
        REQUIRE(end != std::string::npos);
        const auto line = text.substr(at, end - at);
        CHECK(line.size() <= 75);
        CHECK(line.find('\n') == std::string::npos);
        CHECK((static_cast<unsigned char>(line[line[0] == ' ']) & 0xc0) != 0x80);
        unfolded += line[0] == ' ' ? line.substr(1) : "\n" + line;
        at = end + 2;
    }
    CHECK(unfolded.find("semi\\; comma\\, back\\\\slash\\nnew line \u00e9\u4e2d") != std::string::npos);
}

TEST_CASE("marks: a line that cannot be read is told with its number, and the others count") {
    const std::string session =
                          R"({"schema":"tuck.marks/1","start_unix_s":1,"feeds":[{"leg":"bike","at_s":60},)"
                          R"({"leg":"bike","at_s":120}]})",
                      mark = R"({"schema":"tuck.marks/1","mark":"taken","at_s":60,"feed":0})";
    const auto marks = io::read_existing_marks(
        Document("m.jsonl", session + "\n" + "{rotten\n" + mark + "\n{\"schema\":1}\n"));
    CHECK(marks.marks.size() == 1);
    REQUIRE(marks.bad.size() >= 2);
    CHECK(marks.bad[0].place.rfind("line 2", 0) == 0);
    CHECK(marks.bad.back().place.rfind("line 4", 0) == 0);
    CHECK(io::notes_on(marks, "m.jsonl").back().find("does not count") != std::string::npos);
    CHECK_THROWS_AS(io::read_existing_marks(Document("m.jsonl", "{rotten\n" + mark + "\n")), io::InputError);
}

TEST_CASE("marks: every press is kept, and they sum to the rehearsal's fields") {
    const auto path =
        (std::filesystem::temp_directory_path() / ("tuck_marks_" + std::to_string(::getpid()))).string();
    io::Marks session;
    session.start_unix_s = 1800000000;
    session.bike_min = 150;
    session.run_min = 20;
    session.run_at_s = 9100;
    session.feeds = {{LegKind::bike, 900, "gel", 25, 150},
                     {LegKind::bike, 2700, "gel", 25, 150},
                     {LegKind::bike, 4500, "gel", 25, 150},
                     {LegKind::run, 300, "gel", 25, 100}};
    io::begin_marks(path, session);
    io::add_mark(path, {"taken", 910, 0, {}});
    io::add_mark(path, {"half", 2700, 1, {}});
    io::add_mark(path, {"stomach", 2800, {}, 2});
    io::add_mark(path, {"skipped", 4600, 2, {}});
    std::ofstream(path, std::ios::app) << "{\"schema\":\"tuck.ma"; // a crash
    auto marks = io::read_marks(path);
    CHECK(marks.open_feed() == 3);
    CHECK(marks.due_s(3) == 9400);
    io::add_mark(path, {"run", 9300, {}, {}});
    io::add_mark(path, {"taken", 9610, 3, {}});
    io::add_mark(path, {"stomach", 9700, {}, 5});
    marks = io::read_marks(path);
    CHECK(marks.due_s(3) == 9600);
    CHECK(marks.open_feed() == 4);
    const auto fields = io::rehearsal_fields(marks);
    CHECK(fields.at("bike_carb_g") == 37.5);
    CHECK(fields.at("bike_fluid_ml") == 225);
    CHECK(fields.at("run_carb_g") == 25);
    CHECK(fields.at("feeds_planned") == 4);
    CHECK(fields.at("feeds_taken") == 2.5);
    CHECK(fields.at("bike_symptoms").at("nausea") == 2);
    CHECK(fields.at("run_symptoms").at("nausea") == 5);
    std::filesystem::remove(path);
    for (const auto& beside : std::filesystem::directory_iterator(std::filesystem::temp_directory_path()))
        if (beside.path().string().rfind(path, 0) == 0)
            std::filesystem::remove(beside.path());
}
