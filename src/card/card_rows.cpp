#include "card/card_rows.hpp"

#include "card/card_signs.hpp"
#include "paper/text_fit.hpp"
#include "say/line_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>

namespace tuck::faces {
namespace {

/// What is taken of one line at one of its moments, or at all of them.
struct Taken {
    const Line* line = nullptr;
    LineItem item;
    bool operator==(const Taken& other) const {
        return say::item(*line, item) == say::item(*other.line, other.item);
    }
};

/// One occasion before shortening.
struct Occasion {
    std::string when; // "0:45", "km 4", "in T1"; empty: the rhythm of its line
    bool moment = false;
    LegMoment at;
    double order = -1; // steady rhythms before moments, all else by when it begins
    std::vector<Taken> taken = {};
    const Line& line() const { return *taken.front().line; }
    bool has_drink() const {
        return std::any_of(taken.begin(), taken.end(), [](const Taken& one) { return one.item.drink(); });
    }
};

/// The source of a line's i-th moment.
LineItem at_moment(LineItem item, std::size_t i) {
    const auto later = std::find_if(item.from.begin(), item.from.end(),
                                    [i](const LineSource& source) { return source.first > i; });
    item.from = {*std::prev(later)};
    return item;
}

/// Moments packed into lines of a row's length; the last one also holds `what` where there is room for it.
CardRow packed(const std::vector<std::string>& all, const std::string& what) {
    CardRow row{"", what, {}};
    for (const std::string& word : all) {
        const std::string longer = row.when.empty() ? word : row.when + " " + word;
        const bool fits = columns(longer) <= row_characters;
        if (!fits)
            row.above.push_back(row.when);
        row.when = fits ? longer : word;
    }
    if (characters(row) > row_characters) {
        row.above.push_back(row.when);
        row.when.clear();
    }
    return row;
}

class LegWriter {
public:
    LegWriter(const Plan& plan, int leg_index) : plan_(plan), leg_index_(leg_index) {}

    /// Every moment on its own row; lines apart, or what falls on one moment together if that takes fewer
    /// rows.
    LegRows one_each() const {
        const LegRows apart = shortest([this](Level level) { return rows_apart(level); });
        const LegRows together = shortest([this](Level level) { return rows_together(level); });
        return together.rows.size() < apart.rows.size() ? together : apart;
    }

    /// Moments of one kind as lists, in as few lines as whole food names allow.
    LegRows listed() const {
        LegRows best = shortest([this](Level level) { return rows_listed(level); });
        const LegRows shorter = rows_listed(Level::occasions);
        return fit(shorter) && lines_of(shorter.rows) < lines_of(best.rows) ? shorter : best;
    }

    LegRows in_signs() const { return rows_listed(Level::foods); }

private:
    static bool fit(const LegRows& out) {
        return std::all_of(out.rows.begin(), out.rows.end(),
                           [](const CardRow& row) { return characters(row) <= row_characters; });
    }

    /// The rows at the first level at which they fit.
    template <typename RowsAt>
    static LegRows shortest(RowsAt rows_at) {
        LegRows out;
        for (const Level level : {Level::whole, Level::amounts, Level::occasions, Level::foods}) {
            out = rows_at(level);
            if (fit(out))
                break;
        }
        return out;
    }

    /// One or more rows before they are put in order.
    struct Placed {
        double order = -1;
        CardRow row;
        bool single = false; // one moment
        bool drink = false;
    };

    LegRows rows_apart(Level level) const {
        LegRows out;
        std::vector<Placed> ordered;
        for (const Line& line : plan_.lines) {
            if (line.leg_index != leg_index_)
                continue;
            if (auto row = interleaved(line) ? std::nullopt : whole_list(line, level, out.legend)) {
                ordered.push_back({line.at.front().at_s, *row});
                continue;
            }
            for (const Occasion& occasion : occasions(line))
                for (const auto& part : parts(occasion, level, out.legend))
                    ordered.push_back({occasion.order, shorten(part, level, out.legend),
                                       occasion.moment, part.has_drink()});
        }
        std::stable_sort(ordered.begin(), ordered.end(),
                         [](const Placed& a, const Placed& b) { return a.order < b.order; });
        std::vector<Placed> rows;
        for (Placed& next : ordered)
            if (rows.empty() || !join(rows.back(), next, level))
                rows.push_back(std::move(next));
        for (Placed& placed : rows)
            out.rows.push_back(std::move(placed.row));
        return out;
    }

