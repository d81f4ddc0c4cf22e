// Answers, lengths and edits as they are typed: what is allowed, and what is said of the rest. Expectations
// are the contracts of ask/new_files.hpp, tuck/ask.hpp and ask/course.hpp, and arithmetic.
#include "ask/course.hpp"
#include "ask/new_files.hpp"
#include "io/athlete_file.hpp"
#include "io/event_document.hpp"
#include "io/event_file.hpp"
#include "places.hpp"
#include "tuck/ask.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace tuck;
using Catch::Contains;

namespace {

const ask::Question& question(const std::string& key) {
    for (const auto& one : ask::new_questions())
        if (one.key == key)
            return one;
    throw std::logic_error(key);
}

std::string checked(const char* key, const std::string& answer) {
    return ask::checked_answer(question(key), answer);
}

Athlete athlete_of(const ask::Answers& answers) {
    const auto json = nlohmann::json::parse(ask::new_athlete(answers));
    std::vector<io::Fault> faults;
    io::LegTimes times;
    io::Node node(json, "athlete.json", "", faults);
    auto athlete = io::athlete_from(node, times);
    for (const auto& fault : faults)
        FAIL_CHECK(line_of(fault));
    return athlete;
}

Event event_of(const ask::Answers& answers) {
    io::EventDocument document;
    document.json = nlohmann::json::parse(ask::new_event(answers, ""));
    document.json["athlete"] = {{"mass_kg", 68}};
    return io::read_event(document).event;
}

Ask race(const Typed& options = {}) {
    Ask out;
    out.pantry = places::foods();
    out.options = {{"--distance", {"standard"}}, {"--mass", {"70kg"}}, {"--temperature", {"20C"}}};
    for (const auto& [option, texts] : options)
        out.options[option] = texts;
    return out;
}

using Words = ask::CourseWords;

ask::CoursePassage
passed(const Course& course, const char* sport,
       const std::vector<std::pair<std::optional<std::string> Words::*, std::string>>& said) {
    Words words;
    words.sport = sport;
    for (const auto& [member, text] : said)
        words.*member = text;
    return ask::pass_course(course, words);
}

Course level(double length_m) {
    Course course;
    for (double at_m = 0; at_m < length_m; at_m += 25)
        course.steps.push_back({.length_m = 25});
    course.length_m = length_m;
    return course;
}

} // namespace

TEST_CASE("an answer of tuck new stands as the files write it") {
    CHECK(checked("--distance", "Olympic") == "standard");
    CHECK(checked("--distance", "super sprint") == "super-sprint");
    CHECK(checked("--level", "never") == "beginner");
    CHECK(checked("--level", "Now and then") == "steady");
    CHECK(checked("--level", "keen") == "keen");
    CHECK(checked("--start", "7:30am") == "07:30");
    CHECK(checked("--date", "2028-02-29") == "2028-02-29"); // a leap year
    CHECK(checked("--sun", "Full") == "full");
    CHECK(checked("--temperature", "75F") == "75F");
    CHECK(checked("--recent-run", "10km 52:30") == "10km 52:30");
}

TEST_CASE("Enter and a dash are the usual answer, and for the mass there is none") {
    CHECK(checked("--distance", "") == "sprint");
    CHECK(checked("--distance", "-") == "sprint");
    CHECK(checked("--level", "") == "beginner"); // "first time"
    for (const char* key : {"--date", "--start", "--mass", "--recent-run", "--allergy", "--bottles"})
        CHECK(checked(key, "-").empty());
    CHECK_THROWS_WITH(ask::new_athlete({}), Contains("--mass") && Contains("68kg"));
}

TEST_CASE("an answer that cannot stand is told with what is allowed, or the word that is near") {
    CHECK_THROWS_WITH(checked("--distance", "standart"), Contains("did you mean \"standard\"?"));
    CHECK_THROWS_WITH(checked("--distance", "rowing"), Contains("allowed: ") && Contains("super-sprint"));
    CHECK_THROWS_WITH(checked("--level", "somewhat"), Contains("first time, now and then, often"));
    CHECK_THROWS_WITH(checked("--mass", "20kg"), Contains("allowed 25 to 250"));
    CHECK_THROWS_WITH(checked("--mass", "251kg"), Contains("allowed 25 to 250"));
    CHECK_THROWS_WITH(checked("--temperature", "-21C"), Contains("allowed -20 to 50"));
    CHECK_THROWS_WITH(checked("--temperature", "75C"), Contains("allowed -20 to 50"));
    CHECK_THROWS_WITH(checked("--date", "2027-02-29"), Contains("no such day"));
    for (const char* half : {"10km", "10km=", "10km  "})
        CHECK_THROWS_WITH(checked("--recent-run", half), "give a distance and a time: 10km 52:30");
}

