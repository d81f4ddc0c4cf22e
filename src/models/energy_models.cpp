// Cost of moving, gas exchange and energy.
#include "body/energy.hpp"
#include "body/oxidation.hpp"
#include "models/entry.hpp"

namespace tuck::registry {
namespace {

constexpr char acsm[] = "ACSM metabolic equations, Guidelines 10th ed., Table 6.3";
constexpr char minetti[] = "Minetti et al. 2002, J Appl Physiol 93:1039, Fig. 1";
constexpr char peronnet[] = "Peronnet & Massicotte 1991, Can J Sport Sci 16:23, table (one line through it)";

// The polynomials have one valley within their range: cut off the higher third until it is found.
template <double (*Cost)(double)>
ModelResult least_cost(const Given&) {
    double low = -0.45;
    double high = 0.45;
    while (high - low > 1e-9) {
        const double third = (high - low) / 3;
        if (Cost(low + third) < Cost(high - third)) {
            high -= third;
        } else {
            low += third;
        }
    }
    const double grade = 0.5 * (low + high);
    return {{{"grade", grade}, {"cost_J_kg_m", Cost(grade)}}, true, ""};
}

ModelResult swim_vo2(const Given& g) {
    const double vo2 = body::swim_vo2_l_per_min(g.not_negative("speed_m_s"), g.positive("mass_kg"));
    return flagged(vo2, vo2 > 0, "below zero: far too slow for this line");
}

double met_energy(const Given& g) {
    const double met = g.not_negative("met");
    const double mass_kg = g.positive("mass_kg");
    const double minutes = g.not_negative("minutes");
    return g.word("convention") == "oxygen" ? body::met_energy_oxygen_kcal(met, mass_kg, minutes)
                                            : body::met_energy_mass_kcal(met, mass_kg, minutes);
}

constexpr char all_of_the_other[] = "below zero: none of it is burnt, the equation has left its range";

double carb_oxidation_rate(const Given& g) {
    const double vo2 = g.positive("vo2_l_min");
    const double vco2 = vo2 * g.positive("rq");
    const std::string& form = g.word("form");
    if (form == "low") {
        return body::carb_oxidation_low_g_per_min(vo2, vco2);
    }
    if (form == "moderate") {
        return body::carb_oxidation_moderate_g_per_min(vo2, vco2);
    }
    return body::carb_oxidation_glucose_g_per_min(vo2, vco2);
}

ModelResult carb_oxidation(const Given& g) {
    const double rate = carb_oxidation_rate(g);
    return flagged(rate, rate >= 0, all_of_the_other);
}

ModelResult fat_oxidation(const Given& g) {
    const double vo2 = g.positive("vo2_l_min");
    const double rate = body::fat_oxidation_g_per_min(vo2, vo2 * g.positive("rq"));
    return flagged(rate, rate >= 0, all_of_the_other);
}

} // namespace

std::vector<Model> energy_models() {
    return {
        {"vo2_walk",
         "Gross oxygen uptake of walking.",
         "mL/kg/min",
         {in("speed_m_min", "m/min", 50, 100), or_else(in("grade", "1", 0, 0.25), "0")},
         acsm,
         run<[](const Given& g) {
             return body::walk_vo2_ml_per_kg_min(g.not_negative("speed_m_min"), g["grade"]);
         }>},
        {"vo2_run",
         "Gross oxygen uptake of running.",
         "mL/kg/min",
         {in("speed_m_min", "m/min", 80, 400), or_else(in("grade", "1", 0, 0.25), "0")},
         acsm,
         run<[](const Given& g) {
             return body::run_vo2_ml_per_kg_min(g.not_negative("speed_m_min"), g["grade"]);
         }>},
        {"vo2_on_foot",
         "Gross oxygen uptake of covering level ground on foot outdoors: walking to 6 km/h, running from 8, "
         "a part of the time each between.",
         "mL/kg/min",
         {in("speed_kmh", "km/h", 3, 25)},
         "Leger & Mercier 1984 (abstract; ten studies, 130 people, wind as in Pugh 1970); walking: ACSM; "
         "between: our "
         "choice, after Long & Srinivasan 2013",
         run<[](const Given& g) { return body::on_foot_vo2_ml_per_kg_min(g.not_negative("speed_kmh")); }>},
        {"vo2_cycle",
         "Gross oxygen uptake of leg cycling.",
         "mL/kg/min",
         {in("power_w", "W", 50, 200), in("mass_kg", "kg", 40, 130)},
         acsm,
         run<[](const Given& g) {
             return body::cycle_vo2_ml_per_kg_min(g.not_negative("power_w"), g.positive("mass_kg"));
         }>},
        {"run_speed_for_met",
         "Level running speed that costs a number of MET (1 MET = 3.5 mL/kg/min).",
         "m/min",
         {in("met", "MET", 5.6, 24)},
         acsm,
         run<[](const Given& g) { return 3.5 * (g.between("met", 1, 100) - 1) / 0.2; }>},
        {"vo2_swim",
         "Oxygen uptake of front crawl.",
         "L/min",
         {in("speed_m_s", "m/s", 0.8, 1.6), in("mass_kg", "kg", 50, 90)},
         "Kimber et al. 2002 (3.65 v + 0.02 m - 2.545)",
         run<swim_vo2>},
        {"swim_power",
         "Metabolic power of swimming; below 0.8 m/s the cost per metre there is held (our choice).",
         "W",
         {in("speed_m_s", "m/s", 0.8, 1.6), in("mass_kg", "kg", 50, 90)},
         "Kimber et al. 2002",
         run<[](const Given& g) {
             return body::swim_metabolic_power_w(g.not_negative("speed_m_s"), g.between("mass_kg", 20, 250));
         }>},
        {"cycle_power",
         "Metabolic power of cycling from mechanical power.",
         "W",
         {in("power_w", "W", 50, 400), or_else(in("gross_efficiency", "1", 0.18, 0.24), "0.20")},
         "Moseley & Jeukendrup 2001 (19.8 +- 0.6 %)",
         run<[](const Given& g) {
             return body::cycle_metabolic_power_w(g.not_negative("power_w"),
                                                  g.between("gross_efficiency", 0.01, 1));
         }>},
        {"efficiency_from_economy",
         "Gross efficiency of cycling from its economy.",
         "%",
         {in("economy_w_per_l_min", "W per L/min", 50, 100),
          or_else(in("kj_per_l", "kJ/L", 19.6, 21.7), "20.9")},
         "arithmetic; Lucia et al. 2002 prints both",
         run<[](const Given& g) {
             return body::efficiency_from_economy_pct(g.positive("economy_w_per_l_min"),
                                                      g.positive("kj_per_l"));
         }>},
        {"run_cost_on_slope",
         "Energy cost of running on a slope.",
         "J/kg/m",
         {in("grade", "1", -0.45, 0.45)},
         minetti,
         run<[](const Given& g) { return body::run_cost_j_per_kg_m(g.between("grade", -1, 1)); }>},
        {"walk_cost_on_slope",
         "Energy cost of walking on a slope; poor near level (2.5 for a measured 1.64).",
         "J/kg/m",
         {in("grade", "1", -0.45, 0.45)},
         minetti,
         run<[](const Given& g) { return body::walk_cost_j_per_kg_m(g.between("grade", -1, 1)); }>},
        {"run_least_cost",
         "Slope of least running cost and the cost there.",
         "1",
         {},
         minetti,
         run<least_cost<body::run_cost_j_per_kg_m>>},
        {"walk_least_cost",
         "Slope of least walking cost and the cost there.",
         "1",
         {},
         minetti,
         run<least_cost<body::walk_cost_j_per_kg_m>>},
        {"energy_per_litre_oxygen",
         "Energy per litre of oxygen.",
         "kcal/L",
         {in("rq", "1", 0.7036, 0.996)},
         peronnet,
         run<[](const Given& g) { return body::kcal_per_l_o2(g.positive("rq")); }>},
        {"carb_share_from_rq",
         "Share of energy from carbohydrate.",
         "%",
         {in("rq", "1", 0.7036, 0.996)},
         peronnet,
         run<[](const Given& g) { return 100 * body::carb_share_from_rq(g.positive("rq")); }>},
        {"energy_per_litre_oxygen_1924",
         "Energy per litre of oxygen, older table.",
         "kcal/L",
         {in("rq", "1", 0.707, 1)},
         "Lusk 1924, J Biol Chem 59:41 (one line through its ends)",
         run<[](const Given& g) { return body::kcal_per_l_o2_lusk(g.positive("rq")); }>},
        {"carb_share_from_rq_1924",
         "Share of energy from carbohydrate, older table.",
         "%",
         {in("rq", "1", 0.707, 1)},
         "Lusk 1924, J Biol Chem 59:41",
         run<[](const Given& g) { return 100 * body::carb_share_lusk(g.positive("rq")); }>},
        {"carb_oxidation",
         "Carbohydrate burnt, from gas exchange.",
         "g/min",
         {in("vo2_l_min", "L/min", 0.5, 6), in("rq", "1", 0.7, 1.0),
          or_else(word("form", {"glucose", "low", "moderate"}), "glucose")},
         "Frayn 1983 (glucose); Jeukendrup & Wallis 2005 (below 50 % and 50-75 % of VO2max; +- 0.308 g/min "
         "against carbon-13 in triathletes, Gonzalez-Haro 2019)",
         run<carb_oxidation>},
        {"fat_oxidation",
         "Fat burnt, from gas exchange.",
         "g/min",
         {in("vo2_l_min", "L/min", 0.5, 6), in("rq", "1", 0.7, 1.0)},
         "Jeukendrup & Wallis 2005 (+- 0.032 g/min against carbon-13 in triathletes, Gonzalez-Haro 2019)",
         run<fat_oxidation>},
        {"met_energy",
         "Energy from MET by two conventions that differ by 5 %.",
         "kcal",
         {in("met", "MET", 1, 24), in("mass_kg", "kg", 30, 150), in("minutes", "min", 0, 1440),
          or_else(word("convention", {"oxygen", "mass"}), "oxygen")},
         "oxygen: 3.5 mL/kg/min at 5 kcal/L, ACSM; mass: 1 kcal/kg/h, common use",
         run<met_energy>},
    };
}

} // namespace tuck::registry