    /// Two rows of one moment as one, food before drink, where that fits.
    static bool join(Placed& placed, const Placed& next, Level level) {
        CardRow& row = placed.row;
        if (!placed.single || !next.single || row.when != next.row.when)
            return false;
        const bool drink_first = placed.drink && !next.drink;
        CardRow both{row.when,
                     fmt::format("{}{}{}", drink_first ? next.row.what : row.what,
                                 level == Level::whole ? " + " : "+", drink_first ? row.what : next.row.what),
                     {}};
        if (characters(both) > row_characters)
            return false;
        row = std::move(both);
        placed.drink = placed.drink || next.drink;
        return true;
    }

    LegRows rows_together(Level level) const {
        LegRows out;
        for (const Occasion& occasion : by_moment())
            for (const Occasion& part : parts(occasion, level, out.legend))
                out.rows.push_back(shorten(part, level, out.legend));
        return out;
    }

    LegRows rows_listed(Level level) const {
        LegRows out;
        std::vector<Occasion> left = by_moment();
        while (!left.empty()) {
            const Occasion first = left.front();
            const auto like_first = [&first](const Occasion& other) {
                return first.moment && other.moment && other.taken == first.taken;
            };
            std::vector<std::string> same;
            for (const Occasion& other : left)
                if (like_first(other))
                    same.push_back(same.empty() || !other.line().by_km ? other.when : say::km(other.at.km));
            if (same.size() < 2) {
                for (const Occasion& part : parts(first, level, out.legend))
                    out.rows.push_back(shorten(part, level, out.legend));
                left.erase(left.begin());
                continue;
            }
            for (const Occasion& part : parts(first, level, out.legend, false))
                out.rows.push_back(packed(same, taken_in(part, level, out.legend)));
            std::erase_if(left, like_first);
        }
        return out;
    }

    /// Whether a moment of another line falls between the moments of this one: rows read from top to bottom.
    bool interleaved(const Line& line) const {
        return std::any_of(plan_.lines.begin(), plan_.lines.end(), [&](const Line& other) {
            return &other != &line && other.leg_index == leg_index_ && say::has_moments(other) &&
                   std::any_of(other.at.begin(), other.at.end(), [&line](const LegMoment& at) {
                       return line.at.front().at_s < at.at_s && at.at_s < line.at.back().at_s;
                   });
        });
    }

    /// One row for the whole list of a line, where that fits and the bottle does not change on the way.
    static std::optional<CardRow> whole_list(const Line& line, Level level, std::vector<LegendEntry>& legend) {
        const bool changes = std::any_of(line.items.begin(), line.items.end(),
                                         [](const LineItem& item) { return item.from.size() > 1; });
        if (!say::has_moments(line) || line.at.size() < 2 || changes)
            return std::nullopt;
        std::vector<LegendEntry> tried = legend;
        Occasion all{say::when(line), true, line.at.front()};
        for (const LineItem& item : line.items)
            all.taken.push_back({&line, item});
        const CardRow row = shorten(all, level, tried);
        if (characters(row) > row_characters)
            return std::nullopt;
        legend = tried;
        return row;
    }

    static std::vector<Occasion> occasions(const Line& line) {
        std::vector<Occasion> out;
        if (!say::has_moments(line)) {
            Occasion whole{is_transition(line.leg) ? say::when(line) : "", false, line.at.front(), rhythm_order(line)};
            for (const LineItem& item : line.items)
                whole.taken.push_back({&line, item});
            return {whole};
        }
        for (std::size_t i = 0; i < line.at.size(); ++i) {
            Occasion one{say::moment(line, line.at[i]), true, line.at[i], line.at[i].at_s};
            for (const LineItem& item : line.items)
                one.taken.push_back({&line, at_moment(item, i)});
            out.push_back(one);
        }
        return out;
    }

