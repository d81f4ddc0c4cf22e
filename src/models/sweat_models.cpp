// Sweat rates, and the arithmetic of a sweat test.
#include "body/energy.hpp"
#include "body/exchange.hpp"
#include "body/sun.hpp"
#include "body/sweat.hpp"
#include "body/water.hpp"
#include "models/entry.hpp"

namespace tuck::registry {
namespace {

double work_sweat(const Given& g) {
    const double required = g["Ereq_W_m2"];
    const double capacity = g.positive("Emax_W_m2");
    const std::string& equation = g.word("equation");
    if (equation == "shapiro") {
        return body::work_sweat_shapiro(required, capacity);
    }
    if (equation == "corrected") {
        return body::work_sweat_corrected(required, capacity);
    }
    if (equation == "line_cool") {
        return body::work_sweat_line_cool(required, capacity);
    }
    if (equation == "line_sun") {
        return body::work_sweat_line_sun(required, capacity);
    }
    return body::work_sweat_line(required, capacity);
}

ModelResult work_sweat_result(const Given& g) {
    const double rate = work_sweat(g);
    return flagged(rate, rate >= 0, "below zero: no sweat is needed, the equation has left its range");
}

double land_sweat(const Given& g) {
    body::LandHeat heat;
    heat.metabolic_w = g.not_negative("metabolic_w");
    heat.mechanical_w = g.not_negative("mechanical_w");
    heat.mass_kg = g.positive("mass_kg");
    heat.height_m = g.positive("height_m");
    heat.air_c = g.temperature("Ta_C");
    heat.humidity_pct = g.humidity();
    heat.air_speed_m_s = g.not_negative("Va_m_s");
    const auto posture = g.word("posture") == "seated" ? body::Stance::seated : body::Stance::standing;
    heat.solar_w_per_m2 =
        g.not_negative("sun_W_m2") * body::absorbed_share_of_sun(posture, g["altitude_deg"]);
    heat.shell_m2_k_per_w = 0.155 * g.not_negative("shell_clo");
    heat.minutes = g.between("minutes", 0, 1440);
    return body::land_sweat_l_per_h(heat);
}

body::Weighing weighing(const Given& g) {
    body::Weighing w;
    w.before_kg = g.positive("pre_kg");
    w.after_kg = g.positive("post_kg");
    w.drink_kg = g.not_negative("drink_kg");
    w.food_kg = g.not_negative("food_kg");
    w.urine_kg = g.not_negative("urine_kg");
    w.stool_kg = g.not_negative("stool_kg");
    w.energy_kcal = g.not_negative("energy_kcal");
    return w;
}

ModelResult sweat_test(const Given& g) {
    const double loss_kg = body::sweat_loss_kg(weighing(g));
    const bool possible = loss_kg >= 0;
    return {{{"sweat_kg", loss_kg}, {"sweat_l_per_h", loss_kg / g.positive("hours")}},
            possible,
            possible ? "" : "below zero: the weighing does not add up"};
}

} // namespace

std::vector<Model> sweat_models() {
    return {
        {"run_sweat",
         "Mean sweat rate of running on level ground.",
         "L/h",
         {in("mass_kg", "kg", 50, 90), or_else(in("height_m", "m", 1.5, 2.0), "1.75"),
          in("speed_kmh", "km/h", 8.5, 15), in("Ta_C", "C", 18, 28)},
         "our heat balance fitted to Sawka et al. 2007 (ACSM), Table 3, whose 24 cells are from memory "
         "(within 0.012 L/h); athletes differ by an SD of 45 %, Barnes 2019",
         run<[](const Given& g) {
             return body::run_sweat_l_per_h(g.positive("mass_kg"), g.positive("height_m"),
                                            g.not_negative("speed_kmh"), g.temperature("Ta_C"));
         }>},
        {"land_sweat",
         "Mean sweat rate of any leg on land, from heat, air speed and humidity.",
         "L/h",
         {in("metabolic_w", "W", 300, 1600), or_else(in("mechanical_w", "W", 0, 400), "0"),
          in("mass_kg", "kg", 50, 90), or_else(in("height_m", "m", 1.5, 2.0), "1.75"),
          in("Ta_C", "C", 10, 38), in("RH_pct", "%", 10, 90), in("Va_m_s", "m/s", 1, 12),
          or_else(in("sun_W_m2", "W/m2", 0, 1200), "0"), or_else(in("altitude_deg", "degrees", 5, 90), "45"),
          or_else(word("posture", {"standing", "seated"}), "standing"),
          or_else(in("shell_clo", "clo", 0, 2), "0.45"), or_else(in("minutes", "min", 0, 600), "0")},
         "heat balance: breath, storage and efficiency of sweating from ISO 7933:2004, convection from "
         "ASHRAE, sun from ASHRAE 55-2017, kit and cool skin of 0.45 clo for a runner and 0.8 for a rider "
         "(ours, by measured groups); in heat up to a fifth more (Junge 2016, nine trials), at most 1.25 L/h "
         "per m2. minutes: mean from rest on, 0 for a body that is warm. Athletes differ by an SD of 45 % "
         "(Barnes 2019)",
         run<land_sweat>},
        {"swim_sweat",
         "Mean sweat rate of swimming.",
         "L/h",
         {or_else(in("mass_kg", "kg", 50, 90), "72.7"), in("water_C", "C", 23, 32),
          or_else(in("speed_m_s", "m/s", 0.8, 1.6), "1.1")},
         "Macaluso et al. 2011 (5 km at race pace, 0.48 +- 0.28 L/h at 23 C, 0.76 +- 0.36 at 27, 1.25 +- "
         "0.37 at 32 C), a parabola between and beyond; in proportion to energy (Kimber 2002), theirs taken "
         "at 1.1 m/s (our choice)",
         run<[](const Given& g) {
             const double metabolic_w =
                 body::swim_metabolic_power_w(g.positive("speed_m_s"), g.positive("mass_kg"));
             return body::swim_sweat_l_per_h(metabolic_w, g.between("water_C", 0, 45));
         }>},
        {"work_sweat",
         "Sweat rate of people at work in the heat; not for racing.",
         "g/(m2 h)",
         {in("Ereq_W_m2", "W/m2", 50, 360), in("Emax_W_m2", "W/m2", 20, 525),
          or_else(word("equation", {"shapiro", "corrected", "line", "line_cool", "line_sun"}), "line")},
         "Shapiro 1982; Gonzalez et al. 2009 and 2012 (abstracts; standard error of the line below 100 g/(m2 "
         "h))",
         run<work_sweat_result>},
        {"respiratory_water",
         "Water lost with the breath.",
         "g/min",
         {in("vo2_l_min", "L/min", 0, 6), in("Pa_mmHg", "mmHg", 0, 44)},
         "Mitchell et al. 1972, as quoted in a public R package",
         run<[](const Given& g) {
             return body::respiratory_water_g_per_min(g.not_negative("vo2_l_min"), g.not_negative("Pa_mmHg"));
         }>},
        {"sweat_test",
         "Sweat lost between two weighings.",
         "kg",
         {in("pre_kg", "kg", 30, 150), in("post_kg", "kg", 30, 150),
          or_else(in("drink_kg", "kg", 0, 15), "0"), or_else(in("food_kg", "kg", 0, 5), "0"),
          or_else(in("urine_kg", "kg", 0, 3), "0"), or_else(in("stool_kg", "kg", 0, 1), "0"),
          or_else(in("energy_kcal", "kcal", 0, 12000), "0"), or_else(in("hours", "h", 0.5, 17), "1")},
         "Baker et al. 2017, Table 3; loss that is not sweat 0.20 g/kcal, Cheuvront & Montain 2017",
         run<sweat_test>},
        {"not_sweat",
         "Mass lost without sweating: breath water and carbon dioxide less oxygen.",
         "kg",
         {in("energy_kcal", "kcal", 0, 12000)},
         "Cheuvront & Montain 2017 (0.20 g/kcal, as told by the authors)",
         run<[](const Given& g) {
             body::Weighing nothing;
             nothing.energy_kcal = g.not_negative("energy_kcal");
             return -body::sweat_loss_kg(nothing);
         }>},
    };
}

} // namespace tuck::registry
