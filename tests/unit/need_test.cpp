// The need stage: each band of the guidance at and around its edges, rehearsals, health, caffeine, ceilings.
#include "need/guidance.hpp"
#include "stage_examples.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tuck;
using namespace tuck::example;

namespace {

/// A ride of exactly so many minutes by a rider who burns enough.
Need ride(double minutes, const Athlete& a = athlete(75, Level::keen)) {
    return need_of(a, session(LegKind::bike, minutes, minutes / 60 * 33e3, 20));
}

double rate(double minutes, const Athlete& a = athlete(75, Level::keen)) {
    return ride(minutes, a).legs[0].carb_g_per_h;
}

Athlete rehearsed(double carb_g_per_h, bool gut_trained = false) {
    Athlete a = athlete(75, Level::keen);
    a.rehearsed.carb_g_per_h = carb_g_per_h;
    a.rehearsed.gut_trained = gut_trained;
    return a;
}

Athlete coffee(double mass_kg) {
    Athlete a = athlete(mass_kg);
    a.caffeine = true;
    return a;
}

const Event long_day = race("middle", 20);

} // namespace

TEST_CASE("published guidance by duration, at and around each edge", "[need]") {
    // IOC consensus 2010, Burke 2011, Jeukendrup 2014: nothing under 45 min, a rinse to 75 min, to 30 g/h to
    // 2 h, to 60 g/h to 2.5 h, to 90 g/h beyond.
    struct Edge {
        double minutes, g_per_h;
    };
    for (const auto& [minutes, g_per_h] : {Edge{1, 0},
                                           {44, 0},
                                           {45, 0},
                                           {46, 0},
                                           {74, 0},
                                           {74.99, 0},
                                           {75, 30},
                                           {76, 30},
                                           {119, 30},
                                           {119.99, 30},
                                           {120, 60},
                                           {121, 60},
                                           {149, 60},
                                           {149.99, 60},
                                           {150, 90},
                                           {151, 90},
                                           {600, 90}}) {
        INFO(minutes << " min");
        CHECK(need::guidance_for(minutes).carb_g_per_h == g_per_h);
    }
    // Two sugars are needed from the band of 90 g/h on: one transporter carries 60 g/h (Jeukendrup 2014).
    CHECK_FALSE(need::guidance_for(149).two_sugars);
    CHECK(need::guidance_for(150).two_sugars);
    CHECK(std::string(need::guidance_for(44).text) != need::guidance_for(45).text);
}

TEST_CASE("75 minutes of likely total is the border of fuelling", "[need]") {
    for (const double minutes : {10, 44, 45, 58, 74})
        CHECK_FALSE(ride(minutes).fuelling_needed);
    for (const double minutes : {75, 76, 90, 300})
        CHECK(ride(minutes).fuelling_needed);
    // 'No food needed' is said with its reason and with what still matters.
    const auto need = ride(74);
    CHECK(says(need.because, "74 min"));
    CHECK_FALSE(need.still_matters.empty());
    CHECK(need.legs[0].carb_g_per_h == 0);
}

TEST_CASE("the duration decides, not the name of the race", "[need]") {
    // A super sprint of 2 h 10 is fuelled, a sprint of 58 minutes is not.
    Event slow = race("super-sprint"), quick = race("sprint");
    leg_of(slow, LegKind::swim).time_s = 30 * 60;
    leg_of(slow, LegKind::bike).time_s = 55 * 60;
    leg_of(slow, LegKind::run).time_s = 35 * 60;
    leg_of(slow, LegKind::t1).time_s = leg_of(slow, LegKind::t2).time_s = 5 * 60;
    CHECK(need_of(athlete(), slow).fuelling_needed);
    leg_of(quick, LegKind::swim).time_s = 11 * 60;
    leg_of(quick, LegKind::bike).time_s = 28 * 60;
    leg_of(quick, LegKind::run).time_s = 17 * 60;
    leg_of(quick, LegKind::t1).time_s = leg_of(quick, LegKind::t2).time_s = 60;
    CHECK_FALSE(need_of(athlete(), quick).fuelling_needed);
}

TEST_CASE("not rehearsed: 30 g/h under 2 h, 45 to 3 h, 60 beyond", "[need]") {
    // Common practice, no source.
    CHECK(rate(76) == 30);
    CHECK(rate(119) == 30);
    CHECK(rate(121) == 45);
    CHECK(rate(179) == 45);
    CHECK(rate(181) == 60);
    CHECK(rate(400) == 60);
}

