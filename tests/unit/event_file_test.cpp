// Event and athlete files and one-line plans into the structs. Expectations are the contract of the formats.
#include "folder.hpp"
#include "io/athlete_file.hpp"
#include "io/event_document.hpp"
#include "io/event_file.hpp"
#include "io/options.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using namespace tuck;
using namespace tuck::io;
using tuck::example::Folder;

namespace {

EventInput read(const std::string& text) {
    EventDocument document;
    document.file = "e.json";
    document.json = parse_json(text, "e.json");
    return read_event(document);
}

/// The faults of a text, one line each.
std::string faults_of(const std::string& text) {
    try {
        read(text);
    } catch (const InputError& error) {
        return error.what();
    }
    return "";
}

std::string faults_of(const std::optional<Document>& file, const Typed& options) {
    try {
        plan_input(file, options);
    } catch (const InputError& error) {
        return error.what();
    }
    return "";
}

std::vector<std::string> kinds(const std::vector<Leg>& legs) {
    std::vector<std::string> out;
    for (const auto& leg : legs)
        out.emplace_back(to_string(leg.kind));
    return out;
}

using Words = std::vector<std::string>;

Typed one_line() {
    Typed options;
    options["--distance"] = {"sprint"};
    options["--mass"] = {"68kg"};
    options["--temperature"] = {"22C"};
    return options;
}

} // namespace

// Distances of the international federation as a national federation lists them
// (triathlonindia.com/conduct-event, read): sprint and standard triathlon, duathlon and aquathlon.
TEST_CASE("presets have the federation's distances") {
    const auto distances = [](const char* name) {
        std::vector<double> out;
        for (const auto& leg : preset_legs(name))
            if (!is_transition(leg.kind))
                out.push_back(leg.distance_m);
        return out;
    };
    CHECK(distances("sprint") == std::vector<double>{750, 20000, 5000});
    CHECK(distances("standard") == std::vector<double>{1500, 40000, 10000});
    CHECK(distances("duathlon-sprint") == std::vector<double>{5000, 20000, 2500});
    CHECK(distances("aquathlon-sprint") == std::vector<double>{2500, 750, 1500});
    CHECK(distances("aquathlon-standard") == std::vector<double>{2500, 1000, 2500});
    const auto super = distances("super-sprint");
    CHECK((super[0] >= 250 && super[0] <= 500));
    CHECK((super[1] >= 6500 && super[1] <= 13000));
    CHECK((super[2] >= 1700 && super[2] <= 3500));
    const auto duathlon = distances("duathlon-standard");
    CHECK((duathlon[0] >= 5000 && duathlon[0] <= 10000));
    CHECK((duathlon[1] >= 30000 && duathlon[1] <= 40000));
    CHECK(duathlon[2] == 5000);
    CHECK(preset_legs("marathon").empty());
}

// The first transition follows the swim (or first run), the second is the one off the bike: common practice.
TEST_CASE("transitions put themselves between legs") {
    CHECK(kinds(preset_legs("standard")) == Words{"swim", "t1", "bike", "t2", "run"});
    CHECK(kinds(preset_legs("duathlon-sprint")) == Words{"run", "t1", "bike", "t2", "run"});
    CHECK(kinds(preset_legs("aquathlon-standard")) == Words{"run", "t1", "swim", "t2", "run"});
    CHECK(kinds(read(R"({"legs":[{"sport":"bike","time":"2h"},{"sport":"run","time":"20:00"}],
        "weather":{"temperature_c":15}})")
                    .event.legs) == Words{"bike", "t2", "run"});
}

