// The pantry against food tables, label rules and surveys. Foods of the USDA table are built from it, so they
// are held here against other tables, or against rows of the table that were read per 100 g.
#include "folder.hpp"
#include "io/files.hpp"
#include "io/food_check.hpp"
#include "io/pantry.hpp"
#include "places.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <sstream>
#include <unistd.h>

using namespace tuck;
using namespace tuck::io;
using Catch::Contains;
using tuck::example::Folder;

namespace {

const Pantry& pantry() {
    static const Pantry loaded = load_pantry(places::foods());
    return loaded;
}

const Food& food(const std::string& id) {
    const auto* found = pantry().find(id);
    REQUIRE(found != nullptr);
    return *found;
}

double per_100_g(const Food& food, double value) {
    return 100 * value / food.serving_g;
}

/// A sound gel, to be spoilt in one place.
Food sound_gel() {
    Food gel;
    gel.id = "test_gel";
    gel.name = "Test gel";
    gel.group = "test";
    gel.label = "gel";
    gel.form = Form::gel;
    gel.serving_g = 40;
    gel.energy_kcal = 100;
    gel.carb_g = 25;
    gel.sugars_g = 10;
    gel.glucose_g = 20;
    gel.fructose_g = 5;
    gel.sodium_mg = 50;
    gel.water_g = 15;
    gel.fits = {"bike", "run"};
    gel.source = "invented";
    gel.provenance = "computed";
    return gel;
}

std::vector<std::string> lines(const std::vector<Fault>& faults) {
    std::vector<std::string> out;
    for (const auto& fault : faults)
        out.push_back(line_of(fault));
    return out;
}

/// The one fault of the food.
std::string only_fault(const Food& food) {
    const auto check = check_food(food, "f.json", "/foods/0");
    INFO(::Catch::Detail::stringify(lines(check.faults)));
    REQUIRE(check.faults.size() == 1);
    return line_of(check.faults[0]);
}

std::string only_note(const Food& food) {
    const auto check = check_food(food, "f.json", "/foods/0");
    REQUIRE(check.faults.empty());
    INFO(::Catch::Detail::stringify(lines(check.notes)));
    REQUIRE(check.notes.size() == 1);
    return line_of(check.notes[0]);
}

} // namespace

TEST_CASE("the fourteen allergens are those of Annex II of EU Regulation 1169/2011") {
    CHECK(allergen_names() == std::vector<std::string>{"gluten", "crustaceans", "eggs", "fish", "peanuts",
                                                       "soybeans", "milk", "nuts", "celery", "mustard",
                                                       "sesame", "sulphites", "lupin", "molluscs"});
}

TEST_CASE("every form has a word and back") {
    for (const auto form : {Form::solid, Form::bar, Form::gel, Form::chew, Form::drink, Form::powder,
                            Form::tablet, Form::capsule})
        CHECK(form_from(to_string(form)) == form);
    CHECK_FALSE(form_from("Gel").has_value());
}

TEST_CASE("energy by the factors of Annex XIV of EU Regulation 1169/2011") {
    // The annex's factors give 25 g carbohydrate 425 kJ and 100 kcal: each its own, not 100 x 4.184 = 418.
    CHECK(label_energy_kj(25, 0, 0, 0) == 425);
    CHECK(label_energy_kcal(25, 0, 0, 0) == 100);
    // Fat 37 kJ and 9 kcal, protein 17 and 4, fibre 8 and 2 per g.
    CHECK(label_energy_kj(0, 1, 0, 0) == 37);
    CHECK(label_energy_kcal(0, 1, 0, 0) == 9);
    CHECK(label_energy_kj(0, 0, 1, 0) == 17);
    CHECK(label_energy_kcal(0, 0, 1, 0) == 4);
    CHECK(label_energy_kj(0, 0, 0, 1) == 8);
    CHECK(label_energy_kcal(0, 0, 0, 1) == 2);
}

