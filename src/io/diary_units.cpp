#include "io/diary_units.hpp"

#include "io/units.hpp"

#include <fmt/format.h>
#include <stdexcept>
#include <utility>
#include <vector>

namespace tuck::io {

namespace {

struct Unit {
    const char* word;
    double factor;
};

/// Longer unit words first: "kg" before "g".
double quantity(const std::string& text, const std::vector<Unit>& units, const char* what,
                const char* allowed) {
    for (const auto& unit : units) {
        const std::string word = unit.word;
        if (text.size() <= word.size() || !text.ends_with(word))
            continue;
        return plain_number(text.substr(0, text.size() - word.size()), what) * unit.factor;
    }
    throw std::invalid_argument(fmt::format("\"{}\": give a unit; allowed: a number with {}", text, allowed));
}

} // namespace

double grams(const std::string& text) {
    return quantity(text, {{"kg", 1000}, {"oz", 28.349523125}, {"g", 1}}, "a mass",
                    "g, kg or oz, such as 120g");
}

double scale_kg(const std::string& text) {
    return grams(text) / 1000;
}

double milligrams(const std::string& text) {
    return quantity(text, {{"mg", 1}, {"g", 1000}}, "a mass", "mg or g, such as 400mg");
}

double energy_kcal(const std::string& text) {
    return quantity(text, {{"kcal", 1}, {"kJ", 1 / 4.184}, {"kj", 1 / 4.184}}, "an energy",
                    "kcal or kJ, such as 900kcal");
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

double beats_per_min(const std::string& text) {
    return plain_number(text.ends_with("bpm") ? text.substr(0, text.size() - 3) : text, "a heart rate");
}

double count(const std::string& text) {
    return plain_number(text, "a number of feeds");
}

bool yes(const std::string& text) {
    if (text == "yes" || text.empty()) // an option without a value
        return true;
    if (text == "no")
        return false;
    throw std::invalid_argument(fmt::format("\"{}\" is not known; allowed: yes, no", text));
}

} // namespace tuck::io