TEST_CASE("an event keeps what it says") {
    const auto in =
        read(R"({"schema":"tuck.event/1","about":"Invented scenario.","name":"Lake","distance":"sprint",
        "course":{"bike":{"ascent_m":120,"stations":[{"km":8,"form":"bottle"}]},"t1":{"time":"3:00"}},
        "weather":{"temperature_c":22,"humidity_pct":60,"wind_m_s":2,"water_temperature_c":17},
        "kit":{"bike_bottles_ml":[],"run_gels":1},"session":"training","date":"2027-06-13","start_local":"07:30",
        "transition_closes":"07:00","wave":"B","wave_offset_min":10,"pen_wait_min":5,"salt_water":true,"seed":7,
        "days":0,"stations":"typical","athlete":{"mass_kg":68,"times":{"bike":"40:00"},"hands":"bottle and food"}})");
    const Event& event = in.event;
    REQUIRE(event.legs.size() == 5);
    CHECK(event.legs[2].ascent_m == 120);
    CHECK(event.legs[2].stations.at(0).form == ServedIn::bottle);
    CHECK(event.legs[1].time_s == 180.0);
    CHECK(event.legs[2].time_s == 2400.0);
    CHECK_FALSE(event.legs[4].time_s);
    CHECK(event.weather.humidity_pct == 60.0);
    CHECK(event.kit.bike_bottles_ml == std::vector<double>{});
    CHECK_FALSE(event.kit.run_flask_ml);
    CHECK_FALSE(event.race);
    CHECK(event.start_min == 450);
    CHECK(event.transition_closes_min == 420);
    CHECK(event.seed == 7);
    CHECK(event.days == 0);
    CHECK(event.station_policy == StationPolicy::typical);
    CHECK(in.athlete_given);
    CHECK(in.athlete.hands == Hands::bottle_and_food);
}

TEST_CASE("stations of laps stand in the order of the road") {
    const auto legs = read(R"({"legs":[{"sport":"run","distance_m":10000,"stations":[
        {"km":1.2,"laps":4,"lap_km":2.5},{"km":2.0,"laps":4,"lap_km":2.5}]}],"weather":{"temperature_c":20}})")
                          .event.legs;
    std::vector<double> km;
    for (const auto& station : legs.at(0).stations)
        km.push_back(station.km);
    CHECK(km.size() == 8);
    CHECK(std::is_sorted(km.begin(), km.end()));
    CHECK(km.front() == Approx(1.2));
    CHECK(km.back() == Approx(9.5));
}

TEST_CASE("legs and a named distance may stand together only where they agree") {
    const std::string rest = R"(,"distance":"sprint","weather":{"temperature_c":22}})";
    const auto in = read(R"({"legs":[{"sport":"swim"},{"sport":"bike","distance_m":20000},
        {"transition":true,"time":"2:00"},{"sport":"run","time":"25:00"}])" +
                         rest);
    CHECK(in.event.legs.at(0).distance_m == 750);
    CHECK(in.event.legs.at(3).time_s == 120.0);
    const auto text =
        faults_of(R"({"legs":[{"sport":"swim","distance_m":750},{"sport":"bike","distance_m":25000},
        {"sport":"run","distance_m":5000}])" +
                  rest);
    CHECK_THAT(text, Catch::StartsWith("e.json: /legs: ") && Catch::Contains("e.json: /distance \"sprint\""));
}

TEST_CASE("a time written as hours that reads as minutes is refused") {
    CHECK_THAT(faults_of(R"({"distance":"standard","weather":{"temperature_c":22},
        "athlete":{"mass_kg":70,"times":{"bike":"1:10"}}})"),
               Catch::StartsWith("e.json: /athlete/times/bike: 1:10 over 40 km"));
}

TEST_CASE("every fault is told at once, each in its place") {
    const auto text = faults_of(R"({"distnce":"sprint","weather":{"temperature_c":80,"humidity_pct":140},
        "date":"2027-02-29","start_local":"25:00","athlete":{"mass_kg":0,"level":"pro","times":{"run":"-5:00"}}})");
    for (const char* part :
         {"e.json: /distance: is missing", "e.json: /distnce: is not known; did you mean \"distance\"?",
          "e.json: /weather/temperature_c: 80 is out of range; allowed -20 to 50 C",
          "e.json: /weather/humidity_pct: 140", "e.json: /date: ", "e.json: /start_local: ",
          "e.json: /athlete/mass_kg: 0 is out of range; allowed 25 to 250 kg",
          "e.json: /athlete/level: \"pro\" is not known", "e.json: /athlete/times/run: "})
        CHECK_THAT(text, Catch::Contains(part));
}

