// What an entry of the diary takes from a plan, a session and a pace. Expectations are the contracts of
// ask/entry.hpp, and arithmetic.
#include "ask/entry.hpp"
#include "places.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <sstream>

using namespace tuck;
using Catch::Contains;
using io::Json;

namespace {

struct Race {
    Asked asked;
    Plan plan;
};

Race standard_race() {
    Ask ask;
    ask.pantry = places::foods();
    ask.event = Document(
        "race", R"({"distance":"standard","weather":{"temperature_c":22},"stations":"typical","days":0,
        "course":{"bike":{"ascent_m":300}},"athlete":{"mass_kg":70}})");
    auto asked = read_ask(ask);
    auto plan = answer(asked).plan;
    return {std::move(asked), std::move(plan)};
}

constexpr char session[] =
    R"({"schema":"tuck.rehearsal/1","date":"2027-05-30","temperature_c":18,"humidity_pct":60,
    "ride_min":150,"run_min":20,"feeds_planned":10,"foods":["gel_25","energy_bar"],
    "parts":[{"leg":"bike","minutes":150,"asked_carb_g_per_h":70,"planned_carb_g":165,"planned_fluid_ml":1200}]})";

Json of(const std::string& text) {
    return ask::session_as_asked({"s.json", text});
}

std::vector<Fault> pace_faults(const std::string& pace, Json test) {
    std::vector<io::Fault> faults;
    ask::pace_as_distance(pace, test, faults);
    return faults;
}

double metres(const std::string& pace, const char* sport, double minutes) {
    Json test{{"sport", sport}, {"minutes", minutes}};
    std::vector<io::Fault> faults;
    ask::pace_as_distance(pace, test, faults);
    REQUIRE(faults.empty());
    return test["distance_m"];
}

} // namespace

TEST_CASE("an hour at 5:10 a kilometre is 11.613 km, and at 1:50 a hundred metres 3.273 km") {
    CHECK(metres("5:10/km", "run", 60) == 11613);   // 3600 / 310 km
    CHECK(metres("8:20/mi", "run", 60) == 11587);   // 3600 / 500 mi of 1609.344 m
    CHECK(metres("1:50/100m", "swim", 60) == 3273); // 3600 / 110 * 100 m
}

TEST_CASE("a pace is of a run or a swim, and says no distance twice") {
    const auto only = [](const std::vector<Fault>& faults) {
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].file == "--pace");
        return faults[0].what;
    };
    CHECK_THAT(only(pace_faults("5:10/km", {{"sport", "bike"}, {"minutes", 60}})),
               Contains("--power or --distance"));
    CHECK_THAT(only(pace_faults("5:10/km", {{"minutes", 60}})),
               Contains("--power or --distance")); // a ride if not said
    CHECK_THAT(only(pace_faults("5:10/km", {{"sport", "run"}, {"minutes", 60}, {"distance_m", 10000}})),
               Contains("give one"));
    CHECK_THAT(only(pace_faults("5:10/km", {{"sport", "swim"}, {"minutes", 60}})),
               Contains("per 100m or 100yd"));
    CHECK_THAT(only(pace_faults("quick", {{"sport", "run"}, {"minutes", 60}})), Contains("is not a pace"));
    CHECK(pace_faults("5:10/km", {{"sport", "run"}}).empty()); // the missing length is told where it is read
}

TEST_CASE("a race goes into the diary with its plan and the times that were taken") {
    const auto [asked, plan] = standard_race();
    const auto fields = ask::race_as_planned(asked, plan, {{"bike", 4500}});
    const auto& legs = fields["legs"];
    REQUIRE(legs.size() == 3); // transitions are not raced
    CHECK(legs[0]["sport"] == "swim");
    CHECK(legs[0]["time_s"] == 0); // not known
    CHECK(legs[1]["sport"] == "bike");
    CHECK(legs[1]["distance_m"] == 40000);
    CHECK(legs[1]["time_s"] == 4500);
    CHECK(legs[1]["ascent_m"] == 300);
    CHECK(legs[2]["ascent_m"] == 0);
    CHECK(fields["bike_min"] == 75);
    CHECK(fields["run_min"].get<double>() == Approx(plan.durations.back().time.p50_s / 60)); // as planned
    double bike_g = 0;
    for (const auto& feed : plan.feeds)
        bike_g += feed.leg == LegKind::bike ? feed.carb_g.count() : 0;
    REQUIRE(bike_g > 0);
    CHECK(std::abs(fields["bike_planned_carb_g"].get<double>() - bike_g) <= 0.5);
    CHECK(fields["temperature_c"] == 22);
    std::set<std::string> foods; // each once
    std::istringstream listed(fields["foods"].get<std::string>());
    for (std::string food; std::getline(listed, food, ',');)
        CHECK(foods.insert(food).second);
    CHECK(foods.size() > 1);
    CHECK_THAT(fields["foods"].get<std::string>(), !Contains("water_tap") && !Contains(",,"));
    // It is an entry of the diary as it stands.
    auto entry = fields;
    entry.update({{"schema", io::diary_schema}, {"kind", "race"}, {"date", "2027-06-13"}});
    CHECK(std::get<RaceRecord>(io::entry_from(entry, "").what).legs.size() == 3);
}

