// The one door: documents, options and edits in, a plan out. Expectations are the contract of tuck/ask.hpp.
#include "places.hpp"
#include "text/plan_json.hpp"
#include "tuck/ask.hpp"
#include "tuck/compose.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

using namespace tuck;

namespace {

constexpr char sprint[] = R"({"distance":"sprint","weather":{"temperature_c":22},"days":500})";
constexpr char standard[] = R"({"distance":"standard","weather":{"temperature_c":24},"days":500,
    "stations":"typical","athlete":{"mass_kg":68,"level":"steady","sweat":{"sweat_ml_per_h":900}}})";

/// Three tests at race effort, each with about 1.5 L of sweat an hour.
std::string diary() {
    std::string lines;
    for (const char* id : {"1", "2", "3"})
        lines +=
            std::string(R"({"schema":"tuck.diary/1","kind":"sweat_test","id":)") + id +
            R"(,"date":"2027-05-0)" + id +
            R"(","before_kg":68,"after_kg":66.9,"minutes":60,"temperature_c":24,"drank_ml":400,"sport":"bike"})"
            "\n";
    return lines;
}

Ask ask(const char* event, const Typed& options = {}) {
    Ask out;
    out.pantry = places::foods();
    out.event = Document("event", event);
    out.options = options;
    return out;
}

std::vector<Fault> faults_of(const Ask& wrong) {
    try {
        read_ask(wrong);
    } catch (const Error& error) {
        return error.faults;
    }
    return {};
}

} // namespace

TEST_CASE("a document may be a text or a file: the plan is the same") {
    const std::string path = std::string(places::samples()) + "/hot-standard.json";
    std::ifstream file(path);
    Ask by_file = ask(sprint), by_text = by_file;
    by_file.event = Document(path);
    by_text.event = Document(path, {std::istreambuf_iterator<char>(file), {}});
    CHECK(faces::plan_json(answer(read_ask(by_file)).plan) ==
          faces::plan_json(answer(read_ask(by_text)).plan));
}

TEST_CASE("one solve serves plan, twin and LP") {
    const auto asked = read_ask(ask(standard));
    const auto all = answer(asked, {.no_swim = true, .lp = true});
    CHECK(faces::plan_json(all.plan) ==
          faces::plan_json(compose_plan(asked.athlete, asked.event, asked.pantry)));
    REQUIRE(all.no_swim);
    CHECK(all.no_swim->durations.front().kind == LegKind::bike);
    CHECK_THAT(all.lp, Catch::Contains("Subject To") || Catch::Contains("subject to"));
    const auto plain = answer(asked);
    CHECK_FALSE(plain.no_swim);
    CHECK(plain.lp.empty());
}

TEST_CASE("the diary outranks the athlete's file, and what is typed outranks the diary") {
    auto taught = ask(standard);
    taught.diary = Document("diary", diary());
    const auto asked = read_ask(taught);
    CHECK(asked.athlete.learned_sweat);
    CHECK_FALSE(read_ask(ask(standard)).athlete.learned_sweat);
    taught.options["--sweat-rate"] = {"900ml/h"};
    CHECK_FALSE(read_ask(taught).athlete.learned_sweat);
    REQUIRE(read_ask(taught).athlete.sweat);
    CHECK(read_ask(taught).athlete.sweat->sweat_ml_per_h == 900);
}

TEST_CASE("edits make another plan, and those that cannot be are told under their names") {
    auto edited = ask(standard);
    edited.edits.swim = "cancelled";
    edited.edits.delay = "45min";
    edited.edits.without = {"gel_25"};
    edited.edits.bike_rhythm = "20min";
    const auto asked = read_ask(edited);
    CHECK(asked.event.legs.front().kind == LegKind::bike);
    CHECK(asked.event.delay_min == 45);
    CHECK(asked.event.bike_rhythm_s == 1200);
    CHECK(asked.athlete.avoid == std::vector<std::string>{"gel_25"});
    edited.edits.without = {"gel_26"};
    CHECK(faults_of(edited).at(0).file == "--without");
    edited.edits.without.clear();
    edited.edits.swim = "shortened";
    CHECK(faults_of(edited).at(0).file == "--swim");
}

TEST_CASE("faults are data: document, place, what is allowed, the nearest word") {
    const auto range = faults_of(ask(sprint, {{"--mass", {"700kg"}}}));
    REQUIRE(range.size() == 1);
    CHECK(range[0].file == "--mass");
    CHECK(range[0].what == "700 is out of range");
    CHECK(range[0].allowed == "25 to 250 kg");
    const auto key = faults_of(ask(R"({"distanse":"sprint","weather":{"temperature_c":22},
        "athlete":{"mass_kg":70}})"));
    const auto near = std::find_if(key.begin(), key.end(), [](const Fault& f) { return !f.nearest.empty(); });
    REQUIRE(near != key.end());
    CHECK(near->file == "event");
    CHECK(near->place == "/distanse");
    CHECK(near->nearest == "distance");
    CHECK(line_of(*near) == "event: /distanse: is not known; did you mean \"distance\"?");
    const auto option = faults_of(ask(sprint, {{"--mas", {"70kg"}}, {"--mass", {"70kg", "71kg"}}}));
    REQUIRE(option.size() == 2);
    CHECK(option[0].nearest == "--mass");
    CHECK(line_of(option[1]) == "--mass: must be given once");
}

TEST_CASE("a card's limits bind the leg that they are for") {
    auto limited = ask(standard);
    limited.card = {0, 3};
    CHECK(read_ask(limited).event.max_lines_run == 3);
    CHECK_FALSE(read_ask(limited).event.max_lines_bike);
}

TEST_CASE("a rehearsal takes the session's day and weather, the race keeps its own") {
    auto race = ask(standard, {{"--temperature", {"16C"}}, {"--date", {"2027-05-01"}}});
    const auto session = rehearse(race, {"60min", "0min"});
    CHECK(session.race.event.weather.temperature_c == 24);
    CHECK(session.session_answer.rehearsal.event.weather.temperature_c == 16);
    CHECK(session.session.ride_min == 60);
    REQUIRE(session.session_answer.plan);
    CHECK(session.session_answer.plan->durations.size() == 1);
    CHECK_THROWS_AS(rehearse(race, {"0min", "0min"}), Error);
    CHECK_THROWS_WITH(rehearse(ask(standard, {{"--temperature", {"60C"}}}), {}),
                      "--temperature: 60 is out of range; allowed -20 to 50 C");
}

TEST_CASE("a pin is a time of the ride or a kilometre of the run, a delay at most six hours") {
    auto edited = ask(standard);
    edited.edits.pins = {"0:40=gel_25", "6km=gel_25"};
    edited.edits.delay = "6h";
    const auto event = read_ask(edited).event;
    REQUIRE(event.pins.size() == 2);
    CHECK(event.pins[0].leg == LegKind::bike);
    CHECK(event.pins[0].at_s->count() == 2400);
    CHECK(event.pins[1].leg == LegKind::run);
    CHECK(event.pins[1].km == 6);
    CHECK(event.delay_min == 360);
    edited.edits.delay = "361min";
    CHECK(faults_of(edited).at(0).file == "--delay");
}
