#include "faces/card_rows.hpp"

#include "faces/text_fit.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <limits>

namespace tuck::faces {
namespace {

/// How far words are shortened; each level includes those before it.
enum class Level { whole, amounts, occasions, foods };

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

/// The rest after "swallow " or "swallows "; nothing when the token is not about swallows (or cups).
bool strip_unit(const std::string& rest, const std::string& unit, std::string& of) {
    for (const std::string& word : {unit + "s ", unit + " "})
        if (starts_with(rest, word)) {
            of = rest.substr(word.size());
            return true;
        }
    return false;
}

class Shortener {
public:
    Shortener(Level level, std::vector<LegendEntry>& legend) : level_(level), legend_(legend) {}

    std::string token(const std::string& whole) {
        if (level_ == Level::whole)
            return whole;
        const auto [amount, rest] = amount_and_rest(whole);
        std::string of;
        if (strip_unit(rest, "swallow", of)) {
            const std::string sign = amount + "×" + source(of);
            note(legend_, sign, whole);
            return sign;
        }
        if (strip_unit(rest, "cup", of))
            return cups(whole, amount, of);
        const std::string food = level_ == Level::foods ? code_of(rest) : rest;
        note(legend_, food, rest);
        return fraction(amount).empty() ? food : fraction(amount) + (amount == "1/2" ? "" : " ") + food;
    }

    std::string when(const std::string& whole) {
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
            const auto words = split(whole.substr(6), " "); // "15'", "from", "0:30", "to", "2:00"
            sign = words[0];
            for (std::size_t i = 1; i + 1 < words.size(); i += 2)
                sign = words[i] == "from" ? words[i + 1] + "+" + sign : sign + ">" + words[i + 1];
        }
        note(legend_, sign, whole);
        return sign;
    }

private:
    std::string source(const std::string& of) {
        const std::string bottles = fmt::format("{}", fmt::join(split(of, " then "), ">"));
        if (level_ != Level::foods || bottles == of)
            return bottles;
        return "B"; // which bottle comes first is said by the legend
    }

    std::string cups(const std::string& whole, const std::string& amount, const std::string& of) {
        const std::string unit = level_ < Level::occasions ? (amount == "1" ? " cup" : " cups") : "c";
        const std::string drink = of == "water" ? "" : " " + (level_ == Level::foods ? code_of(of) : of);
        const std::string sign = amount + unit + drink;
        note(legend_, sign, whole);
        return sign;
    }

    Level level_;
    std::vector<LegendEntry>& legend_;
};

/// One occasion of a line before shortening.
struct Occasion {
    std::string when;
    std::vector<std::string> tokens;
    double order = 0; // rhythms before moments, moments by time or kilometre
};

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

class LegWriter {
public:
    LegWriter(const Plan& plan, int leg_index) : plan_(plan), leg_index_(leg_index) {}

    LegRows write() {
        for (const Level level : {Level::whole, Level::amounts, Level::occasions, Level::foods}) {
            LegRows out = rows(level);
            if (fit(out) || level == Level::foods)
                return out;
        }
        return {};
    }

private:
    static bool fit(const LegRows& out) {
        return std::all_of(out.rows.begin(), out.rows.end(),
                           [](const CardRow& row) { return characters(row) <= row_characters; });
    }

    LegRows rows(Level level) const {
        LegRows out;
        std::vector<std::pair<double, CardRow>> ordered;
        for (const PlanLine& line : plan_.lines)
            if (line.leg_index == leg_index_)
                for (auto& row : rows_of(line, level, out.legend))
                    ordered.push_back(std::move(row));
        std::stable_sort(ordered.begin(), ordered.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        for (auto& [order, row] : ordered)
            out.rows.push_back(std::move(row));
        return out;
    }

    std::vector<std::pair<double, CardRow>> rows_of(const PlanLine& line, Level level,
                                                    std::vector<LegendEntry>& legend) const {
        const auto tokens = split(line.what, " + ");
        const bool one_bottle = line.what.find(" then ") == std::string::npos;
        const auto all = moments(line.when);
        // One row for the whole list where that fits and the bottle does not change on the way.
        if (all.size() > 1 && one_bottle) {
            std::vector<LegendEntry> tried = legend;
            const CardRow row = shorten({line.when, tokens}, level, tried);
            if (characters(row) <= row_characters) {
                legend = tried;
                return {{order_of(line, 0, all.front()), row}};
            }
        }
        std::vector<std::pair<double, CardRow>> out;
        for (std::size_t i = 0; i < all.size(); ++i)
            for (const CardRow& row :
                 split_to_fit({all[i], all.size() > 1 ? at_moment(line, i, tokens) : tokens}, level, legend))
                out.emplace_back(all.size() > 1 || is_moment(all[0]) ? order_of(line, i, all[i]) : -1, row);
        return out;
    }

    static bool is_moment(const std::string& when) {
        return starts_with(when, "km ") ||
               (!when.empty() && std::isdigit(static_cast<unsigned char>(when[0])));
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

    static CardRow shorten(const Occasion& occasion, Level level, std::vector<LegendEntry>& legend) {
        Shortener shortener(level, legend);
        std::vector<std::string> what;
        for (const std::string& token : occasion.tokens)
            what.push_back(shortener.token(token));
        return {shortener.when(occasion.when),
                fmt::format("{}", fmt::join(what, level == Level::whole ? " + " : "+"))};
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

LegRows leg_rows(const Plan& plan, int leg_index) {
    return LegWriter(plan, leg_index).write();
}

int characters(const CardRow& row) {
    return static_cast<int>(columns(row.when) + 1 + columns(row.what));
}

} // namespace tuck::faces
