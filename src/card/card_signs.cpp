#include "card/card_signs.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>

namespace tuck::faces {

std::vector<std::string> split(const std::string& text, const std::string& at) {
    std::vector<std::string> parts;
    std::size_t from = 0;
    for (std::size_t to; (to = text.find(at, from)) != std::string::npos; from = to + at.size())
        parts.push_back(text.substr(from, to - from));
    parts.push_back(text.substr(from));
    return parts;
}

bool starts_with(const std::string& text, const std::string& start) {
    return text.rfind(start, 0) == 0;
}

namespace {

void note(std::vector<LegendEntry>& legend, const std::string& sign, const std::string& meaning) {
    if (sign != meaning && std::none_of(legend.begin(), legend.end(),
                                        [&](const LegendEntry& entry) { return entry.sign == sign; }))
        legend.push_back({sign, meaning});
}

/// "CG" of "caf gel", "GEL" of "gel": initials, or the first three letters of a single word. ASCII labels
/// only; others stay whole.
std::string code_of(const std::string& label) {
    if (std::any_of(label.begin(), label.end(), [](char c) { return static_cast<unsigned char>(c) > 127; }))
        return label;
    const auto words = split(label, " ");
    std::string code;
    for (const std::string& word : words)
        code += words.size() > 1 ? word.substr(0, 1) : word.substr(0, 3);
    for (char& c : code)
        c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    // "B1" is a bottle.
    return code == "B" ? label : code;
}

/// A leading amount ("3", "1/2") and the rest.
std::pair<std::string, std::string> amount_and_rest(const std::string& token) {
    const std::size_t blank = token.find(' ');
    if (blank == std::string::npos || !std::isdigit(static_cast<unsigned char>(token[0])))
        return {"", token};
    return {token.substr(0, blank), token.substr(blank + 1)};
}

std::string fraction(const std::string& amount) {
    return amount == "1/2" ? "½" : amount == "1/4" ? "¼" : amount == "3/4" ? "¾" : amount;
}

/// "B1", "B2".
bool is_bottle(const std::string& of) {
    return of.size() > 1 && of[0] == 'B' && of.find_first_not_of("0123456789", 1) == std::string::npos;
}

/// The rest after "swallow " or "swallows "; nothing when the token is not about swallows (or cups).
bool strip_unit(const std::string& rest, const std::string& unit, std::string& of) {
    for (const std::string& word : {unit + "s ", unit + " "})
        if (starts_with(rest, word)) {
            of = rest.substr(word.size());
            return true;
        }
    return false;
}

} // namespace

std::string Shortener::token(const std::string& whole) {
    if (level_ == Level::whole)
        return whole;
    const auto [amount, rest] = amount_and_rest(whole);
    std::string of;
    if (strip_unit(rest, "swallow", of)) {
        note(legend_, "×", "swallows");
        return amount + "×" + source(of);
    }
    if (strip_unit(rest, "cup", of))
        return cups(whole, amount, of);
    const std::string sign = level_ == Level::foods ? food(rest) : rest;
    return amount.empty() ? sign : fraction(amount) + " " + sign;
}

std::string Shortener::when(const std::string& whole) {
    if (level_ < Level::occasions)
        return whole;
    std::string sign = whole;
    if (whole == "each station")
        sign = "aid";
    else if (starts_with(whole, "every ") && whole.find("station") != std::string::npos)
        sign = whole.substr(6, whole.find(" station") - 6) + " aid";
    else if (starts_with(whole, "from km "))
        sign = whole.substr(5) + "+";
    else if (starts_with(whole, "every ")) {
        const auto words = split(whole.substr(6), " "); // "15'", "from", "0:30" or "to", "2:00"
        sign = words[0];
        for (std::size_t i = 1; i + 1 < words.size(); i += 2)
            sign = words[i] == "from" ? words[i + 1] + "+" + sign : sign + ">" + words[i + 1];
    }
    note(legend_, sign, whole);
    return sign;
}

bool Shortener::means_otherwise(const std::string& sign, const std::string& meaning) const {
    return std::any_of(legend_.begin(), legend_.end(), [&](const LegendEntry& entry) {
        return entry.sign == sign && entry.meaning != meaning;
    });
}

/// Two foods never share a sign: the second keeps its whole name.
std::string Shortener::food(const std::string& label) {
    const std::string code = code_of(label);
    if (means_otherwise(code, label))
        return label;
    note(legend_, code, label);
    return code;
}

std::string Shortener::source(const std::string& of) {
    const auto bottles = split(of, " then ");
    const bool whole = bottles.size() == 1 ? is_bottle(of) : means_otherwise("B", of);
    if (whole || level_ < Level::occasions || (bottles.size() == 1 && level_ < Level::foods))
        return fmt::format("{}", fmt::join(bottles, ">"));
    if (bottles.size() == 1)
        return food(of);
    note(legend_, "B", of); // which bottle comes first
    return "B";
}

std::string Shortener::cups(const std::string& whole, const std::string& amount, const std::string& of) {
    const std::string unit = level_ < Level::occasions ? (amount == "1" ? " cup" : " cups") : "c";
    const std::string drink = of == "water" ? "" : " " + (level_ == Level::foods ? code_of(of) : of);
    const std::string sign = amount + unit + drink;
    note(legend_, sign, whole);
    return sign;
}

} // namespace tuck::faces