TEST_CASE("a time that nobody rides is refused under its option") {
    const auto [asked, plan] = standard_race();
    // 40 km in 1:15 (min:s) where an hour and a quarter was meant.
    CHECK_THROWS_WITH(ask::race_as_planned(asked, plan, {{"bike", 75}}),
                      Contains("--bike-took: ") && Contains("km/h"));
    CHECK_THROWS_WITH(ask::race_as_planned(asked, plan, {{"swim", 60}}), Contains("--swim-took: "));
}

TEST_CASE("a session that was asked for fills an entry of the diary") {
    const auto fields = of(session);
    CHECK(fields["bike_min"] == 150);
    CHECK(fields["bike_asked_carb_g_per_h"] == 70);
    CHECK(fields["bike_planned_carb_g"] == 165);
    CHECK(fields["bike_planned_fluid_ml"] == 1200);
    CHECK(fields["run_min"] == 20); // no part: nothing is fed on it
    CHECK(fields["feeds_planned"] == 10);
    CHECK(fields["date"] == "2027-05-30");
    CHECK(fields["foods"] == "gel_25,energy_bar");
    CHECK(fields["humidity_pct"] == 60);
    const auto bare = of(R"({"schema":"tuck.rehearsal/1","date":"","temperature_c":18})");
    CHECK_FALSE(bare.contains("date"));
    CHECK_FALSE(bare.contains("foods"));
    CHECK(bare["bike_min"] == 0);
}

TEST_CASE("a document that is no session is told so, whatever it holds") {
    for (const char* other : {"[]", "{}", R"({"schema":"tuck.plan/1"})", R"({"schema":5})", "7"})
        CHECK_THROWS_WITH(of(other), Contains("s.json: is no rehearsal; it is made by: tuck rehearse"));
    const auto wrong = [](const std::string& fields) {
        return of(R"({"schema":"tuck.rehearsal/1",)" + fields + "}");
    };
    CHECK_THROWS_WITH(wrong(R"("parts":[7])"), Contains("s.json: /parts/0"));
    CHECK_THROWS_WITH(wrong(R"("parts":{"leg":"bike"})"), Contains("s.json: /parts: must be a list"));
    CHECK_THROWS_WITH(wrong(R"("parts":[{"leg":"swim"}])"),
                      Contains("s.json: /parts/0/leg") && Contains("swim"));
    CHECK_THROWS_WITH(wrong(R"("parts":[{"minutes":20}])"), Contains("s.json: /parts/0/leg: is missing"));
    CHECK_THROWS_WITH(wrong(R"("parts":[{"leg":"bike","minutes":"long"}])"),
                      Contains("s.json: /parts/0/minutes: must be a number"));
    CHECK_THROWS_WITH(wrong(R"("ride_min":"150")"), Contains("s.json: /ride_min: must be a number"));
    CHECK_THROWS_WITH(wrong(R"("date":20270530)"), Contains("s.json: /date: must be text"));
    CHECK_THROWS_WITH(wrong(R"("foods":[1])"), Contains("s.json: /foods/0"));
    CHECK_THROWS_WITH(wrong(R"("temperature_c":null)"), Contains("s.json: /temperature_c"));
}

TEST_CASE("what is left out of an entry is the share of the feeds that was taken") {
    io::OptionTexts texts{{"--taken", "9"}};
    const auto most = ask::completed(EntryKind::rehearsal, texts, of(session));
    CHECK(most.fields["bike_carb_g"] == Approx(0.9 * 165));
    CHECK(most.fields["bike_fluid_ml"] == Approx(0.9 * 1200));
    CHECK_FALSE(most.fields.contains("run_carb_g")); // nothing was planned there
    io::OptionTexts said{{"--taken", "9"}, {"--bike-carb", "150g"}};
    const auto own = ask::completed(EntryKind::rehearsal, said, of(session));
    CHECK_FALSE(own.fields.contains("bike_carb_g")); // what was typed stands
    CHECK(own.fields["bike_fluid_ml"] == Approx(1080));
}

TEST_CASE("taken, all: that is every feed, and what was taken for granted is told") {
    io::OptionTexts all{{"--taken", "all"}};
    const auto every = ask::completed(EntryKind::rehearsal, all, of(session));
    CHECK(every.fields["feeds_taken"] == 10);
    CHECK(every.fields["bike_carb_g"] == 165);
    CHECK(all.empty());
    io::OptionTexts counted{{"--taken", "all"}, {"--feeds", "8"}};
    CHECK(ask::completed(EntryKind::rehearsal, counted, of(session)).fields["feeds_taken"] == 8);
    io::OptionTexts nothing;
    const auto granted = ask::completed(EntryKind::rehearsal, nothing, of(session));
    REQUIRE(granted.notes.size() == 3);
    CHECK_THAT(granted.notes[0], Contains("taken as planned") && Contains("--taken"));
    CHECK_THAT(granted.notes[1], Contains("--bike-gut"));
    CHECK_THAT(granted.notes[2], Contains("--run-gut"));
    io::OptionTexts marked{{"--taken", "10"}, {"--bike-gut", "nausea=1"}, {"--run-gut", "nausea=0"}};
    CHECK(ask::completed(EntryKind::rehearsal, marked, of(session)).notes.empty());
}

TEST_CASE("no air is wetter than wet: a session's humidity is 0 to 100 %") {
    const auto with = [](const char* humidity) {
        return std::string(R"({"schema":"tuck.rehearsal/1","date":"","temperature_c":18,"humidity_pct":)") +
               humidity + "}";
    };
    CHECK(of(with("100").c_str())["humidity_pct"] == 100);
    CHECK_THROWS_AS(of(with("101").c_str()), Error);
}
