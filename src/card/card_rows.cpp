#include "card/card_rows.hpp"

#include "say/line_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tuck::faces {
namespace {

std::string amount_text(const LineItem& item) {
    return item.amount == 0.5    ? "½ " + item.label
           : item.amount == 0.25 ? "¼ " + item.label
           : item.amount == 0.75 ? "¾ " + item.label
                                 : say::amount(item.amount, item.label);
}

/// "4 swallows" of a bottle, "1 cup water", "½ bar".
std::string item_text(const Line& line, const LineItem& item, RowForm form) {
    if (!item.drink())
        return amount_text(item);
    const bool short_form = form == RowForm::short_words && item.unit == "swallow";
    const std::string amount = short_form        ? fmt::format("{:g} sw", item.amount)
                               : item.amount == 1 ? "1 " + item.unit
                                                  : say::amount(item.amount, item.unit);
    return say::by_bottle(line, item) ? amount : amount + " " + item.label;
}

/// "B1", "B1, then B2".
std::string bottles_of(const Line& line) {
    std::string text;
    for (const LineItem& item : line.items)
        if (say::by_bottle(line, item))
            for (const LineSource& source : item.from)
                text += (text.empty() ? "" : ", then ") + source.name;
    return text;
}

/// "every 15'" from 0:15 on: 0, 15, 30, 45. Nothing where the hours differ.
std::vector<int> minutes_of(const Line& line) {
    constexpr int hour = 60;
    const int every = static_cast<int>(std::lround(line.rhythm.every_s / 60));
    if (line.rhythm.kind != Rhythm::Kind::every || every <= 0 || hour % every != 0)
        return {};
    const int first = static_cast<int>(std::lround((line.window.from ? line.window.from->at_s / 60 : every)));
    std::vector<int> out;
    for (int minute = first % every; minute < hour; minute += every)
        out.push_back(minute);
    return out;
}

CardRow row_of(const Line& line, RowForm form) {
    const bool rhythmic = line.rhythm.kind != Rhythm::Kind::moments;
    CardRow row{rhythmic ? say::rhythm(line) : say::when(line), "", rhythmic ? say::window(line) : "",
                bottles_of(line), minutes_of(line)};
    for (const LineItem& item : line.items)
        row.what += (row.what.empty() ? "" : " + ") + item_text(line, item, form);
    return row;
}

/// What is taken at every beat comes first; else by when it begins.
double order_of(const Line& line) {
    return line.rhythm.kind == Rhythm::Kind::moments || line.window.from ? line.at.front().at_s : -1;
}

bool has_swallows(const Line& line) {
    return std::any_of(line.items.begin(), line.items.end(),
                       [](const LineItem& item) { return item.unit == "swallow"; });
}

} // namespace

LegRows leg_rows(const Plan& plan, int leg_index, RowForm form) {
    std::vector<const Line*> lines;
    for (const Line& line : plan.lines)
        if (line.leg_index == leg_index)
            lines.push_back(&line);
    std::stable_sort(lines.begin(), lines.end(),
                     [](const Line* a, const Line* b) { return order_of(*a) < order_of(*b); });
    LegRows out;
    for (const Line* line : lines) {
        out.rows.push_back(row_of(*line, form));
        if (plan.mix.size() == 1) // there is no other bottle to take for it
            out.rows.back().from.clear();
        if (form == RowForm::short_words && has_swallows(*line))
            out.key = "sw = swallow";
    }
    return out;
}

} // namespace tuck::faces