TEST_CASE("an answer that a plan would refuse is refused at once") {
    // The files of tuck new are read by tuck plan: no answer may be found wrong only there.
    CHECK_THROWS_WITH(checked("--allergy", "glutn"), Contains("gluten"));
    CHECK_THROWS_WITH(checked("--allergy", "milk,,eggs"), Contains("empty place"));
    CHECK_THROWS_WITH(checked("--bottles", "50ml"), Contains("100 to 2000 ml"));
    CHECK_THROWS_WITH(checked("--bottles", "7x500ml"), Contains("6"));
    CHECK_THROWS_WITH(checked("--recent-run", "10km 5:30"), Contains("km/h"));
    CHECK_THROWS_WITH(checked("--recent-run", "20m 0:05"), Contains("50"));
}

TEST_CASE("the files of tuck new say to the readers what was answered") {
    const ask::Answers answers{{"--distance", "half"},
                               {"--date", "2027-06-13"},
                               {"--start", "7:30am"},
                               {"--temperature", "75F"},
                               {"--sun", "hazy"},
                               {"--mass", "150lb"},
                               {"--level", "often"},
                               {"--recent-run", "10km 52:30"},
                               {"--allergy", "gluten, soy"},
                               {"--bottles", "2x750ml"}};
    const auto event = event_of(answers);
    CHECK(event.preset == "middle");
    CHECK(event.date == "2027-06-13");
    CHECK(event.start_min == 7 * 60 + 30);
    CHECK(event.weather.temperature_c == Approx(23.9)); // (75 - 32) / 1.8 = 23.89, written in tenths
    CHECK(event.weather.sun_share == 0.25);
    CHECK(event.kit.bike_bottles_ml == std::vector<double>{750, 750});
    const auto athlete = athlete_of(answers);
    CHECK(athlete.mass_kg == Approx(68.0)); // 150 * 0.45359237 = 68.04
    CHECK(athlete.level == Level::keen);
    REQUIRE(athlete.recent.size() == 1);
    CHECK(athlete.recent[0].sport == Sport::run);
    CHECK(athlete.recent[0].distance_m == 10000);
    CHECK(athlete.recent[0].time_s == 52 * 60 + 30);
    CHECK(athlete.allergy == std::vector<std::string>{"gluten", "soybeans"});
}

TEST_CASE("what was not answered is not written: the first race of somebody without a date") {
    CHECK_THAT(ask::new_event({}, "me.json"), Catch::StartsWith("{\n  \"")); // people edit it
    const auto json = nlohmann::json::parse(ask::new_event({}, "me.json"));
    for (const char* key : {"date", "start_local", "kit"})
        CHECK(!json.contains(key));
    CHECK(json["athlete"] == "me.json");
    CHECK_THAT(json["about"].get<std::string>(), Contains("start_local")); // worth adding
    CHECK_THAT(nlohmann::json::parse(ask::new_event({{"--start", "07:30"}}, ""))["about"].get<std::string>(),
               !Contains("start_local"));
    CHECK(event_of({{"--bottles", "none"}}).kit.bike_bottles_ml == std::vector<double>{});
    const auto athlete = athlete_of({{"--mass", "60kg"}});
    CHECK(athlete.level == Level::beginner);
    CHECK(athlete.recent.empty());
    CHECK(athlete.allergy.empty());
}

TEST_CASE("a session's length: none, or 10 to 720 minutes, and not none of both") {
    CHECK_THROWS_WITH(rehearse(race(), {"9min", {}}),
                      "--ride: 9 min is out of range; allowed 0, or 10 to 720 min");
    CHECK_THROWS_WITH(rehearse(race(), {{}, "721min"}), Contains("--run: 721 min is out of range"));
    CHECK_THROWS_WITH(rehearse(race(), {"soon", {}}), Contains("--ride: ") && Contains("is not a time"));
    CHECK_THROWS_WITH(rehearse(race(), {"0min", "0min"}), Contains("give at least one of them"));
    // A ride alone has no run to rehearse: without its ride nothing is left.
    auto ride = race();
    ride.options.erase("--distance");
    ride.event =
        Document("ride", R"({"legs":[{"sport":"bike","distance_m":90000}],"weather":{"temperature_c":20}})");
    CHECK_THROWS_WITH(rehearse(ride, {"0min", {}}), Contains("--ride: is 0, and so is the run"));
}