    /// All occasions of the leg in order, what falls on one moment together.
    std::vector<Occasion> by_moment() const {
        std::vector<Occasion> out;
        for (const Line& line : plan_.lines)
            if (line.leg_index == leg_index_)
                for (Occasion& occasion : occasions(line)) {
                    const auto same = std::find_if(out.begin(), out.end(), [&](const Occasion& other) {
                        return other.moment && occasion.moment && other.when == occasion.when;
                    });
                    if (same == out.end())
                        out.push_back(std::move(occasion));
                    else
                        same->taken.insert(same->taken.end(), occasion.taken.begin(), occasion.taken.end());
                }
        for (Occasion& occasion : out)
            std::stable_partition(occasion.taken.begin(), occasion.taken.end(),
                                  [](const Taken& taken) { return !taken.item.drink(); });
        std::stable_sort(out.begin(), out.end(),
                         [](const Occasion& a, const Occasion& b) { return a.order < b.order; });
        return out;
    }

    /// A rhythm that begins later stands where it begins.
    static double rhythm_order(const Line& line) { return line.window.from ? line.at.front().at_s : -1; }

    static std::string taken_in(const Occasion& occasion, Level level, std::vector<LegendEntry>& legend) {
        Shortener shortener(level, legend);
        std::vector<std::string> what;
        for (const Taken& taken : occasion.taken)
            what.push_back(shortener.item(*taken.line, taken.item));
        return fmt::format("{}", fmt::join(what, level == Level::whole ? " + " : "+"));
    }

    static CardRow shorten(const Occasion& occasion, Level level, std::vector<LegendEntry>& legend) {
        CardRow row{occasion.when, taken_in(occasion, level, legend), {}};
        if (!row.when.empty())
            return row;
        const Line& line = occasion.line();
        const bool whole_window = line.rhythm.kind == Rhythm::Kind::stations ? line.window.from || line.window.to
                                                                             : line.window.from && line.window.to;
        const bool above = level >= Level::occasions && whole_window;
        if (above)
            row.above = {window_alone(line)};
        row.when = above ? say::rhythm(line) : say::when(line);
        // "30'" alone can be misread as a moment: "every 30'" stays whole where it can.
        const bool bare = line.rhythm.kind == Rhythm::Kind::every && (above || !(line.window.from || line.window.to));
        if (!bare || characters(row) > row_characters)
            row.when = Shortener(level, legend).rhythm(line, above);
        return row;
    }

    /// "0:15 to 5:15", "km 4 to 38", "from km 4": a window that stands alone above its rhythm.
    static std::string window_alone(const Line& line) {
        if (!line.window.from || !line.window.to)
            return say::window(line);
        return say::moment(line, *line.window.from) + " to " +
               (line.by_km ? say::km(line.window.to->km) : say::clock(line.window.to->at_s));
    }

    /// The occasion itself, or item by item where all of it is too long even in signs.
    static std::vector<Occasion> parts(const Occasion& occasion, Level level, std::vector<LegendEntry>& legend,
                                       bool with_when = true) {
        if (level != Level::foods || occasion.taken.size() < 2)
            return {occasion};
        CardRow row = shorten(occasion, level, legend);
        if (!with_when)
            row.when.clear();
        if (characters(row) <= row_characters)
            return {occasion};
        std::vector<Occasion> out;
        for (const Taken& taken : occasion.taken) {
            out.push_back(occasion);
            out.back().taken = {taken};
        }
        return out;
    }

    const Plan& plan_;
    int leg_index_;
};

} // namespace

LegRows leg_rows(const Plan& plan, int leg_index, RowForm form) {
    const LegWriter writer(plan, leg_index);
    return form == RowForm::signs    ? writer.in_signs()
           : form == RowForm::listed ? writer.listed()
                                     : writer.one_each();
}

std::size_t lines_of(const std::vector<CardRow>& rows) {
    std::size_t lines = rows.size();
    for (const CardRow& row : rows)
        lines += row.above.size();
    return lines;
}

int characters(const CardRow& row) {
    const int when = static_cast<int>(columns(row.when));
    return when + (when > 0 ? 1 : 0) + static_cast<int>(columns(row.what));
}

} // namespace tuck::faces
