// The page's door: what it answers is what the library says, and a form gives back what a document holds.
#include "folder.hpp"
#include "io/gpx.hpp"
#include "page/engine.hpp"
#include "page/form.hpp"
#include "places.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <sstream>

using namespace tuck::page;
using tuck::example::text_of;

namespace {

Json answer(Engine& engine, const Json& question, int code = 0) {
    const auto reply = engine.ask(question.dump());
    INFO(question.dump() << "\n" << reply.bytes.substr(0, 600));
    REQUIRE(reply.code == code);
    return Json::parse(reply.bytes);
}

Json middle() {
    return {{"schema", "tuck.event/1"},
            {"distance", "middle"},
            {"days", 200},
            {"weather", {{"temperature_c", 24}}},
            {"athlete", {{"mass_kg", 70}}}};
}

} // namespace

TEST_CASE("page: a form typed in either units gives back the document") {
    // 150 lb are 68.0388555 kg: 1 lb is 0.45359237 kg (international yard and pound agreement 1959).
    const Json typed{{"--mass", "150lb"},
                     {"--temperature", "77F"},
                     {"--bottles", "750ml,500ml"},
                     {"--wind", "3m/s"},
                     {"--sun", "half"},
                     {"--height", "178cm"},
                     {"--level", "steady"},
                     {"--recent-run", "10km=52:30"},
                     {"--threshold-pace", "4:45/km"},
                     {"--swim-pace", "1:50/100m"},
                     {"--like", "gel_25,banana_ripe"},
                     {"--carb", "70g/h"},
                     {"--caffeine", "yes"},
                     {"--start", "07:30"},
                     {"--bike-time", "1:20:00"}};
    const auto document = with_texts({{"schema", "tuck.event/1"}}, typed);
    CHECK(document.at("athlete").at("mass_kg").get<double>() == Approx(68.0388555).epsilon(1e-9));
    CHECK(document.at("weather").at("temperature_c").get<double>() ==
          Approx(25).epsilon(1e-12)); // (77 - 32) / 1.8
    for (const auto units : {tuck::Units::metric, tuck::Units::imperial}) {
        const auto form = form_of(document, units);
        Json back = Json::object();
        for (const auto& [option, field] : form.items())
            back[option] = field.at("text");
        // A form shows tenths: a typed value comes back within what it shows.
        const auto again = with_texts({{"schema", "tuck.event/1"}}, back);
        CHECK(again.at("athlete").at("mass_kg").get<double>() == Approx(68.0388555).margin(0.05));
        CHECK(again.at("kit").at("bike_bottles_ml").at(1).get<double>() == Approx(500).margin(0.2));
        CHECK(again.at("athlete").at("recent") == document.at("athlete").at("recent"));
        CHECK(again.at("athlete").at("like") == document.at("athlete").at("like"));
        CHECK(again.at("athlete").at("height_m").get<double>() == Approx(1.78).margin(0.013)); // half an inch
        CHECK(again.at("weather").at("sun") == "half");
    }
    const auto bare = with_texts(document, {{"--bottles", ""}, {"--recent-run", ""}});
    CHECK_FALSE(bare.contains("kit"));
    CHECK_FALSE(bare.at("athlete").contains("recent"));
}

TEST_CASE("page: every field of the form is one that an option fills") {
    const auto form = form_of({{"schema", "tuck.event/1"}}, tuck::Units::metric);
    for (const auto& [option, field] : form.items()) {
        INFO(option);
        CHECK(option.rfind("--", 0) == 0);
        CHECK(field.at("text") == "");
        CHECK(field.at("at").get<std::string>().front() == '/');
    }
    CHECK(form.contains("--mass"));
    CHECK_THROWS_WITH(with_texts({}, {{"--mas", "70kg"}}), Catch::Contains("is not a field of the form"));
}