TEST_CASE("a rehearsal lifts the rate, up to the guidance", "[need]") {
    CHECK(rate(240, rehearsed(50)) == 60); // never below what anybody may take
    CHECK(rate(240, rehearsed(70)) == 70);
    CHECK(rate(240, rehearsed(79)) == 79);
    CHECK(rate(240, rehearsed(80)) == 90);  // 90 needs a rehearsal at 80 or more
    CHECK(rate(240, rehearsed(110)) == 90); // above 90 only declared gut training
    CHECK(rate(110, rehearsed(90)) == 30);
    CHECK(rate(140, rehearsed(90)) == 60);
    // Viribay 2020: 120 g/h in gut-trained runners. Never more, and only beyond 2.5 h.
    Athlete strong = rehearsed(140, true);
    strong.threshold_power_w = 330;
    const auto need = need_of(strong, session(LegKind::bike, 240, 160e3));
    CHECK(need.limits.carb_g == 120);
    CHECK(need.legs[0].carb_g_per_h <= 120);
    CHECK(rate(140, rehearsed(140, true)) == 60);
}

TEST_CASE("nobody is asked to eat more than is burnt", "[need]") {
    // Jeukendrup 2014: less at a low absolute intensity.
    const auto event = session(LegKind::bike, 300, 75e3); // 15 km/h
    const auto body = body_of(athlete(50), event);
    const auto need = need_of(athlete(50), event);
    CHECK(need.legs[0].carb_g_per_h <= body.legs[0].carb_use_g_per_h);
}

TEST_CASE("transport limits of the gut", "[need]") {
    // Jeukendrup 2014: about 1 g/min by the glucose path; two thirds of it by the fructose path.
    CHECK(ride(240).limits.glucose_path_g == 60);
    CHECK(ride(240).limits.fructose_path_g == 40);
    Athlete intolerant = athlete();
    intolerant.health.fructose_malabsorption = true;
    CHECK(ride(240, intolerant).limits.fructose_path_g == 0);
}

TEST_CASE("some must be given no rate at all", "[need]") {
    for (const bool medicine : {true, false}) {
        Athlete a = athlete();
        (medicine ? a.health.glucose_lowering_medicine : a.health.recent_gut_illness) = true;
        for (const double minutes : {50, 240}) {
            const auto need = ride(minutes, a);
            CHECK(need.no_rate);
            CHECK(need.fuelling_needed); // never 'none needed'
            CHECK(need.legs[0].carb_g_per_h == 0);
            CHECK(says(need.warnings, medicine ? "ask_clinic" : "gut_illness"));
        }
    }
}

TEST_CASE("caffeine: off unless asked, capped, refused for some", "[need]") {
    CHECK(need_of(athlete(70), long_day).limits.caffeine_dose_mg == 0);
    // EFSA 2015: single doses to 200 mg (about 3 mg/kg) and 400 mg a day do no harm to healthy adults.
    CHECK(need_of(coffee(50), long_day).limits.caffeine_dose_mg == 150);
    CHECK(need_of(coffee(66), long_day).limits.caffeine_dose_mg == 198);
    CHECK(need_of(coffee(90), long_day).limits.caffeine_dose_mg == 200);
    Athlete morning = coffee(70);
    morning.morning_coffee_mg = 150;
    CHECK(need_of(morning, long_day).limits.caffeine_day_mg == 250);
    morning.morning_coffee_mg = 500;
    CHECK(need_of(morning, long_day).limits.caffeine_day_mg == 0);
    Athlete minor = coffee(60);
    minor.age_y = 17;
    CHECK(need_of(minor, long_day).limits.caffeine_dose_mg == 0);
    minor.age_y = 18;
    CHECK(need_of(minor, long_day).limits.caffeine_dose_mg > 0);
    Athlete pregnant = coffee(60);
    pregnant.health.pregnant_or_breastfeeding = true;
    CHECK(need_of(pregnant, long_day).limits.caffeine_dose_mg == 0);
    CHECK(says(need_of(pregnant, long_day).warnings, "ask_doctor"));
    Athlete heart = coffee(60);
    heart.health.heart_kidney_or_blood_pressure = true;
    CHECK(need_of(heart, long_day).limits.caffeine_dose_mg == 0);
}

