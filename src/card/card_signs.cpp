#include "card/card_signs.hpp"

#include "say/line_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>

namespace tuck::faces {

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
    std::string code;
    bool starts = true;
    for (const char c : label) {
        if (c != ' ' && starts)
            code += c;
        starts = c == ' ';
    }
    if (code.size() <= 1)
        code = label.substr(0, 3);
    for (char& c : code)
        c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    // "B1" is a bottle.
    return code == "B" ? label : code;
}

std::string number(double amount) {
    return amount == 0.5 ? "½" : amount == 0.25 ? "¼" : amount == 0.75 ? "¾" : fmt::format("{:g}", amount);
}

} // namespace

std::string Shortener::item(const Line& line, const LineItem& item) {
    if (level_ == Level::whole)
        return say::item(line, item);
    if (item.unit == "swallow") {
        note(legend_, "×", "swallows");
        return number(item.amount) + "×" + source(line, item);
    }
    if (item.unit == "cup")
        return cups(line, item);
    const bool several = item.amount != 1 && item.amount != 0.5;
    const std::string label = several ? item.label + "s" : item.label;
    const std::string sign = level_ == Level::foods ? food(label) : label;
    return item.amount == 1 ? sign : number(item.amount) + " " + sign;
}

std::string Shortener::rhythm(const Line& line, bool window_above) {
    const std::string whole = window_above ? say::rhythm(line) : say::when(line);
    if (level_ < Level::occasions)
        return whole;
    std::string sign;
    if (line.rhythm.kind == Rhythm::Kind::stations)
        sign = line.rhythm.step == 1 ? "aid" : say::ordinal(line.rhythm.step) + " aid";
    else
        sign = fmt::format("{:.0f}'", line.rhythm.every_s / 60);
    if (!window_above && line.window.from)
        sign = say::clock(line.window.from->at_s) + "+" + sign;
    else if (!window_above && line.window.to)
        sign += ">" + say::clock(line.window.to->at_s);
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

std::string Shortener::source(const Line& line, const LineItem& item) {
    if (!say::by_bottle(line, item))
        return level_ < Level::foods ? item.label : food(item.label);
    std::vector<std::string> bottles;
    for (const LineSource& source : item.from)
        bottles.push_back(source.name);
    const std::string in_order = fmt::format("{}", fmt::join(bottles, " then "));
    if (bottles.size() == 1 || level_ < Level::occasions || means_otherwise("B", in_order))
        return fmt::format("{}", fmt::join(bottles, ">"));
    note(legend_, "B", in_order); // which bottle comes first
    return "B";
}

std::string Shortener::cups(const Line& line, const LineItem& item) {
    const std::string unit = level_ < Level::occasions ? (item.amount == 1 ? " cup" : " cups") : "c";
    const std::string drink =
        item.label == "water" ? "" : " " + (level_ == Level::foods ? code_of(item.label) : item.label);
    const std::string sign = fmt::format("{:g}", item.amount) + unit + drink;
    note(legend_, sign, say::item(line, item));
    return sign;
}

} // namespace tuck::faces
