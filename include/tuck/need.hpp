// Need: what to take per hour of each leg, and the limits that no schedule may break.
#pragma once

#include "tuck/body.hpp"
#include "tuck/quantity.hpp"

#include <string>
#include <vector>

namespace tuck {

/// Stricter limits for a second run of the stream, asked for by the composer when the outlook shows harm.
struct Limits {
    double fluid_scale = 1.0; // of every fluid ceiling, 0..1
    std::vector<Reason> because;
};

struct LegNeed {
    int leg_index = 0;
    LegKind kind = LegKind::bike;
    double carb_g_per_h = 0;
    double fluid_ml_per_h = 0; // ceiling: 'up to'
    double fluid_aim_ml_per_h =
        0; // keeps body water within 2 % of body mass, or steady sips; at most the ceiling
    double sodium_mg_per_h = 0;
    double sweat_ml_per_h = 0; // median
    std::vector<Reason> because;
};

/// Per rolling hour [t, t + 60 min) unless said otherwise; a feed counts whole at its minute.
struct IntakeLimits {
    Grams carb_g = 60;
    Grams glucose_path_g = 60;
    Grams fructose_path_g = 40;
    Milligrams extra_sodium_mg = 300; // salt beyond what drinks and food bring
    Milligrams caffeine_dose_mg = 0;  // per hour; 0: none
    Milligrams caffeine_day_mg = 0;
    bool strong_drink = false; // above 8 % carbohydrate
    bool solids_on_run = false;
    bool solids = true; // off when the bike is short
};

struct Need {
    bool fuelling_needed = false;
    bool no_rate = false; // a clinician sets the rate, or no carbohydrate plan at all: see the warnings
    std::vector<Reason> because;
    std::vector<std::string> still_matters;
    std::vector<LegNeed> legs;
    IntakeLimits limits;
    std::vector<Warning> warnings;
    std::vector<std::string> assumptions;
};

Need state_need(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                const Limits& limits = {});

} // namespace tuck
