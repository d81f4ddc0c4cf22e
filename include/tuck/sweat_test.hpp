// A sweat test: weighing before and after a session, and what it says.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/body.hpp"
#include "tuck/event.hpp"
#include "tuck/quantity.hpp"
#include "tuck/reason.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck {

/// Sweat sodium as a laboratory gave it. `site` empty: whole body; else the place of the patch (see
/// sweat_patch_sites()).
struct SodiumTest {
    double mmol_per_l = 0;
    std::string site;
};

/// What was weighed and counted; best without clothes, dried off, bladder emptied first.
struct SweatTest {
    double before_kg = 0, after_kg = 0;
    Millilitres drank_ml = 0; // what stayed in
    Grams food_g = 0;
    Millilitres urine_ml = 0; // what left
    Grams stool_g = 0;
    Grams clothes_g = 0; // sweat that the clothes held, if weighed in them
    double minutes = 60;
    double scale_kg = 0.1; // smallest step that the scale shows
    Sport sport = Sport::bike;
    bool race_effort = false;
    double temperature_c = 20;
    std::optional<double> humidity_pct, wind_m_s, water_temperature_c;
    std::optional<double> sun_share; // of a clear sky, 0..1; absent: half
    bool indoors = false;
    bool fan = false;
    std::optional<double> power_w;     // mean, cycling
    std::optional<double> distance_m;  // covered
    std::optional<double> energy_kcal; // used; outranks every estimate, 0: no correction
    std::optional<SodiumTest> sodium;
};

/// Sweat to expect on a day of this weather at the effort of the test.
struct SweatOutlook {
    double temperature_c = 0;
    double sweat_ml_per_h = 0; // median
    double sweat_p20_ml_per_h = 0;
    double drink_up_to_ml_per_h = 0; // the ceiling of a plan for four hours
    Sport sport = Sport::bike;
    double sweat_low_ml_per_h = 0, sweat_high_ml_per_h = 0; // of 90 days in 100
};

struct SweatTestResult {
    std::string implausible; // not empty: why this cannot have happened; the rest is then not to be used
    Millilitres sweat_ml = 0;
    double sweat_ml_per_h = 0;
    double error_ml_per_h = 0; // 90 % of tests with this scale and these bottles lie within +- this
    Grams not_sweat_g = 0;     // breath and fuel burnt
    double energy_kcal = 0;
    double mass_change_kg = 0, mass_change_pct = 0;
    Millilitres water_change_ml = 0; // of body water, in % of body mass
    double water_change_pct = 0;
    double replaced_share = 0;               // of the sweat, by drink
    double modelled_ml_per_h = 0;            // model's mean for this session
    std::optional<double> sodium_mmol_per_l; // whole body
    double sodium_error_mmol_per_l = 0;      // 90 %
    std::vector<SweatOutlook> outlook;
    std::vector<Reason> because;
    std::vector<std::string> assumptions, advice;
    std::vector<Warning> warnings;
};

/// The arithmetic of Baker 2017 (table 3) with the mass that is no sweat taken off (Cheuvront & Montain
/// 2017), its error from scale, bottles and correction, and what it means at `temperatures_c`, in its own
/// sport and in the other one of bike and run. Pure. `athlete` gives height and level for the energy; its
/// mass is taken from the test.
SweatTestResult judge_sweat_test(const Athlete& athlete, const SweatTest& test,
                                 const std::vector<double>& temperatures_c);

/// The way without scales: for those who have none, or should not use one.
std::vector<std::string> sweat_without_scales();

/// Places of a patch whose reading can be turned into the whole body's.
std::vector<std::string> sweat_patch_sites();

} // namespace tuck
