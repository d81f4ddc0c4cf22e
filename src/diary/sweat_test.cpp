#include "tuck/sweat_test.hpp"

#include "base/sources.hpp"
#include "body/sweat_salt.hpp"
#include "diary/session.hpp"
#include "diary/weighing.hpp"
#include "tuck/diary.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

using namespace diary;

// Borders of the believable, our choice: the highest rate on record is 5.73 L/h (one of 506, Baker 2016), the
// largest loss that was seen in an elite marathon 9.8 % (Beis 2012).
constexpr double most_ml_per_h = figure("test.most_ml_per_h"), most_gain_kg = figure("test.most_gain_kg"),
                 most_loss_share = figure("test.most_loss_share");
constexpr double good_minutes = figure("test.good_minutes"), good_scale_kg = figure("test.good_scale_kg");
constexpr double cool_c = 15;

std::string why_implausible(const SweatTest& test, const SweatTestResult& result) {
    if (result.mass_change_kg >= most_gain_kg)
        return fmt::format("a gain of {:.2f} kg in one session is not believable; check the two weights",
                           result.mass_change_kg);
    if (-result.mass_change_kg > most_loss_share * test.before_kg)
        return fmt::format("a loss of {:.2f} kg is more than {:.0f} % of body mass; check the two weights",
                           -result.mass_change_kg, 100 * most_loss_share);
    if (result.sweat_ml_per_h > most_ml_per_h)
        return fmt::format(
            "this makes {:.2f} L/h of sweat; allowed up to {:g} L/h: check weights and minutes",
            result.sweat_ml_per_h / 1000, most_ml_per_h / 1000);
    if (result.sweat_ml <= 0)
        return fmt::format("this makes {:.0f} ml of sweat, less than nothing; check the weights and what was "
                           "drunk and eaten",
                           result.sweat_ml);
    return {};
}

void warn(const SweatTest& test, SweatTestResult& result) {
    const auto add = [&result](const char* code, Severity severity, const char* text) {
        result.warnings.push_back({code, severity, text});
    };
    if (test.after_kg > test.before_kg)
        add("mass_gain", Severity::danger,
            "You weighed more after than before: you drank more than you lost. In a long race that is the "
            "dangerous mistake. Drink to thirst, and less than this.");
    else if (result.replaced_share > 1)
        add("over_drinking", Severity::caution,
            "You drank more than you sweated. Drink to thirst, and less than this.");
    if (result.water_change_pct < -4)
        add("water_loss", Severity::caution,
            "You lost over 4 % of your body mass in water. Go slower or cooler next time, and drink to "
            "thirst earlier; do not make it up in one go.");
}

void advise(const SweatTest& test, SweatTestResult& result) {
    auto& advice = result.advice;
    if (test.minutes < good_minutes)
        advice.push_back("Go for 60 minutes or more: the scale's step weighs less then.");
    if (test.scale_kg > good_scale_kg + 1e-9)
        advice.push_back("A scale that shows 50 g or less would halve the error.");
    if (test.urine_ml == 0)
        advice.push_back(
            "Empty the bladder first. If you must go on the way, go, and measure it or repeat the "
            "test another day: never hold it and never go dry for a test.");
    if (test.temperature_c < cool_c)
        advice.push_back("In the cool a field test is 14 to 41 % off (Cheuvront 2002): test again in race "
                         "weather.");
    if (test.indoors && !test.fan)
        advice.push_back("Indoors without a fan you sweat more than on the road: repeat it with a fan or "
                         "outdoors.");
    advice.push_back("Weigh with bare skin, dried off, both times; weigh bottles before and after.");
    advice.push_back("Two or three tests in the weather of the race tell more than one.");
}

