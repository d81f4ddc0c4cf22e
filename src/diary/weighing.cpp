#include "diary/weighing.hpp"

#include "base/sources.hpp"
#include "body/sweat_salt.hpp"
#include "body/water.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::diary {

namespace {

constexpr double not_sweat_g_per_kcal = figure("test.not_sweat_g_per_kcal");
// Its parts are about 0.07 g/kcal of gas and up to 0.13 of breath, less in humid air: one SD, our choice.
constexpr double not_sweat_cv = figure("test.not_sweat_cv");
constexpr double bottle_cv = figure("test.bottle_cv");
constexpr double minutes_sd = 0.29; // rounding to a minute
constexpr double patch_limits = figure("test.patch_limits_mmol_per_l");

} // namespace

double not_sweat_g(double energy_kcal) {
    return not_sweat_g_per_kcal * energy_kcal;
}

double sweat_ml(const SweatTest& test, double energy_kcal) {
    body::Weighing weighing;
    weighing.before_kg = test.before_kg;
    weighing.after_kg = test.after_kg;
    weighing.drink_kg = test.drank_ml / 1000;
    weighing.food_kg = test.food_g / 1000;
    weighing.urine_kg = test.urine_ml / 1000;
    weighing.stool_kg = test.stool_g / 1000;
    weighing.energy_kcal = energy_kcal;
    // Sweat in the clothes left the body too: weighed with them on, the body seems heavier by it.
    return 1000 * body::sweat_loss_kg(weighing) + test.clothes_g;
}

double sweat_sd_ml_per_h(const SweatTest& test, double energy_kcal) {
    const double hours = test.minutes / 60;
    const double scale_g = 1000 * test.scale_kg / std::sqrt(6.0); // two readings, each rounded
    const double bottles_g = bottle_cv * test.drank_ml;
    const double other_g = not_sweat_cv * not_sweat_g(energy_kcal);
    const double time_g = std::abs(sweat_ml(test, energy_kcal)) * minutes_sd / test.minutes;
    return std::sqrt(scale_g * scale_g + bottles_g * bottles_g + other_g * other_g + time_g * time_g) / hours;
}

SodiumReading read_sodium(const SodiumTest& test) {
    SodiumReading out{test.mmol_per_l, repeat_sodium_cv * test.mmol_per_l, source::own_input};
    if (test.site.empty())
        return out;
    for (const auto& site : body::patch_sites())
        if (site.name == test.site) {
            out.mmol_per_l = *body::whole_body_sodium_from_patch(test.site, test.mmol_per_l);
            const double limits = site.spread_95 > 0 ? site.spread_95 : patch_limits;
            out.sd_mmol_per_l = std::hypot(repeat_sodium_cv * out.mmol_per_l, limits / 1.96);
            out.source = site.source;
        }
    return out;
}

} // namespace tuck::diary