TEST_CASE("page: what is wrong is told as the command line tells it") {
    Engine engine(tuck::places::foods());
    auto heavy = middle();
    heavy["athlete"]["mass_kg"] = 700;
    const auto faults = answer(engine, {{"want", "plan"}, {"event", heavy}}, 2).at("faults");
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].at("text") == "event.json: /athlete/mass_kg: 700 is out of range; allowed 25 to 250 kg");
    CHECK(answer(engine, {{"want", "plan"}, {"event", middle()}, {"set", {{"--mass", "70"}}}}, 2)
              .at("faults")[0]
              .at("text") == "--mass: \"70\": give a unit, kg or lb");
    CHECK(engine.ask("{").code == 2);
    CHECK(engine.ask(R"({"want":"tea"})").code == 2);
    CHECK(engine.ask(R"({"want":"plan","event":"{\"a\":1,\"a\":2}"})").code == 2);
}

TEST_CASE("page: files that an event names are handed over, and never looked for on a disk") {
    Engine engine(tuck::places::foods());
    auto event = middle();
    event["course"]["bike"] = {{"course_gpx", "pass.gpx"}, {"course_laps", 1}};
    const auto missing = answer(engine, {{"want", "plan"}, {"event", event}}, 2).at("faults")[0].at("text");
    CHECK_THAT(missing.get<std::string>(), Catch::Contains("pass.gpx") && Catch::Contains("was not given"));
    const auto gpx = text_of(std::string(tuck::places::samples()) + "/courses/rolling-lap.gpx");
    const auto course = Json::parse(engine.open("pass.gpx", gpx).bytes);
    const auto track = tuck::io::parse_gpx(gpx, "pass.gpx");
    CHECK(course.at("length_m").get<double>() == Approx(track.length_m).margin(0.5));
    CHECK(course.at("profile").size() <= 402);
    event["course"]["bike"]["course_laps"] = std::lround(90e3 / track.length_m);
    const auto planned = answer(engine, {{"want", "plan"}, {"event", event}});
    CHECK(planned.at("roads")[0].at("profile").size() > 20);
    CHECK(engine.open("x.gpx", "<!DOCTYPE a><gpx/>").code == 2);
    auto named = middle();
    named["athlete"] = "nobody.json";
    CHECK(engine.ask(Json{{"want", "plan"}, {"event", named}}.dump()).code == 2);
    CHECK(engine.open("nobody.json", R"({"schema":"tuck.athlete/1","mass_kg":61})").code == 0);
    CHECK(answer(engine, {{"want", "plan"}, {"event", named}}).at("plan").at("inputs").at("mass_kg") == 61);
}

TEST_CASE("page: a road says where its stations stand in the document, legs of one sport apart") {
    Engine engine(tuck::places::foods());
    Json event{{"schema", "tuck.event/1"},
               {"days", 0},
               {"weather", {{"temperature_c", 20}}},
               {"athlete", {{"mass_kg", 70}}},
               {"legs",
                {{{"sport", "run"}, {"distance_m", 10000}},
                 {{"transition", true}},
                 {{"sport", "bike"}, {"distance_m", 40000}},
                 {{"transition", true}},
                 {{"sport", "run"},
                  {"distance_m", 10000},
                  {"stations", {{{"km", 1}, {"laps", 2}, {"lap_km", 5}}, {{"km", 3}}}}}}}};
    const auto roads = answer(engine, {{"want", "plan"}, {"event", event}}).at("roads");
    REQUIRE(roads.size() == 3);
    CHECK(roads[0].at("at") == "/legs/0");
    CHECK(roads[1].at("at") == "/legs/2");
    CHECK(roads[2].at("at") == "/legs/4");
    const auto& stations = roads[2].at("stations");
    REQUIRE(stations.size() == 3);
    for (const auto& [i, km, of, offset_km] :
         {std::tuple(0, 1.0, 0, 0.0), {1, 3.0, 1, 0.0}, {2, 6.0, 0, 5.0}}) {
        CHECK(stations[i].at("km") == km);
        CHECK(stations[i].at("of") == of);
        CHECK(stations[i].at("offset_km") == offset_km);
    }
    auto usual = middle();
    usual["stations"] = "typical"; // they stand in no document
    const auto shown = answer(engine, {{"want", "plan"}, {"event", usual}});
    for (const auto& road : shown.at("roads"))
        for (const auto& station : road.at("stations"))
            CHECK_FALSE(station.contains("of"));
}

