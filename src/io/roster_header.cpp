#include "io/roster_header.hpp"
#include "base/utf8.hpp"

#include "io/fault.hpp"
#include "io/files.hpp"
#include "io/input_options.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <fmt/format.h>
#include <sstream>
#include <utility>

namespace tuck::io {

namespace {

/// Lower case without blanks at the ends, one blank between words; hyphens and underscores are blanks.
std::string plain(const std::string& text) {
    std::string out;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '-' || c == '_' || c == '\t' || c == '.';
        if (!blank)
            out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    while (!out.empty() && out.back() == ' ')
        out.pop_back();
    return out;
}

using Pair = std::pair<const char*, const char*>;

/// English, and some words of its neighbours. Common practice, no source.
constexpr std::array<Pair, 44> words{{{"weight", "mass_kg"},
                                      {"body weight", "mass_kg"},
                                      {"mass", "mass_kg"},
                                      {"body mass", "mass_kg"},
                                      {"gewicht", "mass_kg"},
                                      {"poids", "mass_kg"},
                                      {"peso", "mass_kg"},
                                      {"athlete", "name"},
                                      {"full name", "name"},
                                      {"nom", "name"},
                                      {"number", "bib"},
                                      {"no", "bib"},
                                      {"race number", "bib"},
                                      {"start number", "bib"},
                                      {"startnr", "bib"},
                                      {"startnummer", "bib"},
                                      {"dossard", "bib"},
                                      {"height", "height_m"},
                                      {"size", "height_m"},
                                      {"groesse", "height_m"},
                                      {"grösse", "height_m"},
                                      {"größe", "height_m"},
                                      {"taille", "height_m"},
                                      {"age", "age_y"},
                                      {"alter", "age_y"},
                                      {"gender", "sex"},
                                      {"ability", "level"},
                                      {"ftp", "threshold_power_w"},
                                      {"threshold power", "threshold_power_w"},
                                      {"threshold pace", "threshold_run_s_per_km"},
                                      {"swim pace", "critical_swim_speed_m_s"},
                                      {"css", "critical_swim_speed_m_s"},
                                      {"sweat", "sweat_ml_per_h"},
                                      {"sweat rate", "sweat_ml_per_h"},
                                      {"sweat sodium", "sweat_sodium_mmol_per_l"},
                                      {"carbs", "carb_g_per_h"},
                                      {"allergies", "allergy"},
                                      {"allergens", "allergy"},
                                      {"likes", "like"},
                                      {"avoids", "avoid"},
                                      {"start wave", "wave"},
                                      {"swim", "swim_time"},
                                      {"bike", "bike_time"},
                                      {"run", "run_time"}}};

constexpr std::array<Pair, 14> results{{{"5k", "5km"},
                                        {"5km", "5km"},
                                        {"5k pb", "5km"},
                                        {"5km pb", "5km"},
                                        {"10k", "10km"},
                                        {"10km", "10km"},
                                        {"10k pb", "10km"},
                                        {"10km pb", "10km"},
                                        {"half marathon", "21.0975km"},
                                        {"half marathon pb", "21.0975km"},
                                        {"marathon", "42.195km"},
                                        {"marathon pb", "42.195km"},
                                        {"pb 10k", "10km"},
                                        {"pb 5k", "5km"}}};

constexpr std::array units{"kg",  "lb",    "lbs", "st",    "m",      "cm",   "in",      "ft",
                           "w",   "ml/h",  "l/h", "g/h",   "mmol/l", "mg/l", "s/km",    "/km",
                           "/mi", "/100m", "ml",  "years", "y",      "min",  "h:mm:ss", "hh:mm:ss"};

std::string column_named(const std::string& words_of_it) {
    for (const auto& column : roster_columns())
        if (plain(column.name) == words_of_it)
            return column.name;
    for (const auto& [word, name] : words)
        if (word == words_of_it)
            return name;
    return {};
}

bool is_unit(const std::string& word) {
    return std::find(units.begin(), units.end(), word) != units.end();
}

/// "Weight (lb)" or "mass kg": its words and its unit.
std::pair<std::string, std::string> parted(const std::string& text) {
    for (const auto& [open, close] : {std::pair{'(', ')'}, {'[', ']'}}) {
        const auto from = text.find(open), to = text.rfind(close);
        if (from != std::string::npos && to != std::string::npos && to > from)
            return {plain(text.substr(0, from)), plain(text.substr(from + 1, to - from - 1))};
    }
    const auto whole = plain(text);
    const auto blank = whole.rfind(' ');
    if (blank != std::string::npos && is_unit(whole.substr(blank + 1)))
        return {whole.substr(0, blank), whole.substr(blank + 1)};
    return {whole, ""};
}

} // namespace

RosterHeader roster_header(const std::string& text) {
    const auto whole = plain(text);
    for (const auto& column : roster_columns()) // the published names come first: their unit is their own
        if (plain(column.name) == whole)
            return {column.name, "", "", false};
    const auto [name, unit] = parted(text);
    for (const auto& [word, distance] : results)
        if (word == name)
            return {"", distance, "", false};
    const bool of_time = unit.find(':') != std::string::npos || unit == "years" || unit == "y";
    return {column_named(name), "", of_time ? "" : unit, false};
}

OwnHeaders read_own_headers(const std::string& path) {
    OwnHeaders own;
    std::vector<Fault> faults;
    std::istringstream lines(read_file(path));
    std::string line;
    for (int number = 1; std::getline(lines, line); ++number) {
        const auto first = line.find_first_not_of(" \t\r");
        if (first == std::string::npos || line[first] == '#')
            continue;
        const auto place = fmt::format("line {}", number);
        const auto equals = line.rfind('=');
        if (equals == std::string::npos || plain(line.substr(0, equals)).empty()) {
            faults.push_back({path, place, "allowed: their header = our column, such as Startnr = bib"});
            continue;
        }
        const auto ours = trimmed(line.substr(equals + 1), " \t\r");
        auto header = ours == "-" ? RosterHeader{"", "", "", true} : roster_header(ours);
        if (!header.known() && !header.left_out)
            faults.push_back({path, place,
                              fmt::format("\"{}\" is no column; tuck squad --template lists them, - leaves "
                                          "a column out",
                                          ours)});
        own[plain(line.substr(0, equals))] = std::move(header);
    }
    if (!faults.empty())
        throw InputError(faults);
    return own;
}

RosterHeader roster_header(const std::string& text, const OwnHeaders& own) {
    const auto found = own.find(plain(text));
    return found == own.end() ? roster_header(text) : found->second;
}

} // namespace tuck::io
