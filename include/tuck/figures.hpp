// The figures that a plan rests on, with the papers that they come from: one row each, read by the code.
#pragma once

#include <span>
#include <string_view>

namespace tuck {

/// How a source was seen: in itself or its abstract, in a copy or a report of it, not at all, or there is
/// none.
enum class Seen { read, second_hand, memory, practice, choice };

/// `seen` speaks of the value; the title of a paper that was not opened is from memory. Empty: not known.
struct Source {
    std::string_view key, authors;
    int year; // 0: none
    std::string_view title, doi;
    Seen seen;
};

struct Figure {
    std::string_view id; // "part.name_unit"
    double value;
    std::string_view unit;   // "1": a share or a number
    std::string_view source; // key of a Source
    std::string_view where;  // the stages that read it
    std::string_view note;
};

// clang-format off
inline constexpr Source source_table[] = {
    {"practice", "", 0, "common practice, no source", "", Seen::practice},
    {"choice", "", 0, "our choice, no source", "", Seen::choice},
    {"physics", "", 0, "physical constants and molar masses", "", Seen::memory},
    {"acsm_2007", "Sawka et al. (ACSM)", 2007, "Exercise and fluid replacement", "10.1249/mss.0b013e31802ca597", Seen::memory},
    {"acsm_heat_2007", "Armstrong et al. (ACSM)", 2007, "Exertional heat illness during training and competition", "", Seen::second_hand},
    {"baker_2008", "Baker, Lang & Kenney", 2008, "Quantitative analysis of serum sodium concentration after prolonged running in the heat", "10.1152/japplphysiol.00130.2008", Seen::read},
    {"baker_2017", "Baker", 2017, "Sweating rate and sweat sodium concentration in athletes", "10.1007/s40279-017-0691-5", Seen::memory},
    {"barnes_2019", "Barnes et al.", 2019, "Normative data for sweating rate, sweat sodium concentration, and sweat sodium loss in athletes", "", Seen::read},
    {"buono_2008", "Buono et al.", 2008, "Na+ secretion rate increases proportionally more than the Na+ reabsorption rate with increases in sweat rate", "", Seen::read},
    {"burke_2011", "Burke, Hawley, Wong & Jeukendrup", 2011, "Carbohydrates for training and competition", "", Seen::read},
    {"cheuvront_2004", "Cheuvront et al.", 2004, "Daily body mass variability and stability in active men undergoing exercise-heat stress", "", Seen::memory},
    {"dge_2020", "German Nutrition Society", 2020, "Position of the working group sports nutrition of the German Nutrition Society: fluid replacement in sports", "", Seen::read},
    {"eah_2015", "Hew-Butler et al.", 2015, "Statement of the Third International Exercise-Associated Hyponatremia Consensus Development Conference", "", Seen::read},
    {"efsa_2015", "EFSA", 2015, "Scientific opinion on the safety of caffeine", "10.2903/j.efsa.2015.4102", Seen::read},
    {"goforth_1997", "Goforth et al.", 1997, "Persistence of supercompensated muscle glycogen in trained subjects after carbohydrate loading", "", Seen::read},
    {"ioc_2010", "IOC consensus", 2010, "IOC consensus statement on sports nutrition 2010", "", Seen::second_hand},
    {"jeukendrup_2014", "Jeukendrup", 2014, "A step towards personalized sports nutrition: carbohydrate intake during exercise", "10.1007/s40279-014-0148-z", Seen::read},
    {"lara_2016", "Lara et al.", 2016, "Interindividual variability in sweat electrolyte concentration in marathoners", "", Seen::read},
    {"mantzios_2022", "Mantzios et al.", 2022, "Effects of weather parameters on endurance running performance", "10.1249/MSS.0000000000002769", Seen::read},
    {"mitchell_1989", "Mitchell et al.", 1989, "Gastric emptying: influence of prolonged exercise and carbohydrate concentration", "", Seen::read},
    {"nguyen_kurtz", "Nguyen & Kurtz", 2005, "", "", Seen::second_hand},
    {"noakes_2005", "Noakes et al.", 2005, "Three independent biological mechanisms cause exercise-associated hyponatremia", "10.1073/pnas.0509096102", Seen::read},
    {"peronnet_1991", "Peronnet & Massicotte", 1991, "Table of nonprotein respiratory quotient: an update", "", Seen::second_hand},
    {"sawka_1985", "Sawka et al.", 1985, "Thermoregulatory and blood responses during exercise at graded hypohydration levels", "", Seen::memory},
    {"speedy_2001_load", "Speedy et al.", 2001, "Response to a fluid load in athletes with a history of exercise induced hyponatremia", "", Seen::read},
    {"spencer_1992", "Spencer et al.", 1992, "", "", Seen::read},
    {"us_army", "US Army", 0, "Fluid replacement guide: 1.5 quarts an hour at most", "", Seen::second_hand},
    {"viribay_2020", "Viribay et al.", 2020, "Effects of 120 g/h of carbohydrates intake during a mountain marathon on exercise-induced muscle damage in elite runners", "", Seen::read},
    {"textbook", "", 0, "textbooks of physiology", "", Seen::memory},
};

inline constexpr Figure figure_table[] = {
    {"physics.sodium_mg_per_mmol", 22.99, "mg/mmol", "physics", "need, outlook", ""},
    {"drink.unrehearsed_ml_per_h", 800, "ml/h", "acsm_2007", "need", "0.4 to 0.8 L/h as a start"},
    {"drink.much_ml_per_h", 1000, "ml/h", "practice", "need", "a caution from here"},
    {"drink.most_ml_per_h", 1420, "ml/h", "us_army", "need", "never more"},
    {"drink.gain_of_mass", 0.01, "1", "choice", "need", "after the chance of low sodium by change of mass, Noakes 2005"},
    {"drink.light_kg", 45, "kg", "practice", "need", "more careful below, in a long race"},
    {"drink.long_h", 4, "h", "practice", "need", "over-drinking is warned of from here"},
    {"drink.steady_share", 0.75, "1", "practice", "need", "of the ceiling, where 2 % of water asks for less"},
    {"drink.loss_of_mass", 0.02, "1", "acsm_2007", "need", "loss of water that is aimed to stay within"},
    {"sodium.drink_mg_per_ml", 0.6, "mg/ml", "dge_2020", "need", "400 to 1100 mg/L"},
    {"sodium.salty_mmol_per_l", 60, "mmol/L", "lara_2016", "need", "20 % of marathon runners lie above"},
    {"sodium.extra_mg_per_h", 300, "mg/h", "practice", "need", "beyond what drinks and food bring"},
    {"sodium.from_min", 90, "min", "dge_2020", "need", ""},
    {"food.rinse_from_min", 45, "min", "ioc_2010", "need", "Jeukendrup 2014 has 30"},
    {"food.fuel_from_min", 75, "min", "ioc_2010", "need", ""},
    {"food.two_sugars_from_min", 150, "min", "burke_2011", "need", "IOC 2010 has 180"},
    {"food.unrehearsed_2h_g_per_h", 30, "g/h", "practice", "need", "before a rehearsal, under 2 h"},
    {"food.unrehearsed_3h_g_per_h", 45, "g/h", "practice", "need", "before a rehearsal, 2 to 3 h"},
    {"food.unrehearsed_long_g_per_h", 60, "g/h", "practice", "need", "before a rehearsal, beyond"},
    {"food.run_share", 2.0 / 3.0, "1", "practice", "need", "of the bike's rate after a ride; Pfeiffer 2012 shows the pattern"},
    {"food.last_run_from_min", 40, "min", "practice", "need", "a shorter one at the end: what is eaten on it comes too late"},
    {"food.solids_from_h", 2, "h", "practice", "need", "length of the ride"},
    {"food.glucose_path_g_per_h", 60, "g/h", "jeukendrup_2014", "need", ""},
    {"food.glucose_trained_g_per_h", 72, "g/h", "jeukendrup_2014", "need", "1.2 g/min, gut training declared"},
    {"food.fructose_path_g_per_h", 40, "g/h", "jeukendrup_2014", "need", ""},
    {"food.fructose_trained_g_per_h", 54, "g/h", "viribay_2020", "need", "gut training declared"},
    {"caffeine.dose_mg_per_kg", 3, "mg/kg", "efsa_2015", "need", ""},
    {"caffeine.dose_mg", 200, "mg", "efsa_2015", "need", "at once"},
    {"caffeine.day_mg", 400, "mg", "efsa_2015", "need", ""},
    {"heat.high_wbgt_c", 23, "C", "acsm_heat_2007", "need", "high risk for road races"},
    {"heat.extreme_wbgt_c", 28, "C", "acsm_heat_2007", "need", "cancel, or let people withdraw"},
    {"heat.uncompensable_wbgt_c", 32.2, "C", "acsm_heat_2007", "need", "exercise is cancelled for everybody"},
    {"plan.long_h", 3, "h", "choice", "plan", "too little to finish on is told from here"},
    {"plan.half", 0.5, "1", "choice", "plan", "of the aim"},
    {"plan.stricter_fluid", 0.7, "1", "choice", "plan", "of the planned drink, where the first plan harms"},
    {"day.forecast_error_c", 2.5, "C", "textbook", "need, outlook", "SD of a forecast some days ahead"},
    {"day.humidity_error_pct", 8, "%", "choice", "outlook", "SD beyond the temperature's share"},
    {"day.carb_share_error", 0.10, "1", "choice", "outlook", "SD of the share of energy at an intensity"},
    {"day.glycogen_log_sd", 0.20, "1", "goforth_1997", "outlook", "30 to 40 % in muscle; the liver is steadier"},
    {"day.sweat_sodium_cv", 0.35, "1", "barnes_2019", "outlook", "29 to 54 %"},
    {"day.sweat_sodium_cv_tested", 0.12, "1", "baker_2017", "outlook", "repeats 5 to 16 %"},
    {"day.serum_mmol_per_l", 140, "mmol/L", "textbook", "outlook", "at the start"},
    {"day.serum_error_mmol_per_l", 2, "mmol/L", "choice", "outlook", "SD at the start"},
    {"day.start_water_of_mass", 0.005, "1", "cheuvront_2004", "outlook", "SD at the start"},
    {"day.gut_log_sd", 0.25, "1", "choice", "outlook", "emptying and uptake between people"},
    {"day.comfort_log_sd", 0.25, "1", "choice", "outlook", "between people"},
    {"day.comfortable_ml", 600, "ml", "choice", "outlook", "in the stomach while racing"},
    {"day.usual_uptake_g_per_h", 90, "g/h", "jeukendrup_2014", "outlook", "a rehearsed rate above widens the gut"},
    {"day.missed_station_bike", 0.10, "1", "practice", "outlook", ""},
    {"day.missed_station_run", 0.03, "1", "practice", "outlook", ""},
    {"day.missed_feed", 0.05, "1", "choice", "outlook", "of what is carried"},
    {"day.late_feed", 0.15, "1", "choice", "outlook", "of what is carried, by 5 min"},
    {"day.most_drink_ml_per_h", 1200, "ml/h", "textbook", "outlook", "as the gut takes up, 0.8 to 1.2 L/h"},
    {"day.run_slower_per_wbgt", 0.0035, "1/C", "mantzios_2022", "outlook", "half of it on the bike"},
    {"day.gone_share", 0.10, "1", "spencer_1992", "outlook", "of ordinary stores: as good as empty"},
    {"day.least_telling", 0.10, "1", "choice", "outlook", "of the days: what happens less often is not named"},
    {"day.low_sodium_mmol_per_l", 135, "mmol/L", "eah_2015", "outlook", ""},
    {"stomach.emptying_per_min", 0.26, "1/min", "mitchell_1989", "outlook", "fitted: 1210, 1186, 1050, 889 ml of 0, 6, 12, 18 % in 2 h"},
    {"stomach.half_strength_g_per_ml", 0.062, "g/ml", "mitchell_1989", "outlook", "fitted alike"},
    {"stomach.juice_ml", 40, "ml", "textbook", "outlook", ""},
    {"gut.shut_ml", 600, "ml", "choice", "outlook", "at this load the stomach stays shut"},
    {"gut.shut_g", 60, "g", "choice", "outlook", "alike"},
    {"gut.water_per_min", 0.15, "1/min", "choice", "outlook", "rate of the uncapped part"},
    {"gut.water_ml_per_h", 1000, "ml/h", "textbook", "outlook", "0.8 to 1.2 L/h"},
    {"gut.sugar_per_min", 0.2, "1/min", "choice", "outlook", "rate of the uncapped part"},
    {"gut.glucose_g_per_min", 1.0, "g/min", "jeukendrup_2014", "outlook", ""},
    {"gut.fructose_g_per_min", 0.75, "g/min", "jeukendrup_2014", "outlook", "105 g/h of both"},
    {"fuel.kcal_per_g_carb", 4.0, "kcal/g", "peronnet_1991", "outlook", ""},
    {"fuel.kcal_per_g_fat", 9.74, "kcal/g", "peronnet_1991", "outlook", ""},
    {"fuel.water_per_g_carb", 0.59998, "g/g", "physics", "outlook", ""},
    {"fuel.water_per_g_fat", 1.08748, "g/g", "physics", "outlook", ""},
    {"fuel.least_carb_share", 0.05, "1", "choice", "outlook", ""},
    {"fuel.liver_share", 0.20, "1", "choice", "outlook", "of the glycogen burnt while both last"},
    {"fuel.sparing_from", 0.5, "1", "spencer_1992", "outlook", "of ordinary stores; with Watt 2002, the half our choice"},
    {"sweat.sodium_with_rate", 0.5, "1", "buono_2008", "outlook", "size our choice; Holmes 2016 has 31 to 49 mmol/L"},
    {"sweat.potassium_mmol_per_l", 5, "mmol/L", "lara_2016", "outlook", "6.0 +- 0.9; 5 in the published balance"},
    {"sweat.less_when_dry", 5, "1", "sawka_1985", "outlook", "per share of mass lost beyond dry_from"},
    {"sweat.dry_from", 0.03, "1", "sawka_1985", "outlook", "of body mass"},
    {"sweat.least_when_dry", 0.5, "1", "choice", "outlook", ""},
    {"serum.kurtz_offset", 23.8, "mmol/L", "nguyen_kurtz", "outlook", ""},
    {"serum.kurtz_slope", 1.03, "1", "nguyen_kurtz", "outlook", ""},
    {"serum.answered_mmol_per_l", 1.5, "mmol/L", "textbook", "outlook", "dilution that nothing answers"},
    {"serum.stores_give_per_min", 1.0 / 120, "1/min", "baker_2008", "outlook", "fitted: +2 % of mass ends 2.6 +- 0.5 above the balance"},
    {"serum.stores_mmol", 1000, "mmol", "noakes_2005", "outlook", "sodium that stores hold: over 500 was seen given, the size our choice"},
    {"serum.stores_drip_per_min", 1.0 / 400, "1/min", "choice", "outlook", "to any dilution, over hours; Almond 2005 bounds it"},
    {"serum.stores_take_per_min", 1.0 / 150, "1/min", "choice", "outlook", "from thick blood; fields end with an SD of 3.1 to 4.2 (Sharwood 2002, Danz 2016)"},
    {"serum.let_go_per_min", 1.0 / 90, "1/min", "choice", "outlook", "of diluted water, by the kidney"},
    {"serum.most_let_go_ml_per_min", 5, "ml/min", "speedy_2001_load", "outlook", "a third of what is seen at rest, the third our choice"},
    {"serum.urine_ml_per_min", 0.5, "ml/min", "textbook", "outlook", "a racing kidney's usual"},
    {"serum.urine_mmol_per_ml", 0.064, "mmol/ml", "textbook", "outlook", "sodium and potassium of that urine: the kidney of who works keeps salt"},
    {"serum.body_mmol_per_ml", 0.16, "mmol/ml", "nguyen_kurtz", "outlook", "sodium that a millilitre of the body holds"},
    {"serum.best_defence", 2, "1", "noakes_2005", "outlook", "people answer from not at all to twice as well, size our choice"},
    {"thirst.from_mmol_per_l", 2, "mmol/L", "textbook", "outlook", "above the own set point"},
    {"thirst.loss", 0.03, "1", "choice", "outlook", "of mass: thirsty whatever the sodium"},
    {"thirst.make_up_min", 60, "min", "choice", "outlook", ""},
    {"thirst.left_at_none", 0.5, "1", "choice", "outlook", "of plain water, without a loss"},
    {"thirst.none_left_loss", 0.01, "1", "choice", "outlook", "of mass: nothing is left from here"},
    {"limit.much_gain_caution", 0.05, "1", "choice", "outlook", "after Almond 2005, Noakes 2005"},
    {"limit.much_gain_refuse", 0.20, "1", "choice", "outlook", ""},
    {"limit.low_sodium_caution", 0.05, "1", "choice", "outlook", ""},
    {"limit.low_sodium_refuse", 0.10, "1", "choice", "outlook", ""},
    {"limit.stomach_caution", 0.10, "1", "choice", "outlook", ""},
    {"limit.water_loss_caution", 0.10, "1", "choice", "outlook", ""},
    {"limit.glycogen_caution", 0.25, "1", "choice", "outlook", ""},
};
// clang-format on

/// The value of a row; an id that is not there does not compile.
consteval double figure(std::string_view id) {
    for (const auto& row : figure_table)
        if (row.id == id)
            return row.value;
    throw "no such figure"; // never runs: stops the compiler
}

inline std::span<const Figure> figures() {
    return figure_table;
}
inline std::span<const Source> sources() {
    return source_table;
}
/// Null where no source has this key.
const Source* find_source(std::string_view key);
/// "read", "second hand", "memory", "common practice" or "our choice".
std::string_view to_string(Seen seen);

} // namespace tuck