TEST_CASE("page: every number that is shown tells why, back to what it came from") {
    Engine engine(tuck::places::foods());
    const auto planned = answer(engine, {{"want", "plan"}, {"event", middle()}});
    CHECK(planned.at("shown").at("short") == planned.at("plan").at("in_short"));
    for (const auto& leg : planned.at("shown").at("legs"))
        for (const char* key : {"carb_g_per_h", "fluid_ml_per_h", "sweat_ml_per_h"}) {
            const auto chain =
                answer(engine, {{"want", "why"}, {"event", middle()}, {"number", leg.at(key).at("why")}})
                    .at("chain");
            INFO(leg.at(key).dump());
            REQUIRE_FALSE(chain.empty());
            CHECK_FALSE(chain[0].at("because").empty());
            CHECK(chain[0].at("value").get<std::string>() != "");
        }
    const auto drink =
        answer(engine, {{"want", "why"}, {"event", middle()}, {"number", "/needs/2/fluid_ml_per_h"}});
    CHECK(drink.at("chain").size() >= 2); // it came from sweat, and that from the time
    // The number that was touched, in the reader's own units.
    const auto asked = planned.at("shown").at("legs").at(2).at("fluid_ml_per_h");
    CHECK(drink.at("chain").at(0).at("value") == asked.at("text"));
    CHECK(drink.at("chain").at(0).at("leg") == "Bike");
    const Json in_ounces{{"event", middle()}, {"units", "imperial"}};
    Json plan = in_ounces, why = in_ounces;
    plan["want"] = "plan";
    why.update({{"want", "why"}, {"number", asked.at("why")}});
    CHECK(answer(engine, why).at("chain").at(0).at("value") ==
          answer(engine, plan).at("shown").at("legs").at(2).at("fluid_ml_per_h").at("text"));
}

TEST_CASE("page: a ceiling is never shown above the plan's own, in either units") {
    // 1 fl oz (US) is 29.57353 ml: NIST SP 811 (2008), Appendix B.8.
    Engine engine(tuck::places::foods());
    for (const double mass_kg : {51.0, 64.5, 70.0, 88.5})
        for (const auto& [units, ml] : {std::pair("metric", 1.0), std::pair("imperial", 29.57353)}) {
            auto event = middle();
            event["athlete"]["mass_kg"] = mass_kg;
            const auto planned = answer(engine, {{"want", "plan"}, {"event", event}, {"units", units}});
            std::size_t seen = 0;
            for (const auto& leg : planned.at("shown").at("legs")) {
                if (!leg.contains("fluid_ml_per_h"))
                    continue;
                const auto& shown = leg.at("fluid_ml_per_h");
                const auto own = planned.at("plan")
                                     .at(Json::json_pointer(shown.at("why").get<std::string>()))
                                     .get<double>();
                INFO(shown.dump() << " of " << own);
                const double said = ml * std::stod(shown.at("text").get<std::string>());
                CHECK(said <= own + 1e-3);
                CHECK(said > own - ml);
                ++seen;
            }
            CHECK(seen >= 2);
        }
}

TEST_CASE("page: the units switch holds for all that a plan says") {
    Engine engine(tuck::places::foods());
    auto event = middle();
    event["distance"] = "duathlon-standard";
    event["stations"] = "typical";
    event["weather"]["temperature_c"] = 5;
    const Json asked{{"want", "plan"}, {"event", event}, {"units", "imperial"}};
    const auto planned = answer(engine, asked);
    const auto& shown = planned.at("shown");
    const auto plain = planned.at("plan").at("in_short").dump(), said = shown.at("short").dump();
    CHECK_THAT(plain, Catch::Contains(" km ")); // or this would show nothing
    CHECK_THAT(said, Catch::Contains(" mile "));
    for (const char* part : {"short", "lines", "warnings", "guesses", "cautions", "feeds", "unmet", "totals"})
        for (const char* metric : {" km", " ml", " kg", " C ", " m/s", "km "}) {
            INFO(part << ": " << shown.at(part).dump());
            CHECK_THAT(shown.at(part).dump(), !Catch::Contains(metric));
        }
    const auto card = answer(engine, {{"want", "plan"}, {"event", event}, {"units", "imperial"}}).at("card");
    CHECK_THAT(card.dump(), !Catch::Contains(" km "));
}