void judge_sodium(const SweatTest& test, SweatTestResult& result) {
    if (!test.sodium)
        return;
    const auto reading = read_sodium(*test.sodium);
    result.sodium_mmol_per_l = reading.mmol_per_l;
    result.sodium_error_mmol_per_l = z95 * reading.sd_mmol_per_l;
    if (!test.sodium->site.empty())
        result.because.push_back(
            {fmt::format("patch on the {}: {:.0f} mmol/L there, {:.0f} for the whole body", test.sodium->site,
                         test.sodium->mmol_per_l, reading.mmol_per_l),
             reading.source});
}

/// As the plan would see it with this one test in the diary.
void look_ahead_to(const Athlete& athlete, const SweatTest& test, const std::vector<double>& temperatures_c,
                   SweatTestResult& result) {
    DiaryEntry entry;
    entry.id = 1;
    entry.what = test;
    std::vector<Sport> sports{test.sport};
    if (test.sport != Sport::swim)
        sports.push_back(test.sport == Sport::bike ? Sport::run : Sport::bike);
    for (const Sport sport : sports)
        for (const double temperature_c : temperatures_c) {
            Athlete now = with_learned(athlete, learn({entry}, athlete, {temperature_c, sport}));
            now.learned_sweat->run_factor.reset(); // that of `sport` stands for it
            now.mass_kg = test.before_kg;
            SweatTest then = test;
            then.temperature_c = temperature_c;
            then.indoors = then.fan = false;
            if (sport != test.sport) {
                then.sport = sport;
                then.power_w = then.distance_m = then.energy_kcal = std::nullopt;
            }
            result.outlook.push_back(four_hours_of(now, then));
        }
}

} // namespace

SweatTestResult judge_sweat_test(const Athlete& athlete, const SweatTest& test,
                                 const std::vector<double>& temperatures_c) {
    const auto model = model_session(athlete, test);
    SweatTestResult out;
    out.energy_kcal = model.energy_kcal;
    out.not_sweat_g = not_sweat_g(model.energy_kcal);
    out.sweat_ml = sweat_ml(test, model.energy_kcal);
    out.sweat_ml_per_h = out.sweat_ml * 60 / test.minutes;
    out.error_ml_per_h = z95 * sweat_sd_ml_per_h(test, model.energy_kcal);
    out.mass_change_kg = test.after_kg - test.before_kg;
    out.mass_change_pct = 100 * out.mass_change_kg / test.before_kg;
    // Water made by burning and lost with the breath included; what was eaten counts as solid.
    out.water_change_ml = 1000 * out.mass_change_kg + out.not_sweat_g - test.food_g - test.clothes_g;
    out.water_change_pct = out.water_change_ml / (10 * test.before_kg);
    out.replaced_share = out.sweat_ml > 0 ? test.drank_ml / out.sweat_ml : 0;
    out.modelled_ml_per_h = model.sweat_ml_per_h;
    out.implausible = why_implausible(test, out);
    out.because = {
        {"sweat = before - after + drunk + eaten - urine - stool + sweat in clothes - breath and fuel",
         "Baker 2017 (table 3)"},
        {fmt::format("breath and fuel: {:.0f} g, 0.20 g for each of {:.0f} kcal", out.not_sweat_g,
                     out.energy_kcal),
         "Cheuvront & Montain 2017"}};
    out.because.insert(out.because.end(), model.because.begin(), model.because.end());
    out.assumptions = model.assumptions;
    judge_sodium(test, out);
    if (!out.implausible.empty())
        return out;
    look_ahead_to(athlete, test, temperatures_c, out);
    warn(test, out);
    advise(test, out);
    return out;
}

std::vector<std::string> sweat_without_scales() {
    return {
        "Drink to thirst on your long sessions and note what you drank: bottle, volume, minutes, weather.",
        "Note after each: thirst from 0 to 10, colour of the urine, how you felt.",
        "Little thirst and pale urine: that was enough. Never force more.",
        "Three sessions in race weather show what you drink by thirst; plan no more than that."};
}

std::vector<std::string> sweat_patch_sites() {
    std::vector<std::string> names;
    for (const auto& site : body::patch_sites())
        names.push_back(site.name);
    return names;
}

} // namespace tuck