TEST_CASE("weather of a session beside an event document stays within what a plan allows") {
    auto known = race();
    known.options.erase("--distance");
    known.event = Document("race", R"({"distance":"sprint","weather":{"temperature_c":22}})");
    known.options["--humidity"] = {"101%"};
    CHECK_THROWS_WITH(rehearse(known, {}), "--humidity: 101 is out of range; allowed 0 to 100 %");
    known.options["--humidity"] = {"80%"};
    known.options["--start"] = {"25:00"};
    CHECK_THROWS_WITH(rehearse(known, {}), Contains("--start: ") && Contains("00:00 to 23:59"));
    known.options["--start"] = {"17:00"};
    const auto session = rehearse(known, {});
    CHECK(session.session_answer.rehearsal.event.weather.humidity_pct == 80);
    CHECK(session.session_answer.rehearsal.event.start_min == 17 * 60);
    CHECK_FALSE(session.race.event.start_min);
}

TEST_CASE("a series wants 2 to 26 weeks, days of the week, and a race that is still to come") {
    const auto answer = rehearse(race(), {});
    for (const char* weeks : {"1", "27"})
        CHECK_THROWS_WITH(rehearse_until_the_race(answer, {weeks, "2027-06-13"}),
                          Contains("--weeks: ") && Contains("allowed 2 to 26"));
    CHECK_THROWS_WITH(rehearse_until_the_race(answer, {"six", "2027-06-13"}), Contains("--weeks: "));
    CHECK_THROWS_WITH(rehearse_until_the_race(answer, {"6", {}}), Contains("--race-date: is missing"));
    CHECK_THROWS_WITH(rehearse_until_the_race(answer, {"6", "13.6.2027"}), Contains("--race-date: "));
    auto dated = answer;
    dated.session.date = "2027-06-13"; // the race itself
    CHECK_THROWS_WITH(rehearse_until_the_race(dated, {"6", "2027-06-13"}),
                      Contains("lies not before the race"));
    auto days = answer;
    days.days = "sa";
    CHECK_THROWS_WITH(rehearse_until_the_race(days, {"6", "2027-06-13"}),
                      Contains("--days: \"sa\" is no day"));
    days.days = "Saturday, Wed";
    // 27 June 2027 is a Sunday; three weeks before it to 11 days before it.
    std::vector<std::string> dates;
    for (const auto& day : rehearse_until_the_race(days, {"3", "2027-06-27"}).series.days)
        dates.push_back(day.date);
    CHECK(dates == std::vector<std::string>{"2027-06-09", "2027-06-12", "2027-06-16"});
}

TEST_CASE("a pin says when, what, and only what is eaten") {
    const auto pinned = [](const std::string& pin) {
        auto asked = race();
        asked.edits.pins = {pin};
        return read_ask(asked).event.pins;
    };
    const auto ride = pinned("0:40=gel_25");
    REQUIRE(ride.size() == 1);
    CHECK(ride[0].leg == LegKind::bike);
    CHECK(ride[0].at_s == 40 * 60);
    const auto run = pinned("6km=gel_25");
    CHECK(run[0].leg == LegKind::run);
    CHECK(run[0].km == 6);
    CHECK_THROWS_WITH(pinned("gel_25"), Contains("--pin: ") && Contains("TIME=FOOD"));
    CHECK_THROWS_WITH(pinned("6=gel_25"), Contains("give a unit"));
    CHECK_THROWS_WITH(pinned("0:40=gel_26"), Contains("no food of the pantry") && Contains("gel_25"));
    CHECK_THROWS_WITH(pinned("0:40=qqqqqq"), Contains("see tuck foods list"));
    CHECK_THROWS_WITH(pinned("0:40=water_tap"), Contains("something to eat"));
    auto run_alone = race();
    run_alone.options.erase("--distance");
    run_alone.event =
        Document("run", R"({"legs":[{"sport":"run","distance_m":42195}],"weather":{"temperature_c":15}})");
    run_alone.edits.pins = {"0:40=gel_25"};
    CHECK(read_ask(run_alone).event.pins.at(0).leg == LegKind::run); // no ride, so the clock is the run's
}

TEST_CASE("edits that cannot be are told with what is allowed") {
    const auto edited = [](auto edit) {
        auto asked = race();
        edit(asked.edits);
        return read_ask(asked);
    };
    CHECK_THROWS_WITH(edited([](Edits& e) { e.delay = "6:01:00"; }),
                      Contains("--delay: ") && Contains("up to 6h"));
    CHECK(edited([](Edits& e) { e.delay = "6h"; }).event.delay_min == 360);
    CHECK_THROWS_WITH(edited([](Edits& e) { e.delay = "late"; }), Contains("--delay: "));
    CHECK_THROWS_WITH(edited([](Edits& e) { e.bike_rhythm = "7min"; }), Contains("10min, 15min, 20min"));
    CHECK_THROWS_WITH(edited([](Edits& e) { e.only = {"qqqqqq"}; }),
                      Contains("--only: ") && Contains("tuck foods list"));
    auto dry = race();
    dry.options.erase("--distance");
    dry.event =
        Document("run", R"({"legs":[{"sport":"run","distance_m":10000}],"weather":{"temperature_c":15}})");
    dry.edits.swim = "cancelled";
    CHECK_THROWS_WITH(read_ask(dry), Contains("--swim: this day does not begin with a swim"));
}

