// Own lines, taken as they stand: the contract of tuck/own_line.hpp and of the words in io/own_lines.hpp.
// Days and plans are invented.
#include "places.hpp"
#include "tuck/ask.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tuck;
using Catch::Contains;

namespace {

Ask day(const std::vector<std::string>& lines, const Typed& more = {}) {
    Ask ask;
    ask.pantry = places::foods();
    ask.options = {{"--distance", {"middle"}},  {"--mass", {"70kg"}}, {"--temperature", {"20C"}},
                   {"--stations", {"typical"}}, {"--days", {"0"}},    {"--take", lines}};
    for (const auto& [option, texts] : more)
        if (texts.empty())
            ask.options.erase(option);
        else
            ask.options[option] = texts;
    return ask;
}

Plan taken(const std::vector<std::string>& lines, const Typed& more = {}) {
    return answer(read_ask(day(lines, more))).plan;
}

std::vector<double> minutes_of(const Plan& plan, int leg_index = -1) {
    std::vector<double> out;
    for (const auto& feed : plan.feeds)
        if (leg_index < 0 || feed.leg_index == leg_index)
            out.push_back(feed.at_s / 60);
    return out;
}

std::vector<double> km_of(const Plan& plan) {
    std::vector<double> out;
    for (const auto& feed : plan.feeds)
        out.push_back(std::round(10 * feed.km) / 10);
    return out;
}

const FeedItem& first_item(const Plan& plan) {
    REQUIRE(!plan.feeds.empty());
    REQUIRE(!plan.feeds.front().items.empty());
    return plan.feeds.front().items.front();
}

constexpr char own_gel[] =
    R"({"group":"mine","foods":[{"id":"my_gel","name":"My gel","label":"gel","form":"gel","serving_g":35,"smallest":1,
    "energy_kcal":100,"carb_g":25,"sugars_g":9,"glucose_g":17,"fructose_g":8,"fibre_g":0,"fat_g":0,"protein_g":0,
    "sodium_mg":45,"caffeine_mg":0,"water_g":9.6,"fits":["bike","run"],"allergens":[],"needs_water":true,
    "source":"invented","locator":"invented","provenance":"read"}]})";

using Numbers = std::vector<double>;

} // namespace

TEST_CASE("own lines: a rhythm stays between its edges, by the clock or by the road", "[own]") {
    CHECK(minutes_of(taken({"bike every 20min from 0:40 to 1:20: 2 swallows iso"})) == Numbers{40, 60, 80});
    CHECK(km_of(taken({"run each station from km 4 to km 8: 1 cup water"})) == Numbers{4, 6, 8});
    CHECK(km_of(taken({"run every 2nd station to km 8: 1 cup water"})) == Numbers{4, 8});
    // Between 10 and 30 minutes every runner of this plan is between km 1 and km 8.
    for (const double km : km_of(taken({"run each station from 0:10 to 0:30: 1 cup water"})))
        CHECK((km > 1 && km < 8));
    const auto by_road = taken({"bike every 10min from km 30 to km 60: 2 swallows iso"});
    for (const double km : km_of(by_road))
        CHECK((km >= 30 && km <= 60.5)); // moments are whole minutes: half a minute is 0.3 km
    CHECK(by_road.feeds.size() >= 4);
}

TEST_CASE("own lines: a beat that is left out is skipped, and a moved one is where it is said", "[own]") {
    CHECK(minutes_of(taken(
              {"bike every 20min from 0:40 to 1:40: 2 swallows iso (not at 1:00: hands on the bar)"})) ==
          Numbers{40, 80, 100});
    CHECK(
        minutes_of(taken({"bike every 20min from 0:40 to 1:20: 2 swallows iso (0:57 before the descent)"})) ==
        Numbers{40, 57, 80});
}

TEST_CASE("2026-11 own lines: a stop that a plan prints was no time of a leg: it is read, and breaks no rule",
          "[own]") {
    const Typed bars{{"--hands", {"none"}}};
    const std::string feed = "bike 0:30 1:00: gel_isotonic + 3 swallows B1";
    const auto broken = [](const Plan& plan) {
        return std::any_of(plan.broken_rules.begin(), plan.broken_rules.end(), [](const auto& breach) {
            return breach.text.find("hands stay on the bar") != std::string::npos;
        });
    };
    CHECK(broken(taken({feed}, bars)));
    const auto standing =
        taken({feed + " (stop 20 s, at a station or where it is safe; not at 0:45: a bend)"}, bars);
    CHECK_FALSE(broken(standing));
    REQUIRE(standing.lines.size() == 1);
    CHECK(standing.lines[0].stop);
    CHECK(minutes_of(standing) == Numbers{30, 60});
}

TEST_CASE("own lines: each leg drinks from its own vessel", "[own]") {
    CHECK(first_item(taken({"bike 0:30: 2 swallows iso"})).from == "B1");
    CHECK(first_item(taken({"run 0:10: 2 swallows iso"})).from == "flask");
    CHECK(first_item(taken({"in T2: 2 swallows iso"})).from == "T2 bottle");
    CHECK(first_item(taken({"in T2: gel_25"})).from == "transition");
    CHECK(first_item(taken({"run km 5: gel_25"})).from == "belt");
    CHECK(first_item(taken({"bike 0:30: gel_25"})).from == "pocket");
    CHECK(first_item(taken({"run each station: 1 cup water"})).from == "station");
}

