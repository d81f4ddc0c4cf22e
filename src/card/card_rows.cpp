#include "card/card_rows.hpp"

#include "say/line_words.hpp"
#include "say/units.hpp"

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
    const bool short_form = form != RowForm::words && item.unit == "swallow";
    const std::string amount = short_form         ? fmt::format("{:g} sw", item.amount)
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
    const int first =
        static_cast<int>(std::lround((line.window.from ? line.window.from->at_s.count() / 60 : every)));
    std::vector<int> out;
    for (int minute = first % every; minute < hour; minute += every)
        out.push_back(minute);
    return out;
}

bool has_swallows(const Line& line) {
    return std::any_of(line.items.begin(), line.items.end(),
                       [](const LineItem& item) { return item.unit == "swallow"; });
}

CardRow row_of(const Line& line, RowForm form) {
    const bool rhythmic = line.rhythm.kind != Rhythm::Kind::moments;
    CardRow row{rhythmic ? say::rhythm(line) : say::when(line),
                "",
                rhythmic ? say::window(line) : "",
                bottles_of(line),
                minutes_of(line),
                has_swallows(line)};
    for (const LineItem& item : line.items)
        row.what += (row.what.empty() ? "" : " + ") + item_text(line, item, form);
    return row;
}

/// What is taken at every beat comes first; else by when it begins.
double order_of(const Line& line) {
    return line.rhythm.kind == Rhythm::Kind::moments || line.window.from ? line.at.front().at_s.count() : -1;
}

/// Stations in short words: "every 3rd" below a row that names them, else "every 2nd aid". Its key.
std::string shorten_stations(const Line& line, bool named_above, CardRow& row) {
    const std::string word = " station";
    const auto at = row.when.rfind(word);
    if (line.rhythm.kind != Rhythm::Kind::stations || line.rhythm.step == 1 || at == std::string::npos)
        return {};
    const auto blank = row.when.rfind(' ', at - 1);
    const auto ordinal = row.when.substr(blank + 1, at - blank - 1);
    row.when.replace(at, word.size(), named_above ? "" : " aid");
    return named_above ? fmt::format("{0} = {0} station", ordinal) : "aid = station";
}

} // namespace

namespace {

/// A drink that goes on at the same rhythm from another source: "B1, then B2", and from 3:30 on what is
/// handed up.
bool goes_on(const Line& line, const Line& next) {
    const auto alone = [](const Line& one) { return one.items.size() == 1 && one.items[0].drink(); };
    const double every_s = line.rhythm.every_s;
    const auto on_the_beat = [&] { // the same rhythm, or so few beats of it that they are named
        double before = line.at.back().at_s;
        return std::all_of(next.at.begin(), next.at.end(), [&](const LegMoment& at) {
            const bool follows = std::abs(before + every_s - at.at_s) < 1;
            before = at.at_s;
            return follows;
        });
    };
    return alone(line) && alone(next) && line.rhythm.kind == Rhythm::Kind::every && line.window.to &&
           next.rhythm.kind != Rhythm::Kind::stations && !next.by_km &&
           line.items[0].amount == next.items[0].amount && line.items[0].unit == next.items[0].unit &&
           line.items[0].from.back().name != next.items[0].from.front().name && on_the_beat();
}

/// One row for a line and the one that goes on with it.
CardRow row_of_both(const Line& line, const Line& next, RowForm form) {
    Line both = line;
    both.window.to = next.rhythm.kind == Rhythm::Kind::every ? next.window.to : next.at.back();
    CardRow row = row_of(both, form);
    const LineItem& later = next.items[0];
    const std::string source = say::by_bottle(next, later) ? later.from.front().name : later.label;
    std::string bottles = bottles_of(line);
    if (form != RowForm::words) // "B1, B2, from 3:15 iso drink"
        for (const std::string then = ", then "; bottles.find(then) != std::string::npos;)
            bottles.replace(bottles.find(then), then.size(), ", ");
    row.from = fmt::format("{}{}from {} {}", bottles, bottles.empty() ? "" : ", ",
                           say::clock(next.at.front().at_s), source);
    return row;
}

} // namespace

namespace {

/// "sw = swallow of B1", where every row that drinks does so from there.
void name_the_one_bottle(LegRows& leg) {
    std::string bottle;
    for (const CardRow& row : leg.rows) {
        if (!row.swallows && row.from.empty())
            continue;
        const bool one = !row.from.empty() && row.from.find(' ') == std::string::npos;
        if (!one || (!bottle.empty() && row.from != bottle))
            return;
        bottle = row.from;
    }
    const std::string key = "sw = swallow";
    const auto at = leg.key.find(key);
    if (bottle.empty() || at == std::string::npos)
        return;
    leg.key.insert(at + key.size(), " of " + bottle);
    for (CardRow& row : leg.rows)
        row.from.clear();
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
    bool stations_named = false;
    const auto explain = [&out](const std::string& key) {
        if (!key.empty() && out.key.find(key) == std::string::npos)
            out.key += (out.key.empty() ? "" : ", ") + key;
    };
    while (!lines.empty()) {
        const Line& line = *lines.front();
        lines.erase(lines.begin());
        const auto next = std::find_if(lines.begin(), lines.end(),
                                       [&line](const Line* other) { return goes_on(line, *other); });
        out.rows.push_back(next == lines.end() ? row_of(line, form) : row_of_both(line, **next, form));
        if (next != lines.end())
            lines.erase(next);
        else if (plan.mix.size() == 1) // there is no other bottle to take for it
            out.rows.back().from.clear();
        if (form != RowForm::words) {
            explain(out.rows.back().swallows ? "sw = swallow" : "");
            explain(shorten_stations(line, stations_named, out.rows.back()));
        }
        stations_named = stations_named || line.rhythm.kind == Rhythm::Kind::stations;
    }
    if (form == RowForm::shortest)
        name_the_one_bottle(out);
    for (CardRow& row : out.rows)
        for (std::string* place : {&row.when, &row.window})
            *place = say::in_units(*place, plan.units);
    return out;
}

} // namespace tuck::faces