TEST_CASE("page: what a plan says is said in German, numbers and all") {
    Engine engine(tuck::places::foods());
    for (const char* distance : {"super-sprint", "sprint", "standard", "middle", "long"})
        for (const double temperature_c : {8.0, 24.0, 33.0})
            for (const char* stations : {"", "typical"}) {
                auto event = middle();
                event["distance"] = distance;
                event["weather"]["temperature_c"] = temperature_c;
                if (*stations)
                    event["stations"] = stations;
                const auto planned = answer(engine, {{"want", "plan"}, {"event", event}, {"language", "de"}});
                const auto& shown = planned.at("shown");
                for (const char* part : {"warnings", "guesses", "cautions", "unmet", "if_then"})
                    for (const auto& one : shown.at(part)) {
                        INFO(one.dump());
                        CHECK(one.at("lang") == "de");
                    }
                for (const char* part : {"sure", "stop"})
                    CHECK(shown.at(part).at("lang") == "de");
                for (const char* part : {"short", "lines", "feeds", "tells_most", "chances", "unmet", "sure"})
                    for (const char* english : {"every ", "swallow", "station:", " cup", "bike", " days",
                                                "drink ", " at ", " and ", " the "}) {
                        INFO(distance << " " << part << ": " << shown.at(part).dump());
                        CHECK_THAT(shown.at(part).dump(), !Catch::Contains(english));
                    }
                // The same amounts: digits of the three sentences stand in the same order.
                const auto digits = [](std::string text) {
                    std::erase_if(text, [](unsigned char c) { return c < '0' || c > '9'; });
                    return text;
                };
                const auto english = answer(engine, {{"want", "plan"}, {"event", event}}).at("shown");
                REQUIRE(english.at("lines").size() == shown.at("lines").size());
                for (std::size_t i = 0; i < english.at("lines").size(); ++i)
                    for (const auto& digit : digits(english.at("lines")[i].at("text")))
                        CHECK_THAT(digits(shown.at("lines")[i].at("text")),
                                   Catch::Contains(std::string(1, digit)));
            }
}

TEST_CASE("page: an answer at once has the lines of the whole one, and says nothing of what would help") {
    Engine engine(tuck::places::foods());
    for (const char* distance : {"sprint", "standard", "middle", "long"}) {
        auto event = middle();
        event["distance"] = distance;
        const auto whole = answer(engine, {{"want", "plan"}, {"event", event}});
        const auto hasty = answer(engine, {{"want", "plan"}, {"event", event}, {"hasty", true}});
        for (const char* part : {"lines", "feeds", "carry", "mix", "needs", "warnings"})
            CHECK(hasty.at("plan").at(part) == whole.at("plan").at(part));
        CHECK(hasty.at("shown").at("unmet").empty());
        if (std::string(distance) == "long")
            CHECK_FALSE(whole.at("shown").at("unmet").empty()); // or this would show nothing
    }
}

TEST_CASE("page: a coach's table is read as it is") {
    // Heads and decimal comma as German spreadsheets write them; people invented.
    Engine engine(tuck::places::foods());
    const auto table = answer(
        engine, {{"want", "table"},
                 {"text", "Name;Startnummer;Gewicht (kg);Bemerkung\nÄnne;12;61,5;-\nBo;13;abc;=1+1\n"}});
    CHECK(table.at("mark") == ";");
    CHECK(table.at("guesses") == Json({"name", "bib", "mass_kg", ""}));
    const auto squad = answer(engine, {{"want", "squad"},
                                       {"event", middle()},
                                       {"columns", table.at("guesses")},
                                       {"rows", table.at("rows")}});
    const auto& athletes = squad.at("athletes");
    REQUIRE(athletes.size() == 2);
    CHECK(athletes[0].at("name") == "Änne");
    CHECK(athletes[0].at("card").get<std::string>() != "");
    CHECK(athletes[1].at("odd")[0].at("column") == "mass_kg");
    const auto pounds = answer(
        engine, {{"want", "squad"}, {"event", middle()}, {"columns", {"mass_kg"}}, {"rows", {{"150 lb"}}}});
    CHECK_FALSE(pounds.at("athletes")[0].contains("odd"));
}