TEST_CASE("every food of the pantry is sound and says where it comes from") {
    CHECK(pantry().foods.size() >= 58);
    for (const auto& [id, item] : pantry().foods) {
        INFO(id);
        CHECK(item.glucose_g + item.fructose_g <= item.carb_g + 0.0101); // two roundings to 0.01 g
        CHECK(item.source.size() > 5);
        CHECK(item.locator.size() > 5);
        // Mixed into drinks by weight, or used somewhere.
        CHECK(item.fits.empty() == (item.group == "ingredients"));
        if (item.form == Form::gel || item.form == Form::chew || item.form == Form::bar)
            CHECK(std::count(item.fits.begin(), item.fits.end(), "bike") == 1);
        if (item.needs_water)
            CHECK_FALSE(item.solid);
    }
}

TEST_CASE("rows of the USDA table, per 100 g") {
    // Standard Reference, NDB 09040 banana: energy 89 kcal, carbohydrate 22.84 less fibre 2.6, sugars 12.23,
    // sodium 1, water 74.91.
    const auto& banana = food("banana_ripe");
    CHECK(per_100_g(banana, banana.energy_kcal) == Approx(89).margin(0.5));
    CHECK(per_100_g(banana, banana.carb_g) == Approx(22.84 - 2.6).margin(0.01));
    CHECK(per_100_g(banana, banana.sugars_g) == Approx(12.23).margin(0.01));
    CHECK(per_100_g(banana, banana.sodium_mg) == Approx(1).margin(0.5));
    CHECK(per_100_g(banana, banana.water_g) == Approx(74.91).margin(0.01));
    // NDB 09421: available carbohydrate 68.3, sugars 66.5; NDB 09326: 7.2 and 6.2; NDB 19047: 77.0, Na 1240.
    const auto& date = food("date_medjool");
    CHECK(per_100_g(date, date.carb_g) == Approx(68.3).margin(0.05));
    CHECK(per_100_g(date, date.sugars_g) == Approx(66.5).margin(0.05));
    const auto& watermelon = food("watermelon");
    CHECK(per_100_g(watermelon, watermelon.carb_g) == Approx(7.2).margin(0.05));
    CHECK(per_100_g(watermelon, watermelon.sugars_g) == Approx(6.2).margin(0.05));
    const auto& pretzels = food("pretzels");
    CHECK(per_100_g(pretzels, pretzels.carb_g) == Approx(77.0).margin(0.05));
    CHECK(per_100_g(pretzels, pretzels.sodium_mg) == Approx(1240).margin(0.5));
    // Caffeine of release 26: brewed coffee 40, espresso 212, black tea 20, cola 9 mg per 100 g.
    CHECK(per_100_g(food("coffee_brewed"), food("coffee_brewed").caffeine_mg) == Approx(40).margin(0.5));
    CHECK(per_100_g(food("espresso"), food("espresso").caffeine_mg) == Approx(212).margin(0.5));
    CHECK(per_100_g(food("tea_black"), food("tea_black").caffeine_mg) == Approx(20).margin(0.5));
    CHECK(per_100_g(food("cola_flat"), food("cola_flat").caffeine_mg) == Approx(9).margin(0.5));
}

TEST_CASE("fruit against the Indian Food Composition Tables 2017") {
    // An independent table; another variety and climate: 20 % either way. E012 banana 440 kJ and 13.65 g
    // sugars (18.9 g summed carbohydrate), E057 raisins 61.51 g sugars, E019 dates 56.96 g sugars.
    const auto& banana = food("banana_ripe");
    CHECK(per_100_g(banana, banana.energy_kcal) == Approx(440 / 4.184).epsilon(0.2));
    CHECK(per_100_g(banana, banana.carb_g) == Approx(18.9).epsilon(0.2));
    CHECK(per_100_g(banana, banana.sugars_g) == Approx(13.65).epsilon(0.2));
    CHECK(per_100_g(food("raisins"), food("raisins").sugars_g) == Approx(61.51).epsilon(0.2));
    CHECK(per_100_g(food("date_medjool"), food("date_medjool").sugars_g) == Approx(56.96).epsilon(0.2));
    // Plain fruit holds next to no sodium (same table: 1 to 11 mg per 100 g).
    for (const auto* id : {"banana_ripe", "raisins", "date_small", "orange_segments", "watermelon", "grapes"})
        CHECK(per_100_g(food(id), food(id).sodium_mg) < 15);
}

