#include "io/units.hpp"

#include "base/dates.hpp"
#include "base/day_sun.hpp"
#include "base/numbers.hpp"
#include "base/utf8.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <initializer_list>
#include <optional>
#include <stdexcept>

namespace tuck::io {

namespace {

constexpr double m_per_mile = 1609.344;
constexpr double m_per_yard = 0.9144;
constexpr double ml_per_us_floz = 29.5735;
constexpr double mg_per_mmol_sodium = 22.98977; // standard atomic weight of sodium
constexpr double kj_per_kcal = 4.184;

/// value = number * factor + offset. An empty word allows a bare number.
struct Unit {
    const char* word; // lower case, no blanks
    double factor;
    double offset = 0;
    const char* below = nullptr; // the unit that may follow, and that a bare number after it means
};
using Units = std::initializer_list<Unit>;

/// One kind of quantity: how its units are named in a message, and an example. `scale` is what the units of
/// the table are divided by.
struct Kind {
    const char* allowed;
    const char* example;
    const Units& units;
    double scale = 1;
    bool signed_number = false;
};

const Units masses_g{{"g", 1},
                     {"kg", 1000},
                     {"mg", 0.001},
                     {"oz", 28.349523125},
                     {"lb", 453.59237},
                     {"lbs", 453.59237},
                     {"st", 6350.29318, 0, "lb"},
                     {"stone", 6350.29318, 0, "lb"}};
const Units volumes_ml_of{
    {"ml", 1}, {"l", 1000}, {"cl", 10}, {"dl", 100}, {"floz", ml_per_us_floz}, {"oz", ml_per_us_floz}};
const Units us_label_masses_g{{"g", 1}, {"kg", 1000}, {"mg", 0.001}, {"oz", 28}};
const Units us_label_volumes_ml{{"ml", 1},  {"l", 1000},  {"cl", 10},  {"floz", 30},
                                {"tsp", 5}, {"tbsp", 15}, {"cup", 240}};
const Units lengths_m{{"m", 1},
                      {"cm", 0.01},
                      {"mm", 0.001},
                      {"in", 0.0254},
                      {"\"", 0.0254},
                      {"\u2033", 0.0254},
                      {"\u201d", 0.0254},
                      {"''", 0.0254},
                      {"ft", 0.3048, 0, "in"},
                      {"'", 0.3048, 0, "in"},
                      {"\u2032", 0.3048, 0, "in"},
                      {"\u2019", 0.3048, 0, "in"}};
const Units distances_m{{"m", 1},           {"km", 1000},         {"k", 1000},
                        {"mi", m_per_mile}, {"mile", m_per_mile}, {"miles", m_per_mile},
                        {"yd", m_per_yard}};
const Units energies_kcal{{"kcal", 1}, {"kj", 1 / kj_per_kcal}};
const Units temperatures_c{
    {"c", 1}, {"\u00b0c", 1}, {"f", 5.0 / 9.0, -160.0 / 9.0}, {"\u00b0f", 5.0 / 9.0, -160.0 / 9.0}};
const Units shares_pct{{"%", 1}, {"", 1}};
const Units speeds_m_s{
    {"m/s", 1}, {"km/h", 1 / 3.6}, {"kmh", 1 / 3.6}, {"kph", 1 / 3.6}, {"mph", m_per_mile / 3600}};
const Units powers_w{{"w", 1}, {"", 1}};
const Units flows_ml_per_h{{"ml/h", 1}, {"l/h", 1000}, {"floz/h", ml_per_us_floz}};
const Units rates_g_per_h_of{{"g/h", 1}};
const Units concentrations{{"mmol/l", 1}, {"mg/l", 1 / mg_per_mmol_sodium}};
const Units heart_rates{{"bpm", 1}, {"", 1}};
const Units times_s{{"s", 1}, {"min", 60, 0, "s"}, {"h", 3600, 0, "min"}};

[[noreturn]] void refuse(const std::string& text, const std::string& why) {
    throw std::invalid_argument(fmt::format("\"{}\": {}", text, why));
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Lower case (ASCII only) without blanks: "fl oz" and "FlOz" are one word.
std::string unit_word(const std::string& text) {
    std::string out;
    for (const char c : text)
        if (c != ' ')
            out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return out;
}

/// A leading number without exponent; `rest` is what follows. Returns false where there is none.
bool leading_number(const std::string& text, bool signed_number, double& value, std::string& rest) {
    const size_t sign = signed_number && !text.empty() && text[0] == '-' ? 1 : 0;
    if (text.size() <= sign || !is_digit(text[sign]))
        return false;
    const char* end = text.data() + text.size();
    const auto [after, error] = from_chars(text.data(), end, value, fast_float::chars_format::fixed);
    if (error != std::errc() || !std::isfinite(value))
        return false;
    rest.assign(after, end);
    return true;
}

const Unit* find(const Units& units, const std::string& word) {
    for (const auto& unit : units)
        if (word == unit.word)
            return &unit;
    return nullptr;
}

/// True for "68,5": the comma of many countries where the point of this program is meant.
bool has_decimal_comma(const std::string& text) {
    const auto comma = text.find(',');
    return comma != std::string::npos && comma > 0 && comma + 1 < text.size() && is_digit(text[comma - 1]) &&
           is_digit(text[comma + 1]);
}

/// What stands behind a number: a unit, and with some units a smaller one ("5 ft 9 in", "11st4").
std::optional<double> with_units(double value, const std::string& rest, const Kind& kind) {
    const auto digit = std::min(rest.find_first_of("0123456789"), rest.size());
    const Unit* unit = find(kind.units, unit_word(rest.substr(0, digit)));
    if (!unit)
        return std::nullopt;
    value = value * (unit->factor / kind.scale) + unit->offset;
    if (digit < rest.size()) {
        double more = 0;
        std::string last;
        if (!unit->below || !leading_number(rest.substr(digit), false, more, last))
            return std::nullopt;
        const Unit* below = find(kind.units, unit->below);
        const Unit* said = unit_word(last).empty() ? below : find(kind.units, unit_word(last));
        if (!said || said->factor != below->factor || more * below->factor >= unit->factor)
            return std::nullopt;
        value += more * (below->factor / kind.scale);
    }
    return value + 0.0; // -0 becomes 0
}

double quantity(const std::string& given, const Kind& kind) {
    const std::string text = trimmed(given);
    const std::string allowed =
        fmt::format("allowed: a number with {}, such as {}", kind.allowed, kind.example);
    double value = 0;
    std::string rest;
    if (!leading_number(text, kind.signed_number, value, rest)) {
        const bool negative = text.size() > 1 && text[0] == '-' && is_digit(text[1]);
        refuse(given, (negative ? "must not be negative; " : "is not a number with a unit; ") + allowed);
    }
    if (const auto whole = with_units(value, rest, kind))
        return *whole;
    if (has_decimal_comma(text))
        refuse(given, "the decimal sign is a point; " + allowed);
    if (trimmed(rest).empty())
        refuse(given, fmt::format("give a unit, {}", kind.allowed));
    refuse(given, fmt::format("\"{}\" is not a unit here; {}", trimmed(rest), allowed));
}

/// Fields of "h:mm:ss" or "m:ss": the first of one to three digits, the others of two, below 60.
/// Returns false where the text has another shape.
bool clock_fields(const std::string& text, std::vector<int>& fields) {
    size_t at = 0;
    while (true) {
        size_t end = at;
        while (end < text.size() && is_digit(text[end]))
            ++end;
        const size_t digits = end - at;
        if (digits == 0 || digits > (fields.empty() ? 3u : 2u) || (!fields.empty() && digits != 2))
            return false;
        int value = 0;
        std::from_chars(text.data() + at, text.data() + end, value);
        if (!fields.empty() && value > 59)
            return false;
        fields.push_back(value);
        if (end == text.size())
            return true;
        if (text[end] != ':')
            return false;
        at = end + 1;
    }
}

/// "4:45" before one of the words: seconds times the word's factor.
double time_per(const std::string& given, const Kind& kind) {
    const std::string text = trimmed(given);
    const auto slash = text.find('/');
    std::vector<int> fields;
    if (slash != std::string::npos && clock_fields(trimmed(text.substr(0, slash)), fields) &&
        fields.size() == 2 && fields[0] * 60 + fields[1] > 0) {
        const std::string word = unit_word(text.substr(slash + 1));
        for (const auto& unit : kind.units)
            if (word == unit.word)
                return (fields[0] * 60 + fields[1]) * unit.factor;
    }
    refuse(given, fmt::format("is not a pace; allowed: min:s {}, such as {}", kind.allowed, kind.example));
}

} // namespace

double mass_kg(const std::string& text) {
    return quantity(text, {"kg or lb", "68kg", masses_g, 1000});
}

double grams(const std::string& text) {
    return quantity(text, {"g, kg or oz", "120g", masses_g});
}

double milligrams(const std::string& text) {
    return quantity(text, {"mg or g", "400mg", masses_g, 0.001});
}

double energy_kcal(const std::string& text) {
    return quantity(text, {"kcal or kJ", "900kcal", energies_kcal});
}

double us_label_grams(const std::string& text) {
    return quantity(text, {"g, kg or oz", "40g", us_label_masses_g});
}

double us_label_volume_ml(const std::string& text) {
    return quantity(text, {"ml, L, floz, tsp, tbsp or cup", "8floz", us_label_volumes_ml});
}

LabelEnergy label_energy(const std::string& text) {
    static const Units kilojoules{{"kj", 1}};
    energy_kcal(text); // judges it
    if (unit_word(text).ends_with("kj"))
        return {std::nullopt, quantity(text, {"kJ", "1004kJ", kilojoules})};
    return {energy_kcal(text), std::nullopt};
}

double temperature_c(const std::string& text) {
    return quantity(text, {"C or F", "22C", temperatures_c, 1, true});
}

double humidity_pct(const std::string& text) {
    return quantity(text, {"%", "60%", shares_pct});
}

double wind_m_s(const std::string& text) {
    return quantity(text, {"m/s, km/h or mph", "3m/s", speeds_m_s});
}

SunLight sun_light(const std::string& text) {
    const std::string word = trimmed(text);
    for (const auto& [name, share] :
         {std::pair{"none", 0.0}, {"hazy", hazy_sun_share}, {"half", 0.5}, {"full", 1.0}})
        if (word == name)
            return {share, std::nullopt};
    double value = 0;
    std::string rest;
    if (!leading_number(word, false, value, rest) || unit_word(rest) != "w/m2")
        refuse(text, "is no sun; allowed: none, hazy, half, full, or W/m2 on level ground, such as 600W/m2");
    return {std::nullopt, value};
}

double direction_deg(const std::string& given) {
    constexpr std::array points{"N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE",
                                "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"};
    const std::string text = trimmed(given);
    for (std::size_t i = 0; i < points.size(); ++i)
        if (text == points[i])
            return 22.5 * static_cast<double>(i);
    double value = 0;
    std::string rest;
    const bool read = leading_number(text, false, value, rest);
    const auto word = unit_word(rest);
    if (!read || value > 360 || !(word.empty() || word == "deg" || word == "°"))
        refuse(given,
               "is not a direction; allowed: degrees clockwise from north, such as 240deg, or a point of "
               "the compass, such as SW");
    return value;
}

double distance_m(const std::string& text) {
    return quantity(text, {"m, km, mi or yd", "10km", distances_m});
}

double duration_s(const std::string& given) {
    const std::string text = trimmed(given);
    const char* allowed =
        "allowed: min:s, h:min:s, or a number with s, min or h, such as 52:30, 1:05:00, 90min";
    if (text.find(':') != std::string::npos) {
        std::vector<int> fields;
        if (!clock_fields(text, fields) || fields.size() > 3)
            refuse(given, fmt::format("is not a time; {}", allowed));
        double seconds = 0;
        for (const int field : fields)
            seconds = seconds * 60 + field;
        return seconds;
    }
    double value = 0;
    std::string rest;
    if (!leading_number(text, false, value, rest)) {
        const bool negative = text.size() > 1 && text[0] == '-';
        refuse(given, fmt::format("{}; {}", negative ? "must not be negative" : "is not a time", allowed));
    }
    if (const auto seconds = with_units(value, rest, {"", "", times_s}))
        return *seconds;
    refuse(given, fmt::format("{}; {}",
                              has_decimal_comma(text) ? "the decimal sign is a point"
                              : trimmed(rest).empty() ? "give a unit"
                                                      : "is not a time",
                              allowed));
}

double minutes(const std::string& text) {
    // A bare number under an option that is named for its unit.
    if (text.find_first_not_of("0123456789.") == std::string::npos)
        return plain_number(text, "a time in minutes");
    return duration_s(text) / 60;
}

double hours(const std::string& text) {
    return duration_s(text) / 3600;
}

double power_w(const std::string& text) {
    return quantity(text, {"W", "220W", powers_w});
}

double beats_per_min(const std::string& text) {
    return quantity(text, {"bpm", "148bpm", heart_rates});
}

double rate_ml_per_h(const std::string& text) {
    return quantity(text, {"ml/h, L/h or floz/h", "900ml/h", flows_ml_per_h});
}

double rate_g_per_h(const std::string& text) {
    return quantity(text, {"g/h", "60g/h", rates_g_per_h_of});
}

double caffeine_mg(const std::string& text) {
    return quantity(text, {"mg", "150mg", {{"mg", 1}}});
}

double sodium_mmol_per_l(const std::string& text) {
    return quantity(text, {"mmol/L or mg/L", "45mmol/L", concentrations});
}

double volume_ml(const std::string& text) {
    return quantity(text, {"ml, L or floz", "750ml", volumes_ml_of});
}

double length_m(const std::string& text) {
    return quantity(text, {"cm, m, in or ft", "178cm", lengths_m});
}

bool yes_or_no(const std::string& text) {
    if (text != "yes" && text != "no")
        throw std::invalid_argument(fmt::format("\"{}\" is not known; allowed: yes, no", text));
    return text == "yes";
}

double pace_s_per_km(const std::string& text) {
    static const Units lengths{{"km", 1}, {"k", 1}, {"mi", 1000 / m_per_mile}, {"mile", 1000 / m_per_mile}};
    return time_per(text, {"per km or mi", "4:45/km", lengths});
}

double swim_speed_m_s(const std::string& text) {
    static const Units lengths{{"100m", 1}, {"100yd", 1 / m_per_yard}};
    return 100 / time_per(text, {"per 100m or 100yd", "1:50/100m", lengths});
}

int clock_min(const std::string& given) {
    const std::string text = unit_word(given);
    const bool am = text.ends_with("am"), pm = text.ends_with("pm");
    const std::string clock = am || pm ? text.substr(0, text.size() - 2) : text;
    std::vector<int> fields;
    const bool shaped = clock.size() <= 5 && clock_fields(clock, fields) &&
                        (fields.size() == 2 || (fields.size() == 1 && (am || pm)));
    const bool possible = shaped && (am || pm ? fields[0] >= 1 && fields[0] <= 12 : fields[0] <= 23);
    if (!possible)
        refuse(given,
               "is not a time of day; allowed: 00:00 to 23:59, or with am or pm, such as 07:30 or 7:30am");
    const int hour = am || pm ? fields[0] % 12 + (pm ? 12 : 0) : fields[0];
    return hour * 60 + (fields.size() == 2 ? fields[1] : 0);
}

std::string calendar_date(const std::string& text) {
    if (date_of(text))
        return text;
    const bool shaped = text.size() == 10 && text.find_first_not_of("0123456789-") == std::string::npos &&
                        text[4] == '-' && text[7] == '-';
    refuse(text, std::string(shaped ? "the calendar has no such day" : "is not a date") +
                     "; allowed: year-month-day, such as 2027-06-13");
}

double plain_number(const std::string& given, const std::string& what) {
    double value = 0;
    std::string rest;
    if (leading_number(trimmed(given), false, value, rest) && rest.empty())
        return value;
    const bool comma = has_decimal_comma(given);
    refuse(given,
           (comma ? "the decimal sign is a point" : "is not " + what) + "; allowed: a number without a unit");
}

int whole_number(const std::string& given) {
    const std::string text = trimmed(given);
    int value = 0;
    const char* end = text.data() + text.size();
    const auto [after, error] = std::from_chars(text.data(), end, value);
    if (text.empty() || !is_digit(text[0]) || error != std::errc() || after != end)
        refuse(given, "is not a whole number; allowed: digits only, such as 10000");
    return value;
}

std::vector<double> count_and_volume(const std::string& given) {
    const std::string text = trimmed(given);
    const auto x = text.find('x');
    if (x != 1 || !is_digit(text[0]) || text[0] == '0')
        refuse(given, "is not a number of bottles; allowed: 1 to 9, x, and a volume, such as 2x750ml");
    return std::vector<double>(static_cast<size_t>(text[0] - '0'), volume_ml(text.substr(2)));
}

std::vector<double> volumes_ml(const std::string& text) {
    std::vector<double> out;
    const auto parts = comma_list(text);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const auto& part = parts[i];
        const bool bare = part.find_first_not_of("0123456789x") == std::string::npos;
        if (bare && i + 1 < parts.size() && is_digit(parts[i + 1][0]))
            refuse(text, "the decimal sign is a point; commas part the bottles, such as 1.5L,750ml");
        if (part.find('x') == std::string::npos) {
            out.push_back(volume_ml(part));
        } else {
            const auto some = count_and_volume(part);
            out.insert(out.end(), some.begin(), some.end());
        }
    }
    return out;
}

std::vector<std::string> comma_list(const std::string& text) {
    std::vector<std::string> out;
    size_t at = 0;
    while (true) {
        const auto comma = text.find(',', at);
        out.push_back(trimmed(text.substr(at, comma == std::string::npos ? comma : comma - at)));
        if (out.back().empty())
            refuse(text, "has an empty place; allowed: words parted by commas");
        if (comma == std::string::npos)
            return out;
        at = comma + 1;
    }
}

} // namespace tuck::io
