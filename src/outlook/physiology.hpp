// Constants of a simulated day, used by every target of the engine; values and sources: tuck/figures.hpp. No
// functions that run: this header is also read by code that is compiled for other processors.
#pragma once

#include "tuck/figures.hpp"

namespace tuck::outlook {

consteval float value(std::string_view id) {
    return static_cast<float>(figure(id));
}

// Stomach. Emptied = rate x volume, slower the stronger the content: rate = emptying / (1 + (c/c0)^2), c in
// g/ml. Fitted to Mitchell 1989 (150 ml every 15 min for 2 h: 1210, 1186, 1050, 889 ml emptied of 0, 6, 12
// and 18 % carbohydrate). Gastric juice dilutes (40 ml at rest, from memory).
inline constexpr float emptying_per_min = value("stomach.emptying_per_min");
inline constexpr float half_strength_g_per_ml = value("stomach.half_strength_g_per_ml");
inline constexpr float juice_ml = value("stomach.juice_ml");
// A loaded intestine holds the stomach back; at this load it shuts (our choice).
inline constexpr float shut_ml = value("gut.shut_ml"), shut_g = value("gut.shut_g");
// Intestine, per minute: water 1 L/h at most (0.8-1.2, coaching figures); glucose path 60 g/h, fructose path
// 45 (Jeukendrup 2014: 60 single, 105 multiple). Rates of the uncapped part: our choice.
inline constexpr float water_uptake_per_min = value("gut.water_per_min");
inline constexpr float water_uptake_ml_per_min = value("gut.water_ml_per_h") / 60;
inline constexpr float sugar_uptake_per_min = value("gut.sugar_per_min");
inline constexpr float glucose_g_per_min = value("gut.glucose_g_per_min");
inline constexpr float fructose_g_per_min = value("gut.fructose_g_per_min");

// Fuel. Energy per gram as in the body stage; water made by burning likewise.
inline constexpr float kcal_per_g_carb = value("fuel.kcal_per_g_carb");
inline constexpr float kcal_per_g_fat = value("fuel.kcal_per_g_fat");
inline constexpr float water_per_g_carb = value("fuel.water_per_g_carb");
inline constexpr float water_per_g_fat = value("fuel.water_per_g_fat");
inline constexpr float least_carb_share = value("fuel.least_carb_share");
inline constexpr float liver_share = value("fuel.liver_share"); // of the glycogen burnt while both last
// Stores give all that is asked down to half of the ordinary ones, then in proportion, and fat makes up the
// rest; as in the body stage. Between two measurements that one line cannot both meet: at 75 % of VO2max
// muscle gave 0.47 times as much from a mean of 95 mmol/kg (dry) as from 539 (Spencer 1992: 182 -> 7 and 725
// -> 353 in 37 min), at 57 % far less late than early while carbohydrate burnt fell little (Watt 2002). The
// half: our choice.
inline constexpr float sparing_from = value("fuel.sparing_from");

// Sweat sodium rises with the rate within a person, in a straight line (Buono 2008); half as fast as the rate
// in proportion (our choice: Holmes 2016 has 31 -> 49 mmol/L from easy to time trial).
inline constexpr float sodium_with_rate = value("sweat.sodium_with_rate");
inline constexpr float sweat_potassium_mmol_per_ml = value("sweat.potassium_mmol_per_l") / 1000;
inline constexpr float mmol_per_mg_sodium = 1 / value("physics.sodium_mg_per_mmol");
// Dry people sweat less: 5 % less for each percent of body mass beyond 3 % (size from memory, Sawka 1985).
inline constexpr float less_sweat = value("sweat.less_when_dry"), dry_from = value("sweat.dry_from");
inline constexpr float least_sweat = value("sweat.least_when_dry");

// Serum sodium (Nguyen & Kurtz 2003/2005), mmol/L.
inline constexpr float kurtz_offset = value("serum.kurtz_offset"), kurtz_slope = value("serum.kurtz_slope");

// How blood sodium is held, per minute, from the water that is free of salt. The balance alone is right for
// who keeps or loses water within some three hours; for who gained 2 % of mass it was then 2.6 +- 0.5 mmol/L
// too low (Baker 2008), and 70 % of those who gain in races stay at 135 or above (Noakes 2005). So only
// dilution by water that was gained is answered at once: nothing to the first 1.5 mmol/L of it (from memory:
// the hormone's threshold lies some 2 % below the usual), and beyond it stores give sodium, the less the
// emptier they are (Noakes 2005: over 500 mmol; the rate fitted to Baker) and the kidney lets water go. Over
// hours stores drip sodium into any dilution, and draw it off thick blood faster (both after the fields: 330
// and 1,089 finishers of long triathlons have an SD of 3.1 and 4.2 mmol/L, Sharwood 2002, Danz 2016; the
// balance alone gives 5 and 7; who dilutes without a gain is seldom low, Almond 2005).
inline constexpr float answered_mmol_per_l = value("serum.answered_mmol_per_l");
inline constexpr float stores_give_per_min = value("serum.stores_give_per_min");
inline constexpr float stores_mmol = value("serum.stores_mmol");
inline constexpr float stores_drip_per_min = value("serum.stores_drip_per_min");
inline constexpr float stores_take_per_min = value("serum.stores_take_per_min");
// At most 300 ml/h: a third of the 878-1,043 ml/h of athletes at rest who had drunk 3.4 L (Speedy 2001, fluid
// load); racing holds it back (the third: our choice).
inline constexpr float water_let_go_per_min = value("serum.let_go_per_min");
inline constexpr float most_let_go_ml_per_min = value("serum.most_let_go_ml_per_min");
// Other urine of a racing kidney (from memory: half a millilitre a minute, two fifths as salty as the body's
// water).
inline constexpr float urine_ml_per_min = value("serum.urine_ml_per_min");
inline constexpr float urine_mmol_per_ml = value("serum.urine_mmol_per_ml");
inline constexpr float body_mmol_per_ml = value("serum.body_mmol_per_ml"); // (140 + 23.8) / 1.03 / 1000
// People answer from not at all to twice as well (our choice; Noakes 2005: some fail to).
inline constexpr float best_defence = value("serum.best_defence");

// Thirst: 2 mmol/L above the own set point (osmotic threshold, 1-2 % of tonicity, textbooks, from memory), or
// 3 % of body mass down whatever the sodium; what is missing is drunk over an hour (our choice).
inline constexpr float thirsty_mmol_per_l = value("thirst.from_mmol_per_l");
inline constexpr float thirsty_loss = value("thirst.loss"), make_up_min = value("thirst.make_up_min");
// Plain water that nobody is thirsty for: half is left at no loss, none at 1 % of mass (our choice).
inline constexpr float left_at_none = value("thirst.left_at_none");
inline constexpr float none_left_loss = value("thirst.none_left_loss");

inline constexpr float shortest_stretch_log = -0.7f, longest_stretch_log = 0.9f;
inline constexpr float leg_correlation_root = 0.70710678f; // legs correlate 0.5, as in the effort stage

} // namespace tuck::outlook