TEST_CASE("drinks against what is published about them") {
    // WHO/UNICEF 2006, oral rehydration solution: sodium 75, glucose 75 mmol/l (molar masses 22.990,
    // 180.156).
    CHECK(food("ors_who").serving_ml == 1000);
    CHECK(food("ors_who").sodium_mg == Approx(75 * 22.990).margin(0.5));
    CHECK(food("ors_who").carb_g == Approx(0.075 * 180.156).margin(0.02));
    // CIQUAL 2017, code 18350: 5.26 g carbohydrate and 50.2 mg sodium per 100 g.
    const auto& ready = food("sports_drink_rtd");
    CHECK(per_100_g(ready, ready.carb_g) == Approx(5.26).margin(0.01));
    CHECK(per_100_g(ready, ready.sodium_mg) == Approx(50.2).margin(0.1));
    // Maughan 2018 (IOC): sports drinks 5-8 % carbohydrate and 10-35 mmol/l sodium.
    for (const auto* id : {"isotonic_powder", "sports_drink_rtd", "drink_home_6pct"}) {
        const auto& drink = food(id);
        const double litres = drink.makes_ml.value_or(drink.serving_ml.value_or(0)) / 1000;
        CHECK(drink.carb_g / litres / 10 >= 5);
        CHECK(drink.carb_g / litres / 10 <= 8);
        CHECK(drink.sodium_mg / 22.990 / litres >= 10);
        CHECK(drink.sodium_mg / 22.990 / litres <= 35);
    }
}

TEST_CASE("salt in tablets and capsules against the trials that used them") {
    // Hew-Butler 2006: tablets of 620 mg sodium chloride (22.990 of 58.443 g/mol is sodium).
    CHECK(food("salt_tablet").sodium_mg == Approx(620 * 22.990 / 58.443).margin(0.1));
    // Trial NCT02103491: 12 capsules held 2580 mg sodium.
    CHECK(food("salt_capsule").sodium_mg == 2580 / 12.0);
}

TEST_CASE("gels stand inside the survey of Zhang 2015") {
    // 31 ranges of gels: serving 29-120 g, carbohydrate 18-51 g, energy 78-204 kcal, 0.83-3.40 kcal/g.
    for (const auto* id : {"gel_25", "gel_isotonic", "gel_caffeine", "gel_dual", "gel_large"}) {
        const auto& gel = food(id);
        INFO(id);
        CHECK((gel.serving_g >= 29 && gel.serving_g <= 120));
        CHECK((gel.carb_g >= 18 && gel.carb_g <= 51));
        CHECK((gel.energy_kcal >= 78 && gel.energy_kcal <= 204));
        CHECK(gel.energy_kcal / gel.serving_g >= 0.83);
        CHECK(gel.energy_kcal / gel.serving_g <= 3.40);
    }
    // Only the isotonic kind is taken without water.
    CHECK(food("gel_25").needs_water);
    CHECK_FALSE(food("gel_isotonic").needs_water);
}

/// What tests/published/pantry/ranges.csv says of a food: key to lowest and highest published value.
using Ranges = std::map<std::string, std::map<std::string, std::pair<double, double>>>;

Ranges cited_ranges() {
    std::istringstream file(read_file(std::string(places::tests()) + "/published/pantry/ranges.csv"));
    std::string line, food, key, low, high;
    std::getline(file, line);
    REQUIRE(line == "food,key,low,high,source,provenance");
    Ranges out;
    while (std::getline(file, food, ',') && std::getline(file, key, ',') && std::getline(file, low, ',') &&
           std::getline(file, high, ',') && std::getline(file, line))
        out[food][key] = {std::stod(low), std::stod(high)};
    return out;
}

double value_of(const Food& food, const std::string& key) {
    const std::map<std::string, double> values{
        {"serving_g", food.serving_g}, {"energy_kcal", food.energy_kcal},
        {"carb_g", food.carb_g},       {"sugars_g", food.sugars_g},
        {"fat_g", food.fat_g},         {"protein_g", food.protein_g},
        {"sodium_mg", food.sodium_mg}, {"caffeine_mg", food.caffeine_mg},
        {"water_g", food.water_g}};
    return values.at(key);
}