TEST_CASE("fluid is a ceiling: never above sweat, 800 ml/h or 1.42 L/h", "[need]") {
    for (const double celsius : {5.0, 15.0, 25.0, 35.0})
        for (const double measured : {0.0, 700.0, 2500.0}) {
            Athlete a = athlete(90, Level::fast);
            if (measured > 0)
                a.sweat = MeasuredSweat{measured, Sport::run, celsius, 60.0};
            for (const double shown : {0.0, 1000.0, 2000.0}) {
                a.rehearsed.fluid_ml_per_h = shown;
                const auto body = body_of(a, race("middle", celsius));
                const auto need = need_of(a, race("middle", celsius));
                for (size_t i = 0; i < need.legs.size(); ++i) {
                    CHECK(need.legs[i].fluid_ml_per_h <= body.legs[i].sweat_ml_per_h);
                    CHECK(need.legs[i].fluid_ml_per_h <= std::max(800.0, std::min(shown, 1420.0)));
                    CHECK(need.legs[i].fluid_aim_ml_per_h <= need.legs[i].fluid_ml_per_h);
                }
            }
        }
}

TEST_CASE("stricter limits lower every ceiling and say so", "[need]") {
    const Limits stricter{0.7, {{"fluid lowered", "our choice, no source"}}};
    const auto usual = need_of(athlete(), long_day), strict = need_of(athlete(), long_day, stricter);
    for (size_t i = 0; i < usual.legs.size(); ++i) {
        CHECK(strict.legs[i].fluid_ml_per_h <= 0.7 * usual.legs[i].fluid_ml_per_h + 10); // printed in tens
        if (usual.legs[i].fluid_ml_per_h > 0)
            CHECK(says(strict.legs[i].because, "fluid lowered"));
    }
}

TEST_CASE("sodium is what a drink holds, never more than is lost", "[need]") {
    // German Nutrition Society 2020: 400-1100 mg/L in drinks, from 90 min on.
    Athlete salty = athlete(), mild = athlete();
    salty.sweat_sodium_mmol_per_l = 90;
    mild.sweat_sodium_mmol_per_l = 8;
    for (const auto& a : {salty, mild, athlete()}) {
        const auto event = race("middle", 25);
        const auto body = body_of(a, event);
        const auto need = need_of(a, event);
        for (size_t i = 0; i < need.legs.size(); ++i) {
            const double lost = body.legs[i].sweat_ml_per_h / 1000 * body.sweat_sodium_mg_per_l;
            CHECK(need.legs[i].sodium_mg_per_h <= lost);
            CHECK(need.legs[i].sodium_mg_per_h <= need.legs[i].fluid_ml_per_h * 1.1 + 300);
        }
    }
    CHECK(ride(89).legs[0].sodium_mg_per_h == 0);
}

TEST_CASE("near the border both days are told", "[need]") {
    // A ride of 74 min: a slow day passes 75 minutes; of 76: a fast day does not reach them. 40 and 200:
    // clear.
    CHECK(says(ride(74).warnings, "near_threshold"));
    CHECK(says(ride(76).warnings, "near_threshold"));
    CHECK_FALSE(says(ride(40).warnings, "near_threshold"));
    CHECK_FALSE(says(ride(200).warnings, "near_threshold"));
}

TEST_CASE("what turns between a fast and a slow day is told", "[need]") {
    // Borders: sodium from 90 min (German Nutrition Society 2020); solids on rides from 2 h, loading over 3 h
    // (practice). A given ride is 5 % unsure: 6.6 % to p10 and p90.
    CHECK(says(ride(89).warnings, "sodium_edge"));
    CHECK(says(ride(95).warnings, "sodium_edge"));
    CHECK_FALSE(says(ride(105).warnings, "sodium_edge"));
    CHECK(says(ride(115).warnings, "solids_edge"));
    CHECK(says(ride(125).warnings, "solids_edge"));
    CHECK_FALSE(says(ride(140).warnings, "solids_edge"));
    // 75 min to 120 min and beyond: 30, 45, 60 g/h unrehearsed.
    CHECK(says(ride(118).warnings, "band_edge"));
    CHECK_FALSE(says(ride(105).warnings, "band_edge"));
}

TEST_CASE("long days warn of over-drinking, minors and the old are told", "[need]") {
    CHECK_FALSE(says(ride(200).warnings, "over_drinking"));
    CHECK(says(ride(239).warnings, "over_drinking")); // a slow day of it takes longer
    CHECK(says(ride(241).warnings, "over_drinking"));
    Athlete young = athlete();
    young.age_y = 15;
    CHECK(says(ride(100, young).warnings, "minor"));
}

TEST_CASE("every rate has its reason and its source", "[need]") {
    for (const auto& name : preset_names())
        for (const auto& leg : need_of(athlete(), race(name, 25)).legs) {
            CHECK_FALSE(leg.because.empty());
            for (const auto& reason : leg.because) {
                CHECK_FALSE(reason.text.empty());
                CHECK_FALSE(reason.source.empty());
            }
        }
}