TEST_CASE("an athlete's file stands beside the event, and its faults are told under its own name") {
    const Folder folder;
    const auto athlete = folder.write("a.json", R"({"mass_kg":70,"times":{"run":"25:00"}})");
    const auto event =
        folder.write("e.json", R"({"distance":"sprint","weather":{"temperature_c":22},"athlete":"a.json"})");
    const auto in = read_event(event);
    CHECK(in.athlete.mass_kg == 70);
    CHECK(in.event.legs.at(4).time_s == 1500.0);
    const auto other = folder.write("b.json", R"({"mass_kg":55})");
    CHECK(read_event(event, other).athlete.mass_kg == 55);
    CHECK_FALSE(read_event(event, other).event.legs.at(4).time_s);
    folder.write("a.json", R"({"mass_kg":700})");
    CHECK_THROWS_WITH(read_event(event), athlete + ": /mass_kg: 700 is out of range; allowed 25 to 250 kg");
}

TEST_CASE("one line makes a plan's input") {
    auto options = one_line();
    options["--bike-time"] = {"45min"};
    options["--recent-run"] = {"10km=52:30", "5km=25:00"};
    options["--allergy"] = {"nuts,milk", "eggs"};
    options["--bottles"] = {"2x750ml"};
    options["--caffeine"] = {"yes"};
    const auto in = plan_input(std::nullopt, options);
    CHECK(in.athlete.mass_kg == 68);
    CHECK(in.event.preset == "sprint");
    CHECK(in.event.legs.at(2).time_s == 2700.0);
    CHECK(in.athlete.recent.size() == 2);
    CHECK(in.athlete.recent[0].time_s == 3150);
    CHECK(in.athlete.allergy == Words{"nuts", "milk", "eggs"});
    CHECK(in.event.kit.bike_bottles_ml == std::vector<double>{750, 750});
    CHECK(in.athlete.caffeine);
}

TEST_CASE("options that cannot be are told under their own names") {
    CHECK(faults_of(std::nullopt, Typed{}) == "--distance: is missing; give a \"distance\" or \"legs\"\n"
                                              "--temperature: is missing; allowed -20 to 50 C\n"
                                              "--mass: is missing; allowed 25 to 250 kg");
    auto options = one_line();
    options["--mass"] = {"68"};
    options["--humidity"] = {"140%"};
    options["--distance"] = {"sprnt"};
    options.erase("--legs");
    options["--allergy"] = {"nutz"};
    const auto text = faults_of(std::nullopt, options);
    for (const char* part : {"--mass: \"68\": give a unit, kg or lb", "--humidity: 140 is out of range",
                             "--distance: \"sprnt\" is not known", "--allergy: \"nutz\" is not known"})
        CHECK_THAT(text, Catch::Contains(part));
    CHECK(std::count(text.begin(), text.end(), '\n') == 3);
}

