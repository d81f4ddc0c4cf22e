#include "card/card_rows.hpp"

#include "say/line_words.hpp"
#include "say/units.hpp"
#include "say/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <optional>

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

/// The bottles of its drink, in the order in which they are drunk.
std::vector<std::string> bottles_of(const Line& line) {
    std::vector<std::string> out;
    for (const LineItem& item : line.items)
        if (say::by_bottle(line, item))
            for (const LineSource& source : item.from)
                out.push_back(source.name);
    return out;
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
                fmt::format("{}", fmt::join(bottles_of(line), ", then ")),
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

/// What is said in short words on this side, each with what it means.
struct Key {
    bool stations;
    std::string text;
};

void explain(const Key& one, std::vector<Key>& keys) {
    const auto same = [&one](const Key& other) { return other.text == one.text; };
    if (std::none_of(keys.begin(), keys.end(), same))
        keys.push_back(one);
}

/// Stations in short words: "every 3rd" below a row that names them, else "every 2nd aid". Its key.
std::optional<Key> shorten_stations(const Line& line, bool named_above, CardRow& row) {
    if (line.rhythm.kind != Rhythm::Kind::stations || line.rhythm.step == 1)
        return std::nullopt;
    const auto ordinal = say::words(say::Language::english).ordinal(line.rhythm.step);
    row.when = fmt::format("every {}{}", ordinal, named_above ? "" : " aid");
    return Key{true, named_above ? fmt::format("{0} = {0} station", ordinal) : "aid = station"};
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
    // In short words: "B1, B2, from 3:15 iso drink".
    const auto bottles =
        fmt::format("{}", fmt::join(bottles_of(line), form == RowForm::words ? ", then " : ", "));
    row.from = fmt::format("{}{}from {} {}", bottles, bottles.empty() ? "" : ", ",
                           say::clock(next.at.front().at_s), source);
    return row;
}

} // namespace

namespace {

/// "sw = swallow of B1", where every row that drinks does so from there. `bottles`: of each row.
void name_the_one_bottle(const std::vector<std::vector<std::string>>& bottles, LegRows& leg,
                         std::vector<Key>& keys) {
    std::string bottle;
    for (std::size_t i = 0; i < leg.rows.size(); ++i) {
        if (!leg.rows[i].swallows && leg.rows[i].from.empty())
            continue;
        if (bottles[i].size() != 1 || (!bottle.empty() && bottles[i][0] != bottle))
            return;
        bottle = bottles[i][0];
    }
    const auto swallow = std::find_if(keys.begin(), keys.end(), [](const Key& key) { return !key.stations; });
    if (bottle.empty() || swallow == keys.end())
        return;
    swallow->text += " of " + bottle;
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
    std::vector<std::vector<std::string>> bottles; // of each row, where it is drunk from them alone
    std::vector<Key> keys;
    bool stations_named = false;
    while (!lines.empty()) {
        const Line& line = *lines.front();
        lines.erase(lines.begin());
        const auto next = std::find_if(lines.begin(), lines.end(),
                                       [&line](const Line* other) { return goes_on(line, *other); });
        const bool both = next != lines.end();
        out.rows.push_back(both ? row_of_both(line, **next, form) : row_of(line, form));
        bottles.push_back(both || plan.mix.size() == 1 ? std::vector<std::string>{} : bottles_of(line));
        CardRow& row = out.rows.back();
        if (both)
            lines.erase(next);
        else if (plan.mix.size() == 1) // there is no other bottle to take for it
            row.from.clear();
        if (form != RowForm::words && row.swallows)
            explain({false, "sw = swallow"}, keys);
        if (form != RowForm::words)
            if (const auto key = shorten_stations(line, stations_named, row))
                explain(*key, keys);
        stations_named = stations_named || line.rhythm.kind == Rhythm::Kind::stations;
    }
    if (form == RowForm::shortest)
        name_the_one_bottle(bottles, out, keys);
    for (const Key& key : keys)
        out.key += (out.key.empty() ? "" : ", ") + key.text;
    for (CardRow& row : out.rows)
        for (std::string* place : {&row.when, &row.window})
            *place = say::in_units(*place, plan.units);
    return out;
}

} // namespace tuck::faces
