#include "base/words.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <numeric>
#include <string_view>
#include <utility>

namespace tuck {

namespace {

constexpr std::array units{"kg", "lb",  "lbs", "st",  "g",  "oz",   "mg", "m",  "cm", "mm",
                           "ft", "in",  "km",  "mi",  "yd", "c",    "f",  "ml", "l",  "floz",
                           "h",  "min", "s",   "pct", "w",  "kcal", "kj", "mph"};

/// "lb" of "mass_lb"; empty where the word names no unit.
std::string_view unit_of(const std::string& word) {
    const auto last = word.rfind('_');
    if (last == std::string::npos)
        return {};
    const auto end = std::string_view(word).substr(last + 1);
    return std::find(units.begin(), units.end(), end) == units.end() ? std::string_view() : end;
}

/// Other names of the trade.
constexpr std::array<std::pair<std::string_view, std::string_view>, 20> other_names{
    {{"olympic", "standard"},
     {"half", "middle"},
     {"half-distance", "middle"},
     {"full", "long"},
     {"full-distance", "long"},
     {"supersprint", "super-sprint"},
     {"novice", "beginner"},
     {"intermediate", "steady"},
     {"woman", "female"},
     {"man", "male"},
     {"soy", "soybeans"},
     {"soya", "soybeans"},
     {"peanut", "peanuts"},
     {"egg", "eggs"},
     {"nut", "nuts"},
     {"tree-nuts", "nuts"},
     {"dairy", "milk"},
     {"sulfites", "sulphites"},
     {"wheat", "gluten"},
     {"prawns", "crustaceans"}}};

/// Lower case, a hyphen for blanks and underscores.
std::string plain(const std::string& word) {
    std::string out;
    for (const char c : word)
        out += c == ' ' || c == '_' ? '-' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return out;
}

} // namespace

std::string meant_word(const std::string& word, const std::vector<std::string>& known) {
    const auto named = [&known](const std::string& meant) -> std::string {
        for (const auto& candidate : known)
            if (candidate == meant || plain(candidate) == plain(meant))
                return candidate;
        return {};
    };
    if (auto found = named(word); !found.empty())
        return found;
    for (const auto& [other, name] : other_names)
        if (other == plain(word))
            return named(std::string(name));
    return {};
}

std::string hint_for(const std::string& word, const std::vector<std::string>& known) {
    constexpr std::size_t shortest = 3, most = 6;
    std::string part = plain(word);
    if (part.size() > shortest && part.back() == 's')
        part.pop_back();
    std::vector<std::string> found;
    for (const auto& candidate : known)
        if (part.size() >= shortest && plain(candidate).find(part) != std::string::npos)
            found.push_back(candidate);
    if (found.empty())
        if (const auto near = nearest_word(word, known); !near.empty())
            found.push_back(near);
    if (found.empty() || found.size() > most)
        return {};
    if (found.size() == 1)
        return "; did you mean \"" + found[0] + "\"?";
    std::string list;
    for (const auto& each : found)
        list += (list.empty() ? "" : ", ") + each;
    return "; which one: " + list + "?";
}

std::size_t edit_distance(const std::string& a, const std::string& b) {
    std::vector<size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), size_t{0});
    for (size_t i = 1; i <= a.size(); ++i) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t j = 1; j <= b.size(); ++j) {
            const size_t above = row[j];
            row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)});
            diagonal = above;
        }
    }
    return row[b.size()];
}

std::string nearest_word(const std::string& word, const std::vector<std::string>& known) {
    std::string best;
    size_t best_distance = std::max<size_t>(1, word.size() / 3) + 1;
    const auto unit = unit_of(word);
    for (const auto& candidate : known) {
        if (!unit.empty() && unit != unit_of(candidate))
            continue;
        const size_t distance = edit_distance(word, candidate);
        if (distance < best_distance) {
            best_distance = distance;
            best = candidate;
        }
    }
    return best;
}

} // namespace tuck