TEST_CASE("what is typed outranks the file, and is told") {
    const Folder folder;
    const auto file =
        folder.write("e.json", R"({"distance":"sprint","weather":{"temperature_c":22},"stations":"typical",
        "athlete":{"mass_kg":70,"times":{"bike":"40:00"},"allergy":["nuts"]}})");
    Typed options;
    options["--mass"] = {"70kg"};
    options["--distance"] = {"sprint"};
    options["--legs"] = {"swim:750m,bike:20km,run:5km"};
    options["--bike-time"] = {"0:40:00"};
    options["--allergy"] = {"milk"};
    const auto in = plan_input(file, options);
    CHECK(in.athlete.allergy == Words{"nuts", "milk"});
    CHECK(in.instead.empty());

    options["--mass"] = {"68kg"};
    options["--bike-time"] = {"41:00"};
    options["--temperature"] = {"75F"};
    const auto other_day = plan_input(file, options);
    CHECK(other_day.athlete.mass_kg == Approx(68));
    CHECK(other_day.event.weather.temperature_c == Approx(23.9).margin(0.05)); // 75 F
    REQUIRE(other_day.instead.size() == 3);
    CHECK_THAT(other_day.instead[0],
               Catch::StartsWith("--mass: 68 instead of 70 (" + file + ": /athlete/mass_kg"));

    Typed other;
    other["--legs"] = {"swim:750m,bike:20km,run:10km"};
    CHECK_THAT(faults_of(file, other),
               Catch::StartsWith("--legs: ") && Catch::Contains(file + ": /distance"));
    Typed leg_time;
    leg_time["--bike-time"] = {"45:00"};
    const auto legs = folder.write("l.json", R"({"legs":[{"sport":"bike","distance_m":20000,"time":"40:00"}],
        "weather":{"temperature_c":22},"athlete":{"mass_kg":70}})");
    const auto slower = plan_input(legs, leg_time);
    CHECK(slower.event.legs.at(0).time_s == 45 * 60.0);
    REQUIRE(slower.instead.size() == 1);
    CHECK_THAT(slower.instead[0], Catch::Contains("45:00 instead of 40:00"));
}

TEST_CASE("the option --set reaches every key, and a wrong one is named") {
    const Folder folder;
    const auto file =
        folder.write("e.json", R"({"distance":"sprint","weather":{"temperature_c":22,"humidity_pct":50},
        "athlete":{"mass_kg":70}})");
    Typed options;
    options["--set"] = {"weather.humidity_pct=80", "athlete.swallow_ml=40", "start_local=07:30"};
    const auto in = plan_input(file, options);
    CHECK(in.event.weather.humidity_pct == 80);
    CHECK(in.athlete.swallow_ml == 40);
    CHECK(in.event.start_min == 450);
    CHECK(in.instead.size() == 1);
    for (const char* wrong :
         {"weather.humidity=80", "weather.humidity_pct", "=3", "weather.humidity_pct=180"}) {
        options["--set"] = {wrong};
        CHECK_THAT(faults_of(file, options), Catch::StartsWith("--set: "));
    }
}

TEST_CASE("a temperature that is typed is the whole day's") {
    const Folder folder;
    const auto file =
        folder.write("e.json", R"({"distance":"sprint","start_local":"07:00","weather":{"temperature_c":22,
        "hourly":[{"hour":7,"temperature_c":18},{"hour":9,"temperature_c":26}]},"athlete":{"mass_kg":70}})");
    const auto in = plan_input(file, {{"--temperature", {"30C"}}});
    CHECK(in.event.weather.hourly.empty());
    CHECK(in.event.weather.temperature_c == 30);
    CHECK(in.instead.size() == 2);
}

