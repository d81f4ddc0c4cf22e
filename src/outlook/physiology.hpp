// Constants of a simulated day, used by every target of the engine. No functions: this header is also read
// by code that is compiled for other processors.
#pragma once

namespace tuck::outlook {

// Stomach. Emptied = rate x volume, slower the stronger the content: rate = emptying / (1 + (c/c0)^2), c in
// g/ml. Fitted to Mitchell 1989 (150 ml every 15 min for 2 h: 1210, 1186, 1050, 889 ml emptied of 0, 6, 12
// and 18 % carbohydrate). Gastric juice dilutes (40 ml at rest, from memory).
inline constexpr float emptying_per_min = 0.26f, half_strength_g_per_ml = 0.062f, juice_ml = 40;
// A loaded intestine holds the stomach back; at this load it shuts (our choice).
inline constexpr float shut_ml = 600, shut_g = 60;
// Intestine, per minute: water 1 L/h at most (0.8-1.2, coaching figures); glucose path 60 g/h, fructose path
// 45 (Jeukendrup 2014: 60 single, 105 multiple). Rates of the uncapped part: our choice.
inline constexpr float water_uptake_per_min = 0.15f, water_uptake_ml_per_min = 1000 / 60.0f;
inline constexpr float sugar_uptake_per_min = 0.2f, glucose_g_per_min = 1.0f, fructose_g_per_min = 0.75f;

// Fuel. Energy per gram as in the body stage; water made by burning likewise.
inline constexpr float kcal_per_g_carb = 4.0f, kcal_per_g_fat = 9.74f;
inline constexpr float water_per_g_carb = 0.59998f, water_per_g_fat = 1.08748f;
inline constexpr float least_carb_share = 0.05f;
inline constexpr float liver_share = 0.20f; // of the glycogen burnt while both last (our choice)
// Stores give all that is asked down to half of the ordinary ones, then in proportion, and fat makes up the
// rest; as in the body stage. Between two measurements that one line cannot both meet: at 75 % of VO2max
// muscle gave 0.47 times as much from a mean of 95 mmol/kg (dry) as from 539 (Spencer 1992: 182 -> 7 and 725
// -> 353 in 37 min), at 57 % far less late than early while carbohydrate burnt fell little (Watt 2002). The
// half: our choice.
inline constexpr float sparing_from = 0.5f;

// Sweat sodium rises with the rate within a person, in a straight line (Buono 2008); half as fast as the rate
// in proportion (our choice: Holmes 2016 has 31 -> 49 mmol/L from easy to time trial).
inline constexpr float sodium_with_rate = 0.5f;
inline constexpr float sweat_potassium_mmol_per_ml = 5e-3f; // Lara 2016: 6.0 +- 0.9 mmol/L; 5 in the balance
inline constexpr float mmol_per_mg_sodium = 1 / 22.99f;
// Dry people sweat less: 5 % less for each percent of body mass beyond 3 % (size from memory, Sawka 1985).
inline constexpr float less_sweat = 5.0f, dry_from = 0.03f, least_sweat = 0.5f;

// Serum sodium (Nguyen & Kurtz 2003/2005), mmol/L.
inline constexpr float kurtz_offset = 23.8f, kurtz_slope = 1.03f;

// How blood sodium is held, per minute, from the water that is free of salt. The balance alone is right for
// who keeps or loses water; for who gained 2 % of mass it was 2.6 +- 0.5 mmol/L too low after some three
// hours (Baker 2008), and 70 % of those who gain in races stay at 135 or above (Noakes 2005). So nothing
// answers the first 1.5 mmol/L of dilution (from memory: the hormone's threshold lies some 2 % below the
// usual), and beyond it stores give sodium (Noakes 2005: over 500 mmol) and the kidney lets water go. Both
// rates: fitted to Baker. Thick blood is drawn off slowly (our choice: Sharwood 2002 ended at 141.8 +- 3.1
// mmol/L).
inline constexpr float answered_mmol_per_l = 1.5f;
inline constexpr float stores_give_per_min = 1 / 120.0f, stores_take_per_min = 1 / 1500.0f;
// At most 300 ml/h: a third of the 878-1,043 ml/h of athletes at rest who had drunk 3.4 L (Speedy 2001, fluid
// load); racing holds it back (the third: our choice).
inline constexpr float water_let_go_per_min = 1 / 90.0f, most_let_go_ml_per_min = 5;
// Other urine of a racing kidney, as salty as the body's water (from memory: half a millilitre a minute).
inline constexpr float urine_ml_per_min = 0.5f;
inline constexpr float body_mmol_per_ml = 0.16f; // (140 + 23.8) / 1.03 / 1000: sodium that a millilitre holds
// People answer from not at all to twice as well (our choice; Noakes 2005: some fail to).
inline constexpr float best_defence = 2;

// Thirst: 2 mmol/L above the own set point (osmotic threshold, 1-2 % of tonicity, textbooks, from memory), or
// 3 % of body mass down whatever the sodium; what is missing is drunk over an hour (our choice).
inline constexpr float thirsty_mmol_per_l = 2, thirsty_loss = 0.03f, make_up_min = 60;
// Plain water that nobody is thirsty for: half is left at no loss, none at 1 % of mass (our choice).
inline constexpr float left_at_none = 0.5f, none_left_loss = 0.01f;

inline constexpr float shortest_stretch_log = -0.7f, longest_stretch_log = 0.9f;
inline constexpr float leg_correlation_root = 0.70710678f; // legs correlate 0.5, as in the effort stage

} // namespace tuck::outlook