TEST_CASE("page: marks of a session become the diary's line") {
    Engine engine(tuck::places::foods());
    auto session =
        answer(engine, {{"want", "rehearsal"}, {"event", middle()}, {"ride", "60min"}, {"run", "0min"}})
            .at("session");
    session["start_unix_s"] = 1800000000;
    std::string marks = session.dump() + "\n";
    for (std::size_t i = 0; i < session.at("feeds").size(); ++i)
        marks +=
            Json{{"schema", "tuck.marks/1"}, {"mark", "taken"}, {"at_s", 60 * (i + 1)}, {"feed", i}}.dump() +
            "\n";
    const auto made = answer(engine, {{"want", "rehearsal_entry"},
                                      {"kind", "rehearsal"},
                                      {"date", "2027-05-01"},
                                      {"marks", marks},
                                      {"texts", {{"--temperature", "20C"}}}});
    const auto line = Json::parse(made.at("diary").get<std::string>());
    CHECK(line.at("id") == 1);
    CHECK(line.at("feeds_taken") == line.at("feeds_planned"));
    const auto known = answer(engine, {{"want", "diary"}, {"event", middle()}, {"diary", made.at("diary")}});
    CHECK_FALSE(known.at("known").empty());
}

namespace {

/// Every sentence that says its language and is not German, wherever it stands in an answer.
void english_in(const Json& answer, std::vector<std::string>& out) {
    if (answer.is_object() && answer.contains("lang") && answer.at("lang") != "de")
        out.push_back(answer.at("text"));
    if (answer.is_structured())
        for (const auto& part : answer)
            english_in(part, out);
}

/// Words that no German sentence holds.
void check_german(const Json& answer) {
    if (answer.is_object() && answer.contains("lang"))
        for (const char* english :
             {" the ", " and ", " or ", "allowed", " with ", " not ", " were ", " of "}) {
            INFO(answer.dump());
            CHECK_THAT(answer.at("text").get<std::string>(), !Catch::Contains(english));
        }
    if (answer.is_structured())
        for (const auto& part : answer)
            check_german(part);
}

struct GermanPage {
    Engine engine{tuck::places::foods()};
    std::vector<std::string> english;
    int asked = 0;

    Json ask(Json question, bool fault = false) {
        question["language"] = "de";
        const auto reply = engine.ask(question.dump());
        INFO(question.dump() << "\n" << reply.bytes.substr(0, 400));
        CHECK((reply.code == 2) == fault);
        const auto answer = Json::parse(reply.bytes);
        english_in(answer, english);
        check_german(answer);
        ++asked;
        return answer;
    }
    Json faulty(Json question) { return ask(std::move(question), true); }
    Json faulty_set(const char* option, const char* text) {
        return faulty({{"want", "form"}, {"event", middle()}, {"set", {{option, text}}}});
    }
};

} // namespace

