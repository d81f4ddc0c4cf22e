// Quantities as people write them, into the units of the structs. Independent of the locale.
//
// Every function throws std::invalid_argument whose text says what is wrong and what is allowed. A bare
// number is refused wherever its unit could be mistaken; so are signs, exponents, "nan", "inf" and anything
// left over.
#pragma once

#include "base/clock.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::io {

/// "68kg", "150lb", "11st 4lb" (1 lb = 0.45359237 kg, 1 st = 14 lb).
double mass_kg(const std::string& text);
/// "120g", "1.2kg", "4oz" (1 oz = 28.349523125 g).
double grams(const std::string& text);
/// "400mg", "1.2g".
double milligrams(const std::string& text);
/// "900kcal", "3800kJ" (1 kcal = 4.184 kJ).
double energy_kcal(const std::string& text);
/// As printed on a US label, 21 CFR 101.9(b)(5)(viii): 1 oz = 28 g; 1 fl oz = 30 ml, and tsp, tbsp, cup.
double us_label_grams(const std::string& text);
double us_label_volume_ml(const std::string& text);
/// An energy as it was given: kcal, or kJ.
struct LabelEnergy {
    std::optional<double> kcal, kj;
};
LabelEnergy label_energy(const std::string& text);
/// "22C", "75F", "-3 °C". The only quantity that may be negative.
double temperature_c(const std::string& text);
/// "60%", "60".
double humidity_pct(const std::string& text);
/// "3m/s", "12km/h", "8mph".
double wind_m_s(const std::string& text);
/// What the sky lets through: a share of a clear sky's sun, or radiation on level ground.
struct SunLight {
    std::optional<double> share, w_m2;
};
/// "none", "hazy", "half", "full" (0, 0.25, 0.5 and 1 of a clear sky), or "600W/m2".
SunLight sun_light(const std::string& text);
/// Where the wind comes from, degrees clockwise from north: "240deg", "240", "SW", "WSW".
double direction_deg(const std::string& text);
/// "10km", "10k", "750m", "6.2mi" (1.609344 km), "400yd" (0.9144 m).
double distance_m(const std::string& text);
/// "52:30" (min:s), "1:05:00" (h:min:s), "90min", "2.5h", "1h30", "45s".
double duration_s(const std::string& text);
/// The same in minutes, "90" too; and in hours.
double minutes(const std::string& text);
double hours(const std::string& text);
/// "220W", "220".
double power_w(const std::string& text);
/// "148bpm", "148".
double beats_per_min(const std::string& text);
/// "0.9L/h", "900ml/h", "30floz/h" (US fluid ounce, 29.5735 ml).
double rate_ml_per_h(const std::string& text);
/// "60g/h".
double rate_g_per_h(const std::string& text);
/// "150mg".
double caffeine_mg(const std::string& text);
/// "45mmol/L", "1000mg/L" (22.99 mg of sodium per mmol).
double sodium_mmol_per_l(const std::string& text);
/// "750ml", "0.75L", "24floz", of a volume "24oz" too.
double volume_ml(const std::string& text);
/// "178cm", "1.78m", "70in", "5'9\"", "5ft 9in".
double length_m(const std::string& text);
/// "4:45/km", "7:40/mi".
double pace_s_per_km(const std::string& text);
/// "1:50/100m", "1:40/100yd".
double swim_speed_m_s(const std::string& text);
/// Minutes after midnight of "07:30", "7:30am", "7 pm"; 00:00 to 23:59.
int clock_min(const std::string& text);
/// "YYYY-MM-DD" as it stands, where the calendar has such a day (ISO 8601).
std::string calendar_date(const std::string& text);
/// "34": a plain number without a unit (an age).
double plain_number(const std::string& text, const std::string& what);
/// "yes" or "no".
bool yes_or_no(const std::string& text);
/// "10000": digits only.
int whole_number(const std::string& text);
/// "2x750ml": twice 750 ml.
std::vector<double> count_and_volume(const std::string& text);
/// "2x750ml", "750ml,500ml" or both, in their order.
std::vector<double> volumes_ml(const std::string& text);
/// The parts of a comma list without surrounding blanks. Throws on an empty part.
std::vector<std::string> comma_list(const std::string& text);

using tuck::duration_text; // duration_s reads it back

} // namespace tuck::io