TEST_CASE("2026-11 round figures from memory: each lies inside the range that it cites, and says so") {
    const auto ranges = cited_ranges();
    for (const auto& [id, keys] : ranges)
        for (const auto& [key, range] : keys) {
            INFO(id << " " << key);
            CHECK(value_of(food(id), key) >= range.first);
            CHECK(value_of(food(id), key) <= range.second);
        }
    // What stands from memory is a row of a food table, a pure substance, a recipe of ours, or has ranges.
    for (const auto& [id, food] : pantry().foods) {
        const bool elsewhere = food.source.find("USDA") == 0 || food.source == "pure substance" ||
                               food.source.find("molar masses") == 0 || food.source == "computed recipe";
        INFO(id << ": " << food.source);
        CHECK((food.provenance != "memory" || elsewhere || ranges.count(id) == 1));
    }
}

TEST_CASE("gels with both sugars: 1:0.8 and near 30 g (O'Brien 2011 studied the ratio)") {
    for (const auto* id : {"gel_dual", "gel_large"})
        CHECK(food(id).fructose_g / food(id).glucose_g == Approx(0.8).epsilon(0.01));
    CHECK(food("gel_dual").carb_g == Approx(30).margin(2));
    CHECK(food("highcarb_powder").fructose_g / food("highcarb_powder").glucose_g ==
          Approx(0.8).epsilon(0.01));
}

TEST_CASE("a sound food has nothing said about it") {
    const auto check = check_food(sound_gel(), "f.json", "/foods/0");
    CHECK(lines(check.faults).empty());
    CHECK(lines(check.notes).empty());
}

TEST_CASE("parts above the whole are refused") {
    auto gel = sound_gel();
    gel.sugars_g = 25.1;
    CHECK_THAT(only_fault(gel), Contains("/foods/0/sugars_g") && Contains("above the carbohydrate of 25 g"));
    gel = sound_gel();
    gel.fructose_g = 5.1;
    CHECK_THAT(only_fault(gel), Contains("more than the carbohydrate"));
    gel = sound_gel();
    gel.water_g = 17.5;
    CHECK_THAT(only_fault(gel), Contains("come to 42.5 g of a serving of 40 g") && Contains("per 100 g"));
    gel.water_g = 10;
    CHECK_THAT(only_note(gel), Contains("come to 35 g of a serving of 40 g"));
}

TEST_CASE("mixed-up units are named") {
    auto gel = sound_gel();
    gel.energy_kcal = 425; // the kJ of 25 g carbohydrate by Annex XIV
    CHECK_THAT(only_fault(gel), Contains("425 looks like kilojoules; give kcal (about 100)"));
    gel.energy_kcal = 418; // 100 kcal x 4.184
    CHECK_THAT(only_fault(gel), Contains("kilojoules"));
    gel.energy_kcal = 150;
    CHECK_THAT(only_fault(gel), Contains("does not follow from the parts"));
    gel = sound_gel();
    gel.sodium_mg = 0.25;
    CHECK_THAT(only_fault(gel), Contains("0.25 mg looks like grams; give mg (250)"));
    gel.sodium_mg = 20000;
    CHECK_THAT(check_food(gel, "f", "").faults.at(0).what, Contains("more than pure salt holds"));
    gel.sodium_mg = 450; // 180 mg sodium, as salt
    CHECK_THAT(only_note(gel), Contains("if it is salt, give 180"));
    gel = sound_gel();
    gel.caffeine_mg = 0.075;
    CHECK_THAT(only_fault(gel), Contains("looks like grams; give mg (75)"));
    gel = sound_gel();
    gel.serving_ml = 400;
    CHECK_THAT(only_fault(gel), Contains("40 g in 400 ml"));
}

TEST_CASE("caffeine: EFSA 2015 takes 200 mg as a safe single dose for adults") {
    auto gel = sound_gel();
    gel.caffeine_mg = 200;
    CHECK(check_food(gel, "f", "").notes.empty());
    gel.caffeine_mg = 201;
    CHECK_THAT(only_note(gel), Contains("EFSA 2015"));
    gel.caffeine_mg = 301;
    CHECK_THAT(only_fault(gel), Contains("allowed 0 to 300 mg"));
}

