#include "card/card_rows.hpp"

#include "card/card_signs.hpp"
#include "paper/text_fit.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>

namespace tuck::faces {
namespace {

/// One occasion before shortening.
struct Occasion {
    std::string when;
    std::vector<std::string> tokens; // what to take, food before drink
    double order = -1;               // steady rhythms before moments, all else by when it begins
    std::vector<std::string> above = {};
};

/// In words, or in signs: "5×B1", "2c".
bool is_drink(const std::string& token) {
    const bool cups =
        token.size() > 1 && std::isdigit(static_cast<unsigned char>(token[0])) && token[1] == 'c';
    return cups || token.find("swallow") != std::string::npos || token.find(" cup") != std::string::npos ||
           token.find("×") != std::string::npos;
}

bool is_moment(const std::string& when) {
    return starts_with(when, "km ") || (!when.empty() && std::isdigit(static_cast<unsigned char>(when[0])));
}

/// "0:15 0:45" -> its moments; "km 2 4" -> "km 2", "km 4"; anything else stays one.
std::vector<std::string> moments(const std::string& when) {
    const bool by_km = starts_with(when, "km ");
    const bool by_clock =
        when.find(':') != std::string::npos && when.find_first_not_of("0123456789: ") == std::string::npos;
    if (!by_km && !by_clock)
        return {when};
    std::vector<std::string> out;
    for (const std::string& part : split(by_km ? when.substr(3) : when, " "))
        if (!part.empty())
            out.push_back(by_km ? "km " + part : part);
    return out;
}

/// The bottle that the feed at this moment drinks from; empty when no feed says so.
std::string bottle_at(const Plan& plan, int leg_index, double at_s) {
    for (const PlanFeed& feed : plan.feeds)
        if (feed.leg_index == leg_index && std::abs(feed.at_s - at_s) < 1)
            for (const FeedItem& item : feed.items)
                if (item.unit == "swallow")
                    return item.from;
    return "";
}

/// A window stands above its rhythm: "every 30' from 0:15 to 5:15" is "0:15 to 5:15" over "every 30'".
Occasion with_window(Occasion occasion) {
    const auto words = split(occasion.when, " ");
    if (words.size() == 6 && words[0] == "every" && words[2] == "from" && words[4] == "to") {
        occasion.when = words[0] + " " + words[1];
        occasion.above = {words[3] + " to " + words[5]};
    }
    const std::size_t part = occasion.when.find("station ");
    if (part != std::string::npos) { // "every 2nd station from km 4 to km 38"
        std::string window = occasion.when.substr(part + 8);
        if (const std::size_t to = window.find(" to km "); to != std::string::npos)
            window = window.substr(5, to - 5) + " to " + window.substr(to + 7);
        occasion.above = {window};
        occasion.when.resize(part + 7);
    }
    return occasion;
}

/// "every 30'", without a beginning or an end.
bool is_bare_rhythm(const std::string& when) {
    return starts_with(when, "every ") && when.find(' ', 6) == std::string::npos;
}

/// Moments packed into lines of a row's length; the last one also holds `what` where there is room for it.
CardRow packed(const std::vector<std::string>& all, const std::string& what) {
    CardRow row{"", what, {}};
    for (const std::string& moment : all) {
        const bool by_km = starts_with(moment, "km ");
        const std::string word = by_km && moment != all.front() ? moment.substr(3) : moment;
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

    LegRows rows_apart(Level level) const {
        LegRows out;
        std::vector<std::pair<double, CardRow>> ordered;
        for (const PlanLine& line : plan_.lines) {
            if (line.leg_index != leg_index_)
                continue;
            if (auto row = interleaved(line) ? std::nullopt : whole_list(line, level, out.legend)) {
                ordered.emplace_back(order_of(line, 0, moments(line.when).front()), *row);
                continue;
            }
            for (const Occasion& occasion : occasions(line))
                for (CardRow& row : split_to_fit(occasion, level, out.legend))
                    ordered.emplace_back(occasion.order, std::move(row));
        }
        std::stable_sort(ordered.begin(), ordered.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        for (auto& [order, row] : ordered)
            if (out.rows.empty() || !join(out.rows.back(), row, level))
                out.rows.push_back(std::move(row));
        return out;
    }

    /// Two rows of one moment as one, food before drink, where that fits.
    static bool join(CardRow& row, const CardRow& next, Level level) {
        if (row.when != next.when || !is_moment(row.when) || moments(row.when).size() > 1 ||
            !row.above.empty() || !next.above.empty())
            return false;
        const bool drink_first = is_drink(row.what) && !is_drink(next.what);
        CardRow both{row.when,
                     fmt::format("{}{}{}", drink_first ? next.what : row.what,
                                 level == Level::whole ? " + " : "+", drink_first ? row.what : next.what),
                     {}};
        if (characters(both) > row_characters)
            return false;
        row = std::move(both);
        return true;
    }

    LegRows rows_together(Level level) const {
        LegRows out;
        for (const Occasion& occasion : by_moment())
            for (CardRow& row : split_to_fit(occasion, level, out.legend))
                out.rows.push_back(std::move(row));
        return out;
    }

    LegRows rows_listed(Level level) const {
        LegRows out;
        std::vector<Occasion> left = by_moment();
        while (!left.empty()) {
            const Occasion first = left.front();
            std::vector<std::string> same;
            for (const Occasion& other : left)
                if (is_moment(first.when) && other.tokens == first.tokens && is_moment(other.when))
                    same.push_back(other.when);
            if (same.size() < 2) {
                for (CardRow& row : split_to_fit(first, level, out.legend))
                    out.rows.push_back(std::move(row));
                left.erase(left.begin());
                continue;
            }
            for (const CardRow& row : split_to_fit({"", first.tokens}, level, out.legend))
                out.rows.push_back(packed(same, row.what));
            left.erase(std::remove_if(left.begin(), left.end(),
                                      [&](const Occasion& other) {
                                          return is_moment(other.when) && other.tokens == first.tokens;
                                      }),
                       left.end());
        }
        return out;
    }

    /// Whether a moment of another line falls between the moments of this one: rows read from top to bottom.
    bool interleaved(const PlanLine& line) const {
        const auto all = moments(line.when);
        const double first = order_of(line, 0, all.front()),
                     last = order_of(line, all.size() - 1, all.back());
        return std::any_of(plan_.lines.begin(), plan_.lines.end(), [&](const PlanLine& other) {
            if (&other == &line || other.leg_index != leg_index_)
                return false;
            const auto others = moments(other.when);
            for (std::size_t i = 0; i < others.size(); ++i)
                if (const double at = order_of(other, i, others[i]);
                    is_moment(others[i]) && first < at && at < last)
                    return true;
            return false;
        });
    }

    /// One row for the whole list of a line, where that fits and the bottle does not change on the way.
    static std::optional<CardRow> whole_list(const PlanLine& line, Level level,
                                             std::vector<LegendEntry>& legend) {
        if (moments(line.when).size() < 2 || line.what.find(" then ") != std::string::npos)
            return std::nullopt;
        std::vector<LegendEntry> tried = legend;
        const CardRow row = shorten({line.when, split(line.what, " + ")}, level, tried);
        if (characters(row) > row_characters)
            return std::nullopt;
        legend = tried;
        return row;
    }

    std::vector<Occasion> occasions(const PlanLine& line) const {
        const auto tokens = split(line.what, " + ");
        const auto all = moments(line.when);
        std::vector<Occasion> out;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const bool moment = all.size() > 1 || is_moment(all[0]);
            out.push_back({all[i], all.size() > 1 ? at_moment(line, i, tokens) : tokens,
                           moment ? order_of(line, i, all[i]) : rhythm_order(line)});
        }
        return out;
    }

    /// All occasions of the leg in order, what falls on one moment together.
    std::vector<Occasion> by_moment() const {
        std::vector<Occasion> out;
        for (const PlanLine& line : plan_.lines)
            if (line.leg_index == leg_index_)
                for (Occasion& occasion : occasions(line)) {
                    const auto same = std::find_if(out.begin(), out.end(), [&](const Occasion& other) {
                        return is_moment(other.when) && other.when == occasion.when;
                    });
                    if (same == out.end())
                        out.push_back(std::move(occasion));
                    else
                        same->tokens.insert(same->tokens.end(), occasion.tokens.begin(),
                                            occasion.tokens.end());
                }
        for (Occasion& occasion : out)
            std::stable_partition(occasion.tokens.begin(), occasion.tokens.end(),
                                  [](const std::string& token) { return !is_drink(token); });
        std::stable_sort(out.begin(), out.end(),
                         [](const Occasion& a, const Occasion& b) { return a.order < b.order; });
        return out;
    }

    /// A rhythm that begins later stands where it begins.
    static double rhythm_order(const PlanLine& line) {
        return line.when.find(" from ") != std::string::npos && !line.at_s.empty() ? line.at_s.front() : -1;
    }

    static double order_of(const PlanLine& line, std::size_t i, const std::string& when) {
        if (i < line.at_s.size())
            return line.at_s[i];
        double number = 0;
        const std::string digits = starts_with(when, "km ") ? when.substr(3) : when;
        std::from_chars(digits.data(), digits.data() + digits.size(), number);
        const std::size_t colon = digits.find(':');
        double minutes = 0;
        if (colon != std::string::npos)
            std::from_chars(digits.data() + colon + 1, digits.data() + digits.size(), minutes);
        return number + minutes / 60;
    }

    std::vector<std::string> at_moment(const PlanLine& line, std::size_t i,
                                       std::vector<std::string> tokens) const {
        const std::string bottle = i < line.at_s.size() ? bottle_at(plan_, leg_index_, line.at_s[i]) : "";
        for (std::string& token : tokens) {
            const std::size_t swallow = token.find("swallow");
            if (swallow != std::string::npos && token.find(" then ") != std::string::npos && !bottle.empty())
                token = token.substr(0, token.find(' ', swallow) + 1) + bottle;
        }
        return tokens;
    }

    static CardRow shorten(const Occasion& whole, Level level, std::vector<LegendEntry>& legend) {
        const Occasion occasion = level >= Level::occasions ? with_window(whole) : whole;
        Shortener shortener(level, legend);
        std::vector<std::string> what;
        for (const std::string& token : occasion.tokens)
            what.push_back(shortener.token(token));
        CardRow row{occasion.when, fmt::format("{}", fmt::join(what, level == Level::whole ? " + " : "+")),
                    occasion.above};
        // "30'" alone can be misread as a moment: "every 30'" stays whole where it can.
        if (!is_bare_rhythm(row.when) || characters(row) > row_characters)
            row.when = shortener.when(row.when);
        return row;
    }

    static std::vector<CardRow> split_to_fit(const Occasion& occasion, Level level,
                                             std::vector<LegendEntry>& legend) {
        const CardRow whole = shorten(occasion, level, legend);
        if (level != Level::foods || occasion.tokens.size() < 2 || characters(whole) <= row_characters)
            return {whole};
        std::vector<CardRow> out;
        for (const std::string& token : occasion.tokens)
            out.push_back(shorten({occasion.when, {token}}, level, legend));
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
