#include "io/units.hpp"

#include "base/day_sun.hpp"

#include <array>
#include <charconv>
#include <chrono>
#include <cmath>
#include <fmt/format.h>
#include <initializer_list>
#include <stdexcept>

namespace tuck::io {

namespace {

constexpr double kg_per_lb = 0.45359237;
constexpr double m_per_mile = 1609.344;
constexpr double m_per_yard = 0.9144;
constexpr double m_per_inch = 0.0254;
constexpr double ml_per_us_floz = 29.5735;
constexpr double mg_per_mmol_sodium = 22.98977; // standard atomic weight of sodium

/// value = number * factor + offset. An empty word allows a bare number.
struct Unit {
    const char* word; // lower case, no blanks
    double factor;
    double offset = 0;
};

/// One kind of quantity: how its units are named in a message, and an example.
struct Kind {
    const char* allowed;
    const char* example;
    std::initializer_list<Unit> units;
    bool signed_number = false;
};

[[noreturn]] void refuse(const std::string& text, const std::string& why) {
    throw std::invalid_argument(fmt::format("\"{}\": {}", text, why));
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(' ');
    if (first == std::string::npos)
        return {};
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
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
    const auto [after, error] = std::from_chars(text.data(), end, value, std::chars_format::fixed);
    if (error != std::errc() || !std::isfinite(value))
        return false;
    rest.assign(after, end);
    return true;
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
    if (rest.size() > 1 && rest[0] == ',' && is_digit(rest[1]))
        refuse(given, "the decimal sign is a point; " + allowed);
    const std::string word = unit_word(rest);
    for (const auto& unit : kind.units)
        if (word == unit.word)
            return value * unit.factor + unit.offset + 0.0; // -0 becomes 0
    if (word.empty())
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
    return quantity(text, {"kg or lb", "68kg", {{"kg", 1}, {"lb", kg_per_lb}, {"lbs", kg_per_lb}}});
}

double temperature_c(const std::string& text) {
    const Unit fahrenheit{"f", 5.0 / 9.0, -160.0 / 9.0};
    const Unit fahrenheit_degree{"°f", fahrenheit.factor, fahrenheit.offset};
    return quantity(text, {"C or F", "22C", {{"c", 1}, {"°c", 1}, fahrenheit, fahrenheit_degree}, true});
}

double humidity_pct(const std::string& text) {
    return quantity(text, {"%", "60%", {{"%", 1}, {"", 1}}});
}

double wind_m_s(const std::string& text) {
    return quantity(text, {"m/s, km/h or mph",
                           "3m/s",
                           {{"m/s", 1}, {"km/h", 1 / 3.6}, {"kmh", 1 / 3.6}, {"mph", m_per_mile / 3600}}});
}

SunLight sun_light(const std::string& text) {
    const std::string word = trimmed(text);
    for (const auto& [name, share] : {std::pair{"none", 0.0}, {"hazy", hazy_sun_share}, {"half", 0.5}, {"full", 1.0}})
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
    return quantity(
        text, {"m, km, mi or yd", "10km", {{"m", 1}, {"km", 1000}, {"mi", m_per_mile}, {"yd", m_per_yard}}});
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
    const std::string word = unit_word(rest);
    for (const auto& unit : {Unit{"s", 1}, Unit{"min", 60}, Unit{"h", 3600}})
        if (word == unit.word)
            return value * unit.factor;
    refuse(given, fmt::format("{}; {}", word.empty() ? "give a unit" : "is not a time", allowed));
}

double power_w(const std::string& text) {
    return quantity(text, {"W", "220W", {{"w", 1}, {"", 1}}});
}

double rate_ml_per_h(const std::string& text) {
    return quantity(
        text, {"ml/h, L/h or floz/h", "900ml/h", {{"ml/h", 1}, {"l/h", 1000}, {"floz/h", ml_per_us_floz}}});
}

double rate_g_per_h(const std::string& text) {
    return quantity(text, {"g/h", "60g/h", {{"g/h", 1}}});
}

double caffeine_mg(const std::string& text) {
    return quantity(text, {"mg", "150mg", {{"mg", 1}}});
}

double sodium_mmol_per_l(const std::string& text) {
    return quantity(text, {"mmol/L or mg/L", "45mmol/L", {{"mmol/l", 1}, {"mg/l", 1 / mg_per_mmol_sodium}}});
}

double volume_ml(const std::string& text) {
    return quantity(text, {"ml, L or floz", "750ml", {{"ml", 1}, {"l", 1000}, {"floz", ml_per_us_floz}}});
}

double length_m(const std::string& text) {
    return quantity(text, {"cm, m or in", "178cm", {{"cm", 0.01}, {"m", 1}, {"in", m_per_inch}}});
}

double pace_s_per_km(const std::string& text) {
    return time_per(text, {"per km or mi", "4:45/km", {{"km", 1}, {"mi", 1000 / m_per_mile}}});
}

double swim_speed_m_s(const std::string& text) {
    return 100 / time_per(text, {"per 100m or 100yd", "1:50/100m", {{"100m", 1}, {"100yd", 1 / m_per_yard}}});
}

int clock_min(const std::string& given) {
    const std::string text = trimmed(given);
    std::vector<int> fields;
    if (text.size() > 5 || !clock_fields(text, fields) || fields.size() != 2 || fields[0] > 23)
        refuse(given, "is not a time of day; allowed: hours and minutes from 00:00 to 23:59, such as 07:30");
    return fields[0] * 60 + fields[1];
}

std::string calendar_date(const std::string& text) {
    const std::string allowed = "allowed: year-month-day, such as 2027-06-13";
    bool shaped = text.size() == 10;
    for (size_t i = 0; shaped && i < text.size(); ++i)
        shaped = i == 4 || i == 7 ? text[i] == '-' : is_digit(text[i]);
    if (!shaped)
        refuse(text, "is not a date; " + allowed);
    const auto part = [&](size_t at, size_t length) {
        int value = 0;
        std::from_chars(text.data() + at, text.data() + at + length, value);
        return value;
    };
    const std::chrono::year_month_day day(std::chrono::year(part(0, 4)),
                                          std::chrono::month(static_cast<unsigned>(part(5, 2))),
                                          std::chrono::day(static_cast<unsigned>(part(8, 2))));
    if (!day.ok())
        refuse(text, "the calendar has no such day; " + allowed);
    return text;
}

double plain_number(const std::string& given, const std::string& what) {
    double value = 0;
    std::string rest;
    if (!leading_number(trimmed(given), false, value, rest) || !rest.empty())
        refuse(given, "is not " + what + "; allowed: a number without a unit");
    return value;
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
    for (const auto& part : comma_list(text)) {
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

std::string duration_text(double seconds) {
    const long whole = std::lround(seconds);
    if (whole < 3600)
        return fmt::format("{}:{:02}", whole / 60, whole % 60);
    return fmt::format("{}:{:02}:{:02}", whole / 3600, whole / 60 % 60, whole % 60);
}

} // namespace tuck::io
