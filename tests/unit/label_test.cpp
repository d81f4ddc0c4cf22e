// Labels in EU and US style against the rules that they follow.
#include "io/fault.hpp"
#include "io/food_check.hpp"
#include "io/label.hpp"
#include "io/units.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace tuck;
using namespace tuck::io;
using Catch::Contains;

namespace {

/// An invented gel, per 100 g, EU style.
Label gel_label() {
    Label label;
    label.id = "gel";
    label.name = "Gel";
    label.form = Form::gel;
    label.serving_g = 40;
    label.energy_kcal = 250;
    label.carbohydrate_g = 62.5;
    label.sugars_g = 25;
    label.fat_g = 0;
    label.protein_g = 0;
    label.salt_g = 0.3;
    return label;
}

/// The sample of the FDA's label (from memory): 55 g, 230 Calories, fat 8 g, sodium 160 mg, total
/// carbohydrate 37 g, fibre 4 g, sugars 12 g, protein 3 g.
Label fda_sample() {
    Label label;
    label.id = "sample";
    label.name = "Sample";
    label.form = Form::bar;
    label.style = LabelStyle::us;
    label.per = LabelPer::serving;
    label.serving_g = 55;
    label.energy_kcal = 230;
    label.fat_g = 8;
    label.sodium_mg = 160;
    label.carbohydrate_g = 37;
    label.fibre_g = 4;
    label.sugars_g = 12;
    label.protein_g = 3;
    return label;
}

bool says(const LabelFood& read, const std::string& words) {
    return std::any_of(read.assumptions.begin(), read.assumptions.end(),
                       [&](const std::string& text) { return text.find(words) != std::string::npos; });
}

} // namespace

TEST_CASE("EU label: per 100 g to one serving, salt = sodium x 2.5") {
    const auto read = food_from_label(gel_label());
    CHECK(read.food.carb_g == Approx(25));
    CHECK(read.food.energy_kcal == Approx(100));
    CHECK(read.food.sugars_g == Approx(10));
    // EU Regulation 1169/2011, Annex I: 0.3 g salt per 100 g is 120 mg sodium, 48 mg in 40 g.
    CHECK(read.food.sodium_mg == Approx(48));
    CHECK(says(read, "salt = sodium x 2.5"));
    // What is left of 40 g: 25 g carbohydrate, 0.12 g salt.
    CHECK(read.food.water_g == Approx(40 - 25 - 0.12));
    CHECK(check_food(read.food, "label", "").faults.empty());
}

TEST_CASE("EU label: carbohydrate is without fibre") {
    auto label = gel_label();
    label.fibre_g = 5;
    CHECK(food_from_label(label).food.carb_g == Approx(25));
    CHECK(food_from_label(label).food.fibre_g == Approx(2));
}

TEST_CASE("US label: total carbohydrate holds the fibre (21 CFR 101.9)") {
    const auto read = food_from_label(fda_sample());
    CHECK(read.food.carb_g == Approx(33));
    CHECK(read.food.fibre_g == Approx(4));
    CHECK(read.food.sodium_mg == Approx(160));
    CHECK(check_food(read.food, "label", "").faults.empty());
}

TEST_CASE("US label: a printed 0 is said to mean less (21 CFR 101.9)") {
    auto label = fda_sample();
    label.protein_g = 0;
    label.sodium_mg = 0;
    const auto read = food_from_label(label);
    CHECK(says(read, "protein below 0.5 g"));
    CHECK(says(read, "sodium below 5 mg"));
    CHECK_FALSE(says(read, "fat below"));
    CHECK_FALSE(says(food_from_label(gel_label()), "means less"));
}

TEST_CASE("US label: sugars rounded above the carbohydrate") {
    // 25.4 g total with 0.8 g fibre and 24.6 g sugars print 25, 1 and 25: steps of 1 g by
    // 21 CFR 101.9(c)(6), so total less fibre is 24, below the sugars.
    auto label = fda_sample();
    label.carbohydrate_g = 25;
    label.fibre_g = 1;
    label.sugars_g = 25;
    const auto read = food_from_label(label);
    CHECK(read.food.sugars_g == 24);
    CHECK(says(read, "the label is rounded"));
}

TEST_CASE("label measures of 21 CFR 101.9(b)(5)(viii)") {
    const auto us = LabelStyle::us;
    CHECK(label_volume_ml("1 fl oz", us, "--serving", 2000) == 30);
    CHECK(label_volume_ml("8floz", us, "--serving", 2000) == 240);
    CHECK(label_volume_ml("1tsp", us, "--serving", 2000) == 5);
    CHECK(label_volume_ml("1tbsp", us, "--serving", 2000) == 15);
    CHECK(label_volume_ml("1cup", us, "--serving", 2000) == 240);
    CHECK(label_mass_g("1oz", us, "--serving", 2000) == 28);
    CHECK(label_mass_g("1oz", LabelStyle::eu, "--serving", 2000) == Approx(28.349523125)); // NIST SP 811
}