TEST_CASE("what is typed outranks the diary for sodium and for what was rehearsed") {
    auto typed = race({{"--sweat-sodium", {"55mmol/L"}},
                       {"--rehearsed-carb", {"75g/h"}},
                       {"--rehearsed-fluid", {"500ml/h"}}});
    typed.diary = Document(
        "diary", R"({"schema":"tuck.diary/1","kind":"sweat_test","id":1,"date":"2027-05-01","before_kg":70,)"
                 R"("after_kg":69,"minutes":60,"temperature_c":20,"drank_ml":300,"sport":"bike",)"
                 R"("sweat_sodium_mmol_per_l":30})"
                 "\n"
                 R"({"schema":"tuck.diary/1","kind":"rehearsal","id":2,"date":"2027-05-08","bike_min":120,)"
                 R"("bike_carb_g":180,"bike_fluid_ml":1400,"temperature_c":20})"
                 "\n");
    const auto athlete = read_ask(typed).athlete;
    CHECK(athlete.sweat_sodium_mmol_per_l == 55);
    CHECK(athlete.rehearsed.carb_g_per_h == 75);
    CHECK(athlete.rehearsed.fluid_ml_per_h == 500);
    typed.options.erase("--sweat-sodium");
    typed.options.erase("--rehearsed-carb");
    typed.options.erase("--rehearsed-fluid");
    const auto taught = read_ask(typed).athlete;
    CHECK(taught.sweat_sodium_mmol_per_l);
    CHECK(*taught.sweat_sodium_mmol_per_l < 50);
    CHECK(taught.rehearsed.carb_g_per_h != 75);
}

TEST_CASE("a course: what belongs to the other sport is refused") {
    const auto course = level(10e3);
    CHECK_THROWS_WITH(passed(course, "bike", {{&Words::pace, "5:00/km"}}), "--pace: belongs to --sport run");
    CHECK_THROWS_WITH(passed(course, "run", {{&Words::power, "200W"}}), "--power: belongs to --sport bike");
    CHECK_THROWS_WITH(passed(course, "run", {{&Words::position, "aero"}}),
                      "--position: belongs to --sport bike");
    CHECK_THROWS_WITH(passed(course, "run", {{&Words::temperature, "20C"}}),
                      "--temperature: belongs to --sport bike");
}

TEST_CASE("a course: ranges, and what was not said is told") {
    const auto course = level(10e3);
    CHECK_THROWS_WITH(passed(course, "bike", {{&Words::power, "29W"}}),
                      "--power: 29 is out of range; allowed 30 to 600 W");
    CHECK_THROWS_WITH(passed(course, "bike", {{&Words::wind, "26m/s"}}), Contains("allowed 0 to 25 m/s"));
    CHECK_THROWS_WITH(passed(course, "bike", {{&Words::power, "strong"}}),
                      Contains("--power: ") && Contains("220W"));
    const auto plain = passed(course, "bike", {});
    CHECK(plain.passage == "At an effort of 150 W, rider of 70 kg, hoods, 20 C, no wind");
    CHECK(plain.assumptions ==
          std::vector<std::string>{"Power not given: 150 W assumed.", "Mass not given: 70 kg assumed."});
    const auto said = passed(course, "bike",
                             {{&Words::power, "220W"},
                              {&Words::mass, "60kg"},
                              {&Words::position, "aero"},
                              {&Words::temperature, "10C"},
                              {&Words::wind, "3m/s"}});
    CHECK(said.assumptions.empty());
    CHECK_THAT(said.passage, Contains("aero") && Contains("half against and half behind"));
    CHECK_THAT(passed(course, "bike", {{&Words::wind, "3m/s"}, {&Words::wind_from, "SW"}}).passage,
               Contains("from 225 degrees"));
}

TEST_CASE("a course: less drag is faster, and a level run takes its pace") {
    const auto course = level(40e3);
    double before_s = 1e9;
    for (const char* position : {"upright", "hoods", "drops", "aero"}) { // the order of their drag
        const auto ride =
            passed(course, "bike", {{&Words::power, "200W"}, {&Words::position, position}}).ride;
        CHECK(ride.time_s < before_s);
        before_s = ride.time_s;
    }
    const auto run = passed(level(10e3), "run", {});
    CHECK(run.ride.time_s == Approx(3600).epsilon(0.01)); // ten kilometres at 6:00
    CHECK(run.assumptions == std::vector<std::string>{"Pace not given: 6:00 per km assumed."});
    CHECK(passed(level(10e3), "run", {{&Words::pace, "5:00/km"}}).assumptions.empty());
}
