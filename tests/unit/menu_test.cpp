// What may be eaten and drunk on the move: the contract of schedule/menu.hpp, and the figures of
// tuck/figures.hpp.
#include "places.hpp"
#include "schedule/menu.hpp"
#include "schedule/supplies.hpp"
#include "stage_examples.hpp"
#include "tuck/ask.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace tuck;
using namespace tuck::schedule;
using Catch::Contains;

namespace {

const Pantry& pantry() {
    static const Pantry all = io::load_pantry(places::foods());
    return all;
}

Weather air(double temperature_c) {
    Weather weather;
    weather.temperature_c = temperature_c;
    return weather;
}

Menu menu_of(const Athlete& athlete, const IntakeLimits& limits = {}, double temperature_c = 15) {
    return make_menu(athlete, air(temperature_c), limits, pantry());
}

bool has(const std::vector<Portion>& portions, const std::string& id) {
    return std::any_of(portions.begin(), portions.end(),
                       [&id](const Portion& p) { return p.food->id == id; });
}

/// Everybody's powders left out.
Athlete without_powders() {
    Athlete athlete;
    for (const auto& [id, food] : pantry().foods)
        if (food.form == Form::powder && food.makes_ml)
            athlete.avoid.push_back(id);
    return athlete;
}

Plan plan_of(const Typed& more) {
    Ask ask;
    ask.pantry = places::foods();
    ask.options = {
        {"--distance", {"middle"}}, {"--mass", {"70kg"}}, {"--temperature", {"20C"}}, {"--days", {"0"}}};
    for (const auto& [option, texts] : more)
        ask.options[option] = texts;
    return answer(read_ask(ask)).plan;
}

} // namespace

TEST_CASE("who has no powder drinks 60 g of sugar and 1.5 g of salt a litre", "[menu]") {
    const auto menu = menu_of(without_powders());
    REQUIRE(menu.bottles.size() == 2); // and water
    const auto& home = menu.bottles[0];
    REQUIRE(home.mix_g_per_ml.size() == 2);
    CHECK(home.mix_g_per_ml[0].first->id == "sucrose");
    CHECK(1000 * home.mix_g_per_ml[0].second == Approx(60));
    CHECK(1000 * home.mix_g_per_ml[1].second == Approx(1.5));
    CHECK(1000 * home.carb_g == Approx(60).margin(1)); // sugar is carbohydrate
    CHECK(menu.bottles[1].carb_g == 0);
    auto no_fructose = IntakeLimits();
    no_fructose.fructose_path_g = 0; // half of sugar is fructose
    CHECK(menu_of(without_powders(), no_fructose).bottles.size() == 1);
    auto no_sugar = without_powders();
    no_sugar.avoid.push_back("sucrose");
    CHECK(menu_of(no_sugar).bottles.size() == 1);
}

TEST_CASE("a plan of sugar and salt is weighed out in grams and spoons", "[menu]") {
    std::vector<std::string> avoid;
    for (const auto& id : without_powders().avoid)
        avoid.push_back(id);
    std::string words;
    for (const auto& id : avoid)
        words += (words.empty() ? "" : ",") + id;
    const auto plan = plan_of({{"--avoid", {words}}});
    REQUIRE(!plan.mix.empty());
    CHECK_THAT(plan.mix[0].text, Contains("sugar") && Contains("tablespoon") && Contains("salt"));
    const double g_per_l = 1000 * plan.mix[0].add.at(0).grams / plan.mix[0].volume_ml;
    CHECK(std::abs(g_per_l - 60) < 6); // weighed in steps of 5 g
}

TEST_CASE("salt is told in parts of a level teaspoon of 6 g", "[menu]") {
    const auto text_of = [](const char* grams) {
        return plan_of({{"--take",
                         {"bike 0:30: 3 swallows B1",
                          std::string("B1: 30 g iso drink + ") + grams + " g salt, then water to 375 ml"}}})
            .mix.at(0)
            .text;
    };
    CHECK_THAT(text_of("1"), Contains("(a pinch)"));      // less than a fifth of it
    CHECK_THAT(text_of("1.5"), Contains("1/4 teaspoon")); // a quarter is 1.5 g
    CHECK_THAT(text_of("3"), Contains("1/2 teaspoon"));
    CHECK_THAT(text_of("6"), Contains("1 teaspoon"));
    CHECK_THAT(text_of("1"), Contains("3 level tablespoons")); // 10 g each
    const auto half =
        plan_of({{"--take", {"bike 0:30: 3 swallows B1", "B1: 15 g iso drink, then water to 375 ml"}}})
            .mix.at(0)
            .text;
    CHECK_THAT(half, Contains("1 1/2 level tablespoons"));
    const auto least =
        plan_of({{"--take", {"bike 0:30: 3 swallows B1", "B1: 5 g iso drink, then water to 375 ml"}}})
            .mix.at(0)
            .text;
    CHECK_THAT(least, Contains("1/2 level tablespoon"));
}

TEST_CASE("who asks for some foods only gets no others, by id or by group", "[menu]") {
    Athlete athlete;
    athlete.only = {"gels"};
    const auto menu = menu_of(athlete);
    CHECK(menu.solids.empty());
    CHECK(!menu.gels.empty());
    CHECK(menu.bottles.size() == 1); // water is for everybody
    athlete.only = {"energy_bar"};
    const auto bar = menu_of(athlete);
    REQUIRE(bar.solids.size() == 1);
    CHECK(bar.solids[0].food->id == "energy_bar");
    CHECK(bar.gels.empty());
}