TEST_CASE("values: case, other names of the trade, and the nearest word") {
    const Folder folder;
    const auto with = [&](const std::string& distance, const std::string& more) {
        return plan_input(std::nullopt, {{"--distance", {distance}},
                                         {"--mass", {"70kg"}},
                                         {"--temperature", {"20C"}},
                                         {"--level", {more}}});
    };
    CHECK(with("Sprint", "Beginner").event.preset == "sprint");
    CHECK(with("olympic", "KEEN").event.preset == "standard");
    CHECK(with("half", "keen").event.preset == "middle");
    CHECK(with("full", "keen").event.preset == "long");
    CHECK(with("super sprint", "keen").event.preset == "super-sprint");
    const auto fault = [&](const Typed& typed) {
        try {
            plan_input(std::nullopt, typed);
        } catch (const InputError& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    Typed typed{{"--distance", {"sprnt"}}, {"--mass", {"70kg"}}, {"--temperature", {"20C"}}};
    CHECK_THAT(fault(typed), Catch::Contains("did you mean \"sprint\"?"));
    typed["--distance"] = {"sprint"};
    typed["--allergy"] = {"glutten"};
    CHECK_THAT(fault(typed), Catch::Contains("did you mean \"gluten\"?"));
    typed["--allergy"] = {"lactose"};
    CHECK_THAT(fault(typed), Catch::Contains("say milk"));
    typed["--allergy"] = {"soy,peanut"};
    CHECK(plan_input(std::nullopt, typed).athlete.allergy == Words{"soybeans", "peanuts"});
    CHECK(tuck::nearest_word("mass_lb", {"mass_kg", "height_m"}).empty()); // the unit is another
}

TEST_CASE("a sweat rate says its sport") {
    const auto athlete = [](const char* rate) {
        return plan_input(std::nullopt, {{"--distance", {"sprint"}},
                                         {"--mass", {"70kg"}},
                                         {"--temperature", {"20C"}},
                                         {"--sweat-rate", {rate}}})
            .athlete;
    };
    CHECK(!athlete("1.2L/h").sweat->sport);
    CHECK(athlete("bike=1.2L/h").sweat->sport == Sport::bike);
    CHECK(athlete("run=1.5L/h").sweat->sport == Sport::run);
    CHECK(athlete("run=1.5L/h").sweat->sweat_ml_per_h == 1500);
    const auto both = athlete("bike=1.2L/h,run=1.5L/h");
    CHECK(both.sweat->sweat_ml_per_h == 1200);
    REQUIRE(both.sweat_on_run);
    CHECK(both.sweat_on_run->sweat_ml_per_h == 1500);
}

TEST_CASE("an event without an athlete asks for the mass, and takes an athlete's file") {
    const Folder folder;
    const auto file = folder.write("e.json", R"({"distance":"sprint","weather":{"temperature_c":22}})");
    CHECK(faults_of(file, Typed{}) == "--mass: is missing; allowed 25 to 250 kg");
    CHECK_FALSE(read_event(file).athlete_given);
    Typed options;
    options["--athlete"] = {folder.write("a.json", R"({"mass_kg":61})")};
    CHECK(plan_input(file, options).athlete.mass_kg == 61);
}

TEST_CASE("foods that the pantry does not know are told where they stand") {
    Pantry pantry;
    for (const char* id : {"honey", "water_tap"}) {
        pantry.foods[id].id = id;
        pantry.foods[id].group = "sweet";
    }
    auto in = read(R"({"distance":"sprint","weather":{"temperature_c":22},
        "course":{"run":{"stations":[{"km":2,"serves":["water_tap","watr_tap"]}]}},
        "athlete":{"mass_kg":70,"like":["honey","sweet"],"avoid":["hony"]}})");
    CHECK_THROWS_WITH(check_foods(in, pantry),
                      "e.json: /athlete/avoid/0: \"hony\" is not a food or a group of foods of the pantry; "
                      "did you mean \"honey\"?\n"
                      "e.json: /course/run/stations/0/serves/1: \"watr_tap\" is not a food of the pantry; "
                      "did you mean \"water_tap\"?");
}

TEST_CASE("a food that an earlier release called otherwise gets its name of today") {
    Pantry pantry;
    pantry.foods["syrup"].id = "syrup";
    pantry.foods["syrup"].was = {"honey"};
    auto in = read(R"({"distance":"sprint","weather":{"temperature_c":22},
        "course":{"run":{"stations":[{"km":2,"serves":["honey"]}]}},"athlete":{"mass_kg":70,"like":["honey"]}})");
    check_foods(in, pantry);
    CHECK(in.athlete.like == std::vector<std::string>{"syrup"});
    CHECK(in.event.legs.back().stations.at(0).serves == std::vector<std::string>{"syrup"});
}
