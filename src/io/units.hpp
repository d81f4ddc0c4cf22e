// Quantities as people write them, into the units of the structs. Independent of the locale.
//
// Every function throws std::invalid_argument whose text says what is wrong and what is allowed. A bare
// number is refused wherever its unit could be mistaken; so are signs, exponents, "nan", "inf" and anything
// left over.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace tuck::io {

/// "68kg", "150lb" (1 lb = 0.45359237 kg).
double mass_kg(const std::string& text);
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
/// "10km", "750m", "6.2mi" (1.609344 km), "400yd" (0.9144 m).
double distance_m(const std::string& text);
/// "52:30" (min:s), "1:05:00" (h:min:s), "90min", "2.5h", "45s".
double duration_s(const std::string& text);
/// "220W", "220".
double power_w(const std::string& text);
/// "0.9L/h", "900ml/h", "30floz/h" (US fluid ounce, 29.5735 ml).
double rate_ml_per_h(const std::string& text);
/// "60g/h".
double rate_g_per_h(const std::string& text);
/// "150mg".
double caffeine_mg(const std::string& text);
/// "45mmol/L", "1000mg/L" (22.99 mg of sodium per mmol).
double sodium_mmol_per_l(const std::string& text);
/// "750ml", "0.75L", "24floz".
double volume_ml(const std::string& text);
/// "178cm", "1.78m", "70in".
double length_m(const std::string& text);
/// "4:45/km", "7:40/mi".
double pace_s_per_km(const std::string& text);
/// "1:50/100m", "1:40/100yd".
double swim_speed_m_s(const std::string& text);
/// Minutes after midnight of "07:30", 00:00 to 23:59.
int clock_min(const std::string& text);
/// "YYYY-MM-DD" as it stands, where the calendar has such a day (ISO 8601).
std::string calendar_date(const std::string& text);
/// "34": a plain number without a unit (an age).
double plain_number(const std::string& text, const std::string& what);
/// "10000": digits only.
int whole_number(const std::string& text);
/// "2x750ml": twice 750 ml.
std::vector<double> count_and_volume(const std::string& text);
/// "2x750ml", "750ml,500ml" or both, in their order.
std::vector<double> volumes_ml(const std::string& text);
/// The parts of a comma list without surrounding blanks. Throws on an empty part.
std::vector<std::string> comma_list(const std::string& text);

/// "52:30", "1:05:00": the shortest form that duration_s reads back, to the second.
std::string duration_text(double seconds);

} // namespace tuck::io