TEST_CASE("what melts is left at home from 25 C", "[menu]") {
    for (const auto& [id, food] : pantry().foods) {
        if (!food.melts || (food.form != Form::bar && food.form != Form::solid))
            continue;
        Athlete athlete;
        athlete.like = {id};
        INFO(id);
        CHECK(has(menu_of(athlete, {}, 24.9).solids, id) == has(menu_of(athlete, {}, 10).solids, id));
        CHECK_FALSE(has(menu_of(athlete, {}, 25).solids, id));
    }
}

TEST_CASE("no solid food on a short ride, and on the run only where it was rehearsed", "[menu]") {
    IntakeLimits limits;
    limits.solids = false;
    CHECK(menu_of({}, limits).solids.empty());
    const auto chewed = [](const Portion& p) { return p.solid; };
    const auto unrehearsed = menu_of({}).run_food;
    CHECK(std::none_of(unrehearsed.begin(), unrehearsed.end(), chewed));
    limits.solids_on_run = true;
    Athlete athlete;
    athlete.like = {"orange_segments"};
    const auto menu = menu_of(athlete, limits);
    CHECK(std::any_of(menu.run_food.begin(), menu.run_food.end(), chewed));
}

TEST_CASE("a drink above 8 % is planned only after it was rehearsed", "[menu]") {
    Athlete athlete;
    athlete.like = {"highcarb_powder"};
    IntakeLimits limits;
    for (const auto& drink : menu_of(athlete, limits).bottles)
        CHECK(drink.carb_g <= 0.08 + 1e-9);
    limits.strong_drink = true;
    const auto bottles = menu_of(athlete, limits).bottles;
    CHECK(
        std::any_of(bottles.begin(), bottles.end(), [](const Drink& drink) { return drink.carb_g > 0.08; }));
}

TEST_CASE("what is asked for by name keeps to what may be eaten", "[menu]") {
    const auto& gel = *pantry().find("gel_25");
    CHECK(pinned_portion({}, gel, {}));
    CHECK_FALSE(pinned_portion({}, *pantry().find("isotonic_powder"), {})); // not eaten
    Athlete athlete;
    athlete.avoid = {"gels"};
    CHECK_FALSE(pinned_portion(athlete, gel, {}));
    CHECK_FALSE(served_portion(athlete, gel, {}));
    CHECK_FALSE(
        served_portion({}, *pantry().find("gel_caffeine"), {})); // nobody takes it from a table unasked
    CHECK(served_portion({}, gel, {}));
}

TEST_CASE("a drink that is no drink is nothing", "[menu]") {
    CHECK(served_drink(nullptr).carb_g == 0);
    CHECK(served_drink(pantry().find("water_tap")).carb_g == 0);
    const auto cola = served_drink(pantry().find("cola_flat"));
    CHECK(1000 * cola.carb_g == Approx(106).margin(10)); // about 10.6 g in 100 ml, as on the packet
}

TEST_CASE("a flask on a run without stations is packed, drunk from, and lasts to the slow day", "[menu]") {
    Ask ask;
    ask.pantry = places::foods();
    ask.event = Document(
        "event", R"({"legs":[{"sport":"run","distance_m":25000}],"weather":{"temperature_c":22},"days":0,
        "kit":{"run_flask_ml":500},"athlete":{"mass_kg":70}})");
    const auto plan = answer(read_ask(ask)).plan;
    double drunk_ml = 0;
    for (const auto& feed : plan.feeds)
        for (const auto& item : feed.items)
            if (item.unit == "swallow") {
                CHECK(item.from == "flask");
                drunk_ml += item.amount * 30; // a swallow
            }
    CHECK(drunk_ml > 250); // it is a warm run of two hours: more than half of the flask
    const auto& time = plan.durations.front().time;
    CHECK(drunk_ml * time.p90_s / time.p50_s <= 500);
    REQUIRE(plan.mix.size() == 1);
    CHECK(plan.mix[0].bottle == "flask");
    CHECK(plan.mix[0].volume_ml == 500);
    CHECK(std::any_of(plan.carry.begin(), plan.carry.end(),
                      [](const auto& item) { return item.unit == "flask" && item.where == "belt"; }));
}

TEST_CASE("a bar of one's own that melts comes along to 25 C", "[menu]") {
    Pantry own = pantry();
    Food soft = own.foods.at("energy_bar");
    soft.id = "own_bar";
    soft.melts = true;
    own.foods["own_bar"] = soft;
    Athlete athlete;
    athlete.like = {"own_bar"};
    CHECK(has(make_menu(athlete, air(24.9), {}, own).solids, "own_bar"));
    CHECK_FALSE(has(make_menu(athlete, air(25), {}, own).solids, "own_bar"));
}

TEST_CASE("a portion of up to 45 g is taken of a food that one asks for, of others up to 32 g", "[menu]") {
    const auto planned = [](double carb_g, bool asked_for) {
        Pantry own = pantry();
        Food bar = own.foods.at("energy_bar");
        bar.id = "own_bar";
        bar.carb_g = carb_g;
        bar.smallest = 1;
        own.foods = {{"own_bar", bar}};
        Athlete athlete;
        if (asked_for)
            athlete.like = {"own_bar"};
        return has(make_menu(athlete, air(15), {}, own).solids, "own_bar");
    };
    CHECK(planned(45, true));
    CHECK_FALSE(planned(46, true));
    CHECK(planned(32, false));
    CHECK_FALSE(planned(33, false));
}