TEST_CASE("amounts carry a unit and stay in range") {
    const auto eu = LabelStyle::eu;
    CHECK(label_mass_g("40g", eu, "--fat", 2000) == 40);
    CHECK(label_mass_g("0.3 g", eu, "--fat", 2000) == 0.3);
    CHECK(label_mass_g("120mg", eu, "--fat", 2000) == Approx(0.12));
    CHECK(label_amount("0.12g", milligrams, "--sodium", 5000, "mg") == Approx(120));
    CHECK(label_volume_ml("0.5l", eu, "--volume", 2000) == 500);
    for (const auto* text :
         {"40", "", "g", "40 x", "1,5g", "nang", "infg", "1e999g", "--5g", "0x10g", "-1g", "-0g"})
        CHECK_THROWS_AS(label_mass_g(text, eu, "--fat", 2000), InputError);
    CHECK_THROWS_WITH(label_mass_g("2001g", eu, "--fat", 2000),
                      Contains("--fat") && Contains("allowed 0 to 2000 g"));
}

TEST_CASE("energy in kcal or kJ") {
    CHECK(label_energy("240kcal").kcal == 240);
    CHECK(label_energy("1004 kJ").kj == 1004);
    CHECK_THROWS_WITH(label_energy("240"), Contains("give a unit, kcal or kJ"));
    // 425 kJ is what 25 g carbohydrate print (Annex XIV); a kJ is 1/4.184 kcal.
    auto label = gel_label();
    label.energy_kcal.reset();
    label.energy_kj = 1062.5;
    const auto read = food_from_label(label);
    CHECK(read.food.energy_kcal == Approx(425 / 4.184).margin(0.05));
    CHECK(says(read, "4.184"));
    CHECK(check_food(read.food, "label", "").faults.empty());
}

TEST_CASE("the split of the sugars is assumed aloud, or taken as given") {
    auto label = gel_label();
    auto read = food_from_label(label);
    CHECK(read.food.fructose_g == Approx(5)); // half of 10 g sugars: sucrose
    CHECK(read.food.glucose_g == Approx(20));
    CHECK(says(read, "half as fructose"));
    CHECK_THAT(read.food.locator, Contains("fructose assumed half of the sugars"));
    label.fructose_g = 27.5;
    read = food_from_label(label);
    CHECK(read.food.fructose_g == Approx(11));
    CHECK(read.food.glucose_g == Approx(14));
    CHECK_FALSE(says(read, "half as fructose"));
    label.fructose_g.reset();
    label.glucose_g = 35;
    CHECK_THROWS_WITH(food_from_label(label), Contains("--fructose"));
}

TEST_CASE("a drink may give its volume alone") {
    // USDA Standard Reference, weight of 1 fl oz (29.5735 ml): cola 30.7 g with 10.36 g carbohydrate per 100
    // g, apple juice 31.0 g with 11.1 g per 100 g; the ounce is printed to 0.1 g, juice also holds acids: 1
    // %.
    auto label = gel_label();
    label.form = Form::drink;
    label.per = LabelPer::serving;
    label.serving_g.reset();
    label.serving_ml = 330;
    label.carbohydrate_g = 35.49;
    CHECK(food_from_label(label).food.serving_g == Approx(330 / 29.5735 * 30.7).epsilon(0.005));
    label.serving_ml = 250;
    label.carbohydrate_g = 29.08;
    CHECK(food_from_label(label).food.serving_g == Approx(250 / 29.5735 * 31.0).epsilon(0.01));
    // The same label per 100 ml.
    label.per = LabelPer::hundred_ml;
    label.carbohydrate_g = 11.632;
    CHECK(food_from_label(label).food.carb_g == Approx(29.08));
}

TEST_CASE("no caffeine, no allergens, no fibre: said") {
    const auto read = food_from_label(gel_label());
    CHECK(read.food.caffeine_mg == 0);
    CHECK(says(read, "no caffeine given"));
    CHECK(says(read, "NO ALLERGENS given"));
    CHECK(says(read, "no fibre"));
    CHECK_FALSE(read.food.vegan);
    CHECK(read.food.needs_water);
}

TEST_CASE("all that is missing is told at once") {
    Label label;
    label.style = LabelStyle::us;
    try {
        food_from_label(label);
        FAIL("an empty label was read");
    } catch (const InputError& error) {
        for (const auto* option : {"--serving", "--energy", "--carbohydrate", "--sugars", "--fat",
                                   "--protein", "--fibre", "--sodium", "--per"})
            CHECK_THAT(error.what(), Contains(option));
    }
    label = gel_label();
    label.sodium_mg = 120;
    CHECK_THROWS_WITH(food_from_label(label), Contains("give one"));
}