TEST_CASE("own lines: the second bottle is drunk once the first is empty", "[own]") {
    const auto plan = taken({"bike every 10min to 0:30: 6 swallows iso"}, {{"--bottles", {"2x500ml"}}});
    std::vector<std::string> from;
    for (const auto& feed : plan.feeds)
        from.push_back(feed.items.front().from);
    CHECK(from == std::vector<std::string>{"B1", "B1", "B2"}); // 180, 360, and 540 ml are more than 500
    REQUIRE(plan.mix.size() == 2);
    CHECK(plan.mix[0].volume_ml == 500);
    CHECK(plan.mix[1].volume_ml == 250); // filled to half
}

TEST_CASE("own lines: what bottles hold is named once, and lines drink the drink that they name", "[own]") {
    const auto plan = taken({"bike 0:30: 3 swallows water", "bike 1:00: 3 swallows iso"});
    REQUIRE(plan.mix.size() == 2);
    CHECK(plan.mix[0].add.empty()); // B1: water, as the first line says
    CHECK_FALSE(plan.mix[1].add.empty());
    const auto recipe =
        taken({"bike 0:30: 3 swallows B1", "B1: 30 g iso drink + 0.5 g salt, then water to 375 ml"});
    REQUIRE(recipe.mix.size() == 1);
    CHECK(recipe.mix[0].volume_ml == 375);
    const auto salt_water = taken({"bike 0:30: 3 swallows B1", "B1: 0.5 g salt"});
    CHECK(salt_water.totals.carb_g == 0);
    CHECK(salt_water.totals.sodium_mg > 0);
}

TEST_CASE("own lines: legs of one kind are told apart by their number", "[own]") {
    const Typed legs{{"--distance", {}}, {"--legs", {"run:10km,bike:40km,run:5km"}}};
    const auto second = taken({"run 2 km 2: gel_25"}, legs);
    REQUIRE(second.feeds.size() == 1);
    CHECK(second.feeds[0].leg_index == static_cast<int>(second.durations.size()) - 1);
    CHECK_THROWS_WITH(taken({"run 3 km 2: gel_25"}, legs), Contains("this day has 2 of run"));
    CHECK_THROWS_WITH(taken({"bike 0:30: gel_25"}, {{"--distance", {}}, {"--legs", {"run:10km"}}}),
                      Contains("this day has no bike"));
}

TEST_CASE("own lines: one moment on two lines is one feed with the sums of both", "[own]") {
    const auto apart = taken({"bike 0:30: gel_25"}),
               both = taken({"bike 0:30: gel_25", "bike 0:30: 3 swallows iso"});
    REQUIRE(both.feeds.size() == 1);
    CHECK(both.feeds[0].items.size() == 2);
    CHECK(both.feeds[0].carb_g > apart.feeds[0].carb_g);
    CHECK(both.feeds[0].fluid_ml.count() == Approx(apart.feeds[0].fluid_ml.count() + 90)); // three of 30 ml
}

TEST_CASE("own lines: a short name is the food that a plan of ours would take", "[own]") {
    CHECK(first_item(taken({"bike 0:30: gel"})).food == "gel_25");
    CHECK(first_item(taken({"bike 0:30: 2 gels"})).amount == 2);
    CHECK(first_item(taken({"bike 0:30: bar"})).food == "energy_bar");
    CHECK(first_item(taken({"bike 0:30: 3 swallows iso drink"})).food ==
          "isotonic_powder"); // and no ready drink
    auto with_own = day({"bike 0:30: gel"});
    with_own.own_foods = {Document("mine.json", own_gel)};
    CHECK(first_item(answer(read_ask(with_own)).plan).food ==
          "my_gel"); // the athlete's own before the pantry's
}

TEST_CASE("own lines: what cannot be is told with the line and what is allowed", "[own]") {
    const auto refused = [](const char* line, const Typed& more = {}) -> std::string {
        try {
            taken({line}, more);
        } catch (const Error& error) {
            CHECK(error.faults.size() == 1);
            CHECK_THAT(error.what(), Contains(std::string(line).substr(0, 4)));
            return error.what();
        }
        return "";
    };
    CHECK_THAT(refused("bike 1:00: 1/2 swallows iso"), Contains("swallows and cups come whole"));
    CHECK_THAT(refused("bike 1:00: isotonic_powder"), Contains("say how many swallows or cups"));
    CHECK_THAT(refused("bike 1:00: 3 swallows manna"), Contains("no food of the pantry"));
    CHECK_THAT(refused("bike 1:00: 3 swallows B4", {{"--bottles", {"2x500ml"}}}),
               Contains("there are B1, B2"));
    CHECK_THAT(refused("bike 1:00: 3 swallows B4", {{"--bottles", {"500ml"}}}), Contains("there is B1"));
    CHECK_THAT(refused("run each station: 1 cup water", {{"--stations", {}}}),
               Contains("this leg has no stations"));
    CHECK_THAT(refused("bike every 15min from 6:00: 3 swallows iso"), Contains("never comes on this leg"));
    CHECK_THAT(refused("run each station from km 30: 1 cup water"), Contains("never comes on this leg"));
    CHECK_THAT(refused("bike km 91: gel_25"), Contains("the bike has 90.0 km"));
    CHECK_THAT(refused("bike 9:00: gel_25"), Contains("the bike is over before"));
}