TEST_CASE("page: tests, rehearsals, diary, packets, squads and faults speak German too") {
    GermanPage page;
    const auto start = page.ask({{"want", "start"}});
    for (const auto& food : start.at("foods"))
        CHECK(food.at("said").at("lang") == "de");

    // Sweat tests: too much drunk, much lost, in the cool, short and indoors; impossible ones.
    std::string diary;
    const auto sweat = [&](const Json& texts, bool fault = false) {
        const auto answer = page.ask({{"want", "sweat_test"},
                                      {"kind", "sweat_test"},
                                      {"date", "2027-04-01"},
                                      {"diary", diary},
                                      {"texts", texts}},
                                     fault);
        if (!fault)
            diary = answer.at("diary");
    };
    for (const char* units : {"", "--indoors"}) {
        Json texts{{"--before", "70kg"}, {"--after", "69kg"},      {"--drank", "500ml"},
                   {"--minutes", "90"},  {"--temperature", "24C"}, {"--sport", "bike"}};
        if (*units)
            texts[units] = "yes";
        sweat(texts);
    }
    sweat({{"--before", "70kg"},
           {"--after", "70.4kg"},
           {"--drank", "1400ml"},
           {"--minutes", "60"},
           {"--temperature", "10C"},
           {"--sport", "run"},
           {"--patch-sodium", "55mmol/L"},
           {"--site", "forearm"}});
    sweat({{"--before", "70kg"},
           {"--after", "66.5kg"},
           {"--drank", "200ml"},
           {"--minutes", "110"},
           {"--temperature", "33C"},
           {"--sport", "bike"},
           {"--power", "180W"},
           {"--humidity", "60%"},
           {"--wind", "3m/s"},
           {"--sun", "half"}});
    sweat({{"--before", "70kg"},
           {"--after", "76kg"},
           {"--drank", "500ml"},
           {"--minutes", "90"},
           {"--temperature", "24C"}},
          true);
    sweat({{"--before", "70kg"},
           {"--after", "55kg"},
           {"--drank", "500ml"},
           {"--minutes", "90"},
           {"--temperature", "24C"}},
          true);
    sweat({{"--before", "70"}, {"--after", "69kg"}, {"--minutes", "viel"}}, true);

    // Rehearsals that went well, badly and worse; what they teach, and plans that read them.
    const auto rehearsed = [&](const char* date, const char* carb, const char* gut,
                               const char* run_gut = "nausea=0") {
        diary = page.ask({{"want", "rehearsal_entry"},
                          {"kind", "rehearsal"},
                          {"date", date},
                          {"diary", diary},
                          {"texts",
                           {{"--bike", "150min"},
                            {"--bike-carb", carb},
                            {"--bike-fluid", "1200ml"},
                            {"--bike-gut", gut},
                            {"--run", "20min"},
                            {"--run-carb", "15g"},
                            {"--run-gut", run_gut},
                            {"--temperature", "18C"}}}})
                    .at("diary");
    };
    const auto told = [&] {
        page.ask({{"want", "diary"}, {"event", middle()}, {"diary", diary}});
        page.ask({{"want", "plan"}, {"event", middle()}, {"diary", diary}});
        auto event = middle();
        event["date"] = "2027-09-05";
        page.ask({{"want", "rehearsal"}, {"event", event}, {"diary", diary}, {"weeks", 6}});
    };
    told();
    for (const char* gut :
         {"nausea=1", "nausea=2", "nausea=1", "nausea=4", "nausea=5", "nausea=6", "nausea=9"}) {
        rehearsed("2027-04-10", "140g", gut);
        told();
    }
    rehearsed("2027-04-20", "140g", "nausea=1", "cramps=5");
    told();
    for (const char* distance : {"super-sprint", "sprint", "duathlon-standard", "long"}) {
        auto event = middle();
        event["distance"] = distance;
        event["date"] = "2027-09-05";
        page.ask({{"want", "rehearsal"}, {"event", event}, {"weeks", 4}});
        page.ask({{"want", "rehearsal"}, {"event", event}, {"ride", "60min"}, {"run", "0min"}});
    }

    // A packet, whole and with parts missing.
    Json label{{"style", "eu"},   {"per", "100g"},       {"form", "gel"},     {"id", "plum"},
               {"name", "Plum"},  {"label", "Plum"},     {"serving", "40g"},  {"carbohydrate", "65g"},
               {"sugars", "30g"}, {"fibre", "0g"},       {"fat", "0g"},       {"protein", "0g"},
               {"salt", "0.3g"},  {"energy", "260kcal"}, {"caffeine", "0mg"}, {"makes", ""}};
    page.ask({{"want", "food"}, {"label", label}});
    label["allergens"] = {"milk"};
    CHECK_THAT(page.ask({{"want", "food"}, {"label", label}}).at("own_foods").get<std::string>(),
               Catch::Contains("\"milk\""));
    for (const auto& [key, text] : {std::pair{"serving", ""},
                                    {"carbohydrate", ""},
                                    {"carbohydrate", "65"},
                                    {"salt", "30kg"},
                                    {"energy", "900kcal"},
                                    {"sugars", "80g"},
                                    {"id", "Plum!"}}) {
        auto wrong = label;
        wrong[key] = text;
        page.faulty({{"want", "food"}, {"label", wrong}});
    }

    // What is typed wrongly.
    for (const auto& [option, text] : {std::pair{"--mass", "70"},
                                       {"--mass", "viel"},
                                       {"--mass", "70,5kg"},
                                       {"--mass", "-3kg"},
                                       {"--mass", "70 ml"},
                                       {"--temperature", "warm"},
                                       {"--start", "7"},
                                       {"--date", "2027-02-30"},
                                       {"--date", "morgen"},
                                       {"--bike-time", "lang"},
                                       {"--bike-time", "80"},
                                       {"--bottles", "750"},
                                       {"--bottles", "0x750ml"},
                                       {"--sun", "hell"},
                                       {"--wind-from", "oben"},
                                       {"--recent-run", "10km"},
                                       {"--threshold-pace", "4"},
                                       {"--age", "alt"},
                                       {"--what", "x"}})
        page.faulty_set(option, text);
    const auto wrong = [&](const char* pointer, const Json& value) {
        auto event = middle();
        event[Json::json_pointer(pointer)] = value;
        page.faulty({{"want", "plan"}, {"event", event}});
    };
    wrong("/athlete/mass_kg", 700);
    wrong("/athlete/mass_kg", "70");
    wrong("/athlete/level", "fastest");
    wrong("/athlete/weight", 70);
    wrong("/athlete/like", {"gel_26"});
    wrong("/athlete/allergy", {"bark"});
    wrong("/days", 1.5);
    wrong("/distance", "olympics");
    wrong("/weather", 20);
    wrong("/own_lines", {"bike often: gel"});
    wrong("/own_lines", {"bike every 15min gel"});
    wrong("/own_lines", {"bike every 15min: 40 plums"});
    wrong("/own_lines", {"fly 1:00: gel"});
    wrong("/course/run/stations", {{{"km", 4}}, {{"km", 2}}});
    wrong("/course/run/stations", {{{"km", 400}}});
    wrong("/course/bike/course_gpx", "nowhere.gpx");
    page.faulty({{"want", "plan"}, {"event", middle()}, {"edits", {{"pins", {"0:40=gel_26"}}}}});
    page.faulty({{"want", "plan"}, {"event", middle()}, {"edits", {{"pins", {"gel"}}}}});
    page.faulty({{"want", "plan"}, {"event", middle()}, {"edits", {{"without", {"plums"}}}}});
    page.faulty({{"want", "plan"}, {"event", "{\"a\":1,\"a\":2}"}});
    page.faulty({{"want", "plan"}, {"event", "{\"a\":1,"}});
    page.faulty({{"want", "table"}, {"text", ""}});
    for (const char* gpx : {"<!DOCTYPE a><gpx/>", "<a/>", "<gpx", "<gpx/>",
                            "<gpx><trk><trkseg><trkpt lat=\"1\"/></trkseg></trk></gpx>"}) {
        const auto faults = Json::parse(page.engine.open("x.gpx", gpx, "de").bytes);
        english_in(faults, page.english);
        check_german(faults);
    }

    // A squad in heat, with odd cells.
    auto hot = middle();
    hot["weather"]["temperature_c"] = 36;
    hot["distance"] = "long";
    page.ask({{"want", "squad"},
              {"event", hot},
              {"columns", {"name", "mass_kg", "level", "hands"}},
              {"rows",
               {{"A", "70", "keen", "none"},
                {"B", "abc", "", ""},
                {"C", "700", "", ""},
                {"D", "48", "beginner", ""},
                {"E", "60"}}}});

    CHECK(page.asked >= 60);
    for (const auto& sentence : page.english)
        FAIL_CHECK("only in English: " << sentence);
}
