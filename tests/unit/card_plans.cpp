#include "card_plans.hpp"

#include <algorithm>
#include <cctype>
#include <sstream>

namespace tuck::example {
namespace {

std::vector<std::string> words_of(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> words;
    for (std::string word; in >> word;)
        words.push_back(word);
    return words;
}

LegMoment moment_of(const std::string& word) {
    const auto colon = word.find(':');
    if (colon == std::string::npos)
        return {std::stod(word) * 300, std::stod(word)}; // 12 km/h
    return {std::stod(word) * 3600 + std::stod(word.substr(colon + 1)) * 60, 0};
}

void put_when(const std::string& when, Line& line) {
    auto words = words_of(when);
    const bool stations = when.find("station") != std::string::npos;
    line.by_km = stations || words[0] == "km";
    if (words[0] != "every" && words[0] != "each") {
        for (const auto& word : words)
            if (std::isdigit(static_cast<unsigned char>(word[0])))
                line.at.push_back(moment_of(word));
        if (line.at.empty())
            line.at.push_back({});
        return;
    }
    line.rhythm.kind = stations ? Rhythm::Kind::stations : Rhythm::Kind::every;
    if (stations)
        line.rhythm.step = words[0] == "each" ? 1 : std::stoi(words[1]);
    else
        line.rhythm.every_s = std::stod(words[1]) * 60;
    words.erase(std::remove(words.begin(), words.end(), "km"), words.end());
    for (std::size_t i = 0; i + 1 < words.size(); ++i) {
        if (words[i] == "from")
            line.window.from = moment_of(words[i + 1]);
        if (words[i] == "to")
            line.window.to = moment_of(words[i + 1]);
    }
    const double step = stations ? 600 * line.rhythm.step : line.rhythm.every_s.count();
    const double first = line.window.from ? line.window.from->at_s.count() : step;
    const double last = line.window.to ? line.window.to->at_s.count() : std::max(first, 7200.0);
    for (double at = first; at < last + 1; at += step)
        line.at.push_back({at, at / 300});
}

LineItem item_of(const std::string& text, std::size_t moments) {
    LineItem item;
    item.amount = 1;
    auto words = words_of(text);
    if (std::isdigit(static_cast<unsigned char>(words[0][0]))) {
        item.amount = words[0] == "1/2" ? 0.5 : std::stod(words[0]);
        words.erase(words.begin());
    }
    for (const char* unit : {"swallow", "cup"})
        if (words[0].rfind(unit, 0) == 0) {
            item.unit = unit;
            words.erase(words.begin());
            break;
        }
    for (const auto& word : words)
        item.label += (item.label.empty() ? "" : " ") + word;
    const bool bottles =
        item.drink() && item.label[0] == 'B' && std::isdigit(static_cast<unsigned char>(item.label[1]));
    for (const auto& word : words)
        if (bottles && word != "then")
            item.from.push_back({word, item.from.size() * ((moments + 1) / 2)});
    if (item.from.empty())
        item.from = {{item.drink() ? "station" : "pocket", 0}};
    const bool plural = !item.drink() && item.amount > 1 && item.label.back() == 's';
    if (plural)
        item.label.pop_back();
    item.food = item.label;
    if (item.unit.empty())
        item.unit = item.label;
    return item;
}

} // namespace

Line line(int leg_index, LegKind leg, const std::string& when, const std::string& what) {
    Line out;
    out.leg_index = leg_index;
    out.leg = leg;
    put_when(when, out);
    for (std::size_t from = 0, to = 0; to != std::string::npos; from = to + 3) {
        to = what.find(" + ", from);
        out.items.push_back(item_of(what.substr(from, to - from), out.at.size()));
    }
    return out;
}

} // namespace tuck::example
