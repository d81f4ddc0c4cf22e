// Body: what each leg uses and loses.
#pragma once

#include "tuck/effort.hpp"

#include <string>
#include <vector>

namespace tuck {

struct LegBody {
    int leg_index = 0;
    LegKind kind = LegKind::bike;
    double metabolic_w = 0;
    double energy_kcal_per_h = 0;
    double carb_share = 0; // of the energy
    double carb_use_g_per_h = 0;
    double sweat_ml_per_h = 0;     // median prediction
    double sweat_p20_ml_per_h = 0; // 20th percentile
    std::vector<Reason> because;
};

struct Body {
    std::vector<LegBody> legs;
    double sweat_log_sd = 0; // between days and (without a test) between athletes
    bool sweat_measured = false;
    double sweat_sodium_mg_per_l = 0;
    bool sodium_measured = false;
    double glycogen_start_g = 0; // legs and liver, ordinary diet
    double total_body_water_l = 0;
    std::vector<Reason> sodium_because, glycogen_because, water_because;
    std::vector<std::string> assumptions;
};

/// Metabolic power, carbohydrate use and sweat of every leg. A measured sweat rate outranks the model: it
/// scales every leg by measured / modelled in the conditions of the test. Pure.
Body describe_body(const Athlete& athlete, const Event& event, const Effort& effort);

} // namespace tuck