TEST_CASE("words, amounts and parts that are not allowed are refused") {
    auto gel = sound_gel();
    gel.serving_g = 0;
    CHECK_THAT(only_fault(gel), Contains("above 0 g"));
    gel = sound_gel();
    gel.fat_g = -1;
    CHECK_THAT(only_fault(gel), Contains("-1 is not an amount"));
    gel = sound_gel();
    gel.allergens = {"glutne"};
    CHECK_THAT(only_fault(gel), Contains("did you mean \"gluten\""));
    gel = sound_gel();
    gel.fits = {"swim"};
    CHECK_THAT(only_fault(gel), Contains("allowed: bike, run, before, after"));
    gel = sound_gel();
    gel.label = "elevenchars";
    CHECK_THAT(only_fault(gel), Contains("11 characters; allowed 1 to 10"));
    gel.label = "\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9"; // six letters in twelve bytes
    CHECK(check_food(gel, "f", "").faults.empty());
    for (const auto* id : {"", "My Gel", "gel-25", "_gel", "2gel", "g\xc3\xa9l"}) {
        gel = sound_gel();
        gel.id = id;
        CHECK_THAT(only_fault(gel), Contains("cannot be an id"));
    }
    for (const double smallest : {0.0, -0.5, 1.5}) {
        gel = sound_gel();
        gel.smallest = smallest;
        CHECK_THAT(only_fault(gel), Contains("allowed above 0 and up to 1"));
    }
}

TEST_CASE("writing a file of the pantry gives its bytes again") {
    for (const auto& path : food_files(places::foods())) {
        INFO(path);
        std::vector<Fault> faults;
        const auto file = read_food_file(path, faults);
        CHECK(lines(faults).empty());
        CHECK(food_file_text(file) == read_file(path));
        CHECK(std::filesystem::path(path).stem().string() == file.group);
    }
}

TEST_CASE("all faults of all files come in one error, each with its place") {
    const Folder folder;
    auto gel = sound_gel();
    gel.energy_kcal = 425;
    folder.write("a.json", food_file_text({"a", "", {gel, sound_gel()}}));
    folder.write("b.json", "{\"group\":\"b\",\"foods\":[{\"id\":\"x\",\"carbs_g\":1}]}");
    folder.write("c.json", "{");
    try {
        load_pantry(folder.path.string());
        FAIL("the faults went unseen");
    } catch (const InputError& error) {
        const std::string text = error.what();
        CHECK_THAT(text, Contains("a.json: /foods/0/energy_kcal: 425 looks like kilojoules"));
        CHECK_THAT(text, Contains("a.json: /foods/1/id: \"test_gel\" stands already in the group \"a\""));
        CHECK_THAT(text, Contains("b.json: /foods/0/carbs_g: is not known; did you mean \"carb_g\"?"));
        CHECK_THAT(text, Contains("b.json: /foods/0/allergens: is missing; write [] for none"));
        CHECK_THAT(text, Contains("c.json: line 1, column"));
    }
}

TEST_CASE("own foods join the pantry, or leave it as it was") {
    const Folder folder;
    auto pantry_and_mine = pantry();
    const auto path = folder.write("mine.json", food_file_text({"own", "", {sound_gel()}}));
    add_foods(pantry_and_mine, path);
    REQUIRE(pantry_and_mine.find("test_gel") != nullptr);
    CHECK(pantry_and_mine.find("test_gel")->group == "own");
    CHECK(pantry_and_mine.foods.size() == pantry().foods.size() + 1);
    CHECK_THROWS_WITH(add_foods(pantry_and_mine, path), Contains("stands already in the group \"own\""));
    CHECK(pantry_and_mine.foods.size() == pantry().foods.size() + 1);
}

TEST_CASE("a pantry that is not there is named") {
    CHECK_THROWS_WITH(pantry_folder("/nowhere/foods"), Contains("tried: /nowhere/foods"));
    CHECK_THROWS_AS(load_pantry("/nowhere/foods"), InputError);
    CHECK(load_pantry(pantry_folder()).foods.size() == pantry().foods.size());
}
