#include "io/own_lines.hpp"

#include "io/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <stdexcept>

namespace tuck::io {

namespace {

constexpr std::size_t longest = 300; // letters
constexpr const char* examples =
    "allowed: \"bike every 15min: 3 swallows iso\", \"run each station: 1 cup water\", "
    "\"bike 1:10: gel\", \"run km 5 10: gel\", \"in T2: gel\", \"B1: water\"";

using Typed = std::vector<std::string>;

Typed words_of(const std::string& text) {
    Typed out;
    std::string word;
    for (const char c : text + " ")
        if (c == ' ' || c == '\t' || c == ',') {
            if (!word.empty())
                out.push_back(word);
            word.clear();
        } else {
            word += c;
        }
    return out;
}

std::string joined(const Typed& words, std::size_t from) {
    std::string out;
    for (std::size_t i = from; i < words.size(); ++i)
        out += (out.empty() ? "" : " ") + words[i];
    return out;
}

bool is_clock(const std::string& word) {
    const auto colon = word.find(':');
    return colon != std::string::npos && colon > 0 && word.size() == colon + 3 &&
           std::all_of(word.begin(), word.end(), [](char c) { return c == ':' || (c >= '0' && c <= '9'); });
}

/// Seconds of "1:10", hours and minutes from the start of a leg; up to 48 h.
double clock_s(const std::string& word) {
    const auto colon = word.find(':');
    if (is_clock(word) && colon <= 2) {
        const int hours = std::stoi(word.substr(0, colon)), minutes = std::stoi(word.substr(colon + 1));
        if (hours < 48 && minutes < 60)
            return 3600.0 * hours + 60.0 * minutes;
    }
    throw std::invalid_argument(
        fmt::format("\"{}\" is no time of a leg; allowed: hours and minutes, 0:40", word));
}

double kilometre(const std::string& word) {
    return distance_m(word.find_first_not_of("0123456789.") == std::string::npos ? word + "km" : word) / 1000;
}

/// 3 of "3", 1/2 of "1/2", else nothing.
std::optional<double> amount_of(const std::string& word) {
    if (word == "1/2" || word == "half")
        return 0.5;
    if (word.empty() || word.size() > 5 || word.find_first_not_of("0123456789.") != std::string::npos ||
        std::count(word.begin(), word.end(), '.') > 1 || word == ".")
        return std::nullopt;
    return std::stod(word);
}

/// Reads words one after the other.
class Reader {
public:
    explicit Reader(Typed words) : words_(std::move(words)) {}
    bool done() const { return next_ >= words_.size(); }
    std::string peek() const { return done() ? "" : words_[next_]; }
    std::string take() {
        if (done())
            throw std::invalid_argument(fmt::format("ends too early; {}", examples));
        return words_[next_++];
    }
    bool take_if(const char* word) {
        const bool is = peek() == word;
        next_ += is ? 1 : 0;
        return is;
    }

private:
    Typed words_;
    std::size_t next_ = 0;
};

std::optional<LegKind> leg_of(const std::string& word) {
    for (const auto kind : {LegKind::t1, LegKind::bike, LegKind::t2, LegKind::run}) {
        std::string name = to_string(kind), lower = word;
        std::transform(lower.begin(), lower.end(), lower.begin(),
                       [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
        if (lower == name)
            return kind;
    }
    return std::nullopt;
}

/// "2nd" -> 2
int ordinal(const std::string& word) {
    const auto end = word.find_first_not_of("0123456789");
    const auto tail = end == std::string::npos ? "" : word.substr(end);
    if (end == 1 && (tail == "nd" || tail == "rd" || tail == "th") && word[0] >= '2')
        return word[0] - '0';
    throw std::invalid_argument(
        fmt::format("\"{}\" is no rhythm; allowed: each station, every 2nd to 9th station, every "
                    "15min",
                    word));
}

double rhythm_s(std::string word) {
    if (!word.empty() && word.back() == '\'')
        word.replace(word.size() - 1, 1, "min");
    const double seconds = duration_s(word);
    if (seconds < 60 || seconds > 6 * 3600)
        throw std::invalid_argument(fmt::format("\"{}\" is no rhythm; allowed: every 1min to 6h", word));
    return seconds;
}

void read_edge(Reader& words, const char* name, std::optional<double>& at_s, std::optional<double>& at_km) {
    if (!words.take_if(name))
        return;
    if (words.take_if("km"))
        at_km = kilometre(words.take());
    else if (is_clock(words.peek()))
        at_s = clock_s(words.take());
    else
        at_km = kilometre(words.take());
}

void read_moments(Reader& words, OwnLine& line) {
    const bool km = words.take_if("km");
    while (!words.done())
        if (!km && is_clock(words.peek()))
            line.at_s.push_back(clock_s(words.take()));
        else
            line.at_km.push_back(kilometre(words.take()));
    if (line.at_s.empty() == line.at_km.empty())
        throw std::invalid_argument(fmt::format("says no moment, or moments of both kinds; {}", examples));
}

void read_when(Reader& words, OwnLine& line) {
    if (is_transition(line.leg)) { // "T2", "in T2", and both of them
        while (words.peek() == "in" || leg_of(words.peek()) == line.leg)
            words.take();
        if (words.done())
            return;
        throw std::invalid_argument(fmt::format("\"{}\": a transition has one moment", words.peek()));
    }
    if (words.take_if("each")) {
        line.when = OwnLine::When::stations;
        if (!words.take_if("station"))
            throw std::invalid_argument(fmt::format("\"each {}\" is not known; {}", words.peek(), examples));
    } else if (words.take_if("every")) {
        const auto rhythm = words.take();
        if (words.take_if("station")) {
            line.when = OwnLine::When::stations;
            line.step = ordinal(rhythm);
        } else {
            line.when = OwnLine::When::every;
            line.every_s = words.take_if("min") ? rhythm_s(rhythm + "min") : rhythm_s(rhythm);
        }
    } else {
        return read_moments(words, line);
    }
    read_edge(words, "from", line.from_s, line.from_km);
    read_edge(words, "to", line.to_s, line.to_km);
    if (!words.done())
        throw std::invalid_argument(fmt::format("\"{}\" is not understood; {}", words.peek(), examples));
}

/// "3 swallows B1", "1/2 bar", "gel_25"
OwnPart part_of(const std::string& text) {
    constexpr double most = 100;
    const Typed words = words_of(text);
    OwnPart out;
    std::size_t next = 0;
    if (!words.empty())
        if (const auto amount = amount_of(words[0])) {
            out.amount = *amount;
            ++next;
        }
    if (out.amount <= 0 || out.amount > most)
        throw std::invalid_argument(
            fmt::format("\"{}\": allowed: more than 0 and up to {:g} of it", text, most));
    if (next < words.size())
        for (const char* unit : {"swallow", "cup"})
            if (words[next] == unit || words[next] == std::string(unit) + "s") {
                out.unit = unit;
                ++next;
                break;
            }
    if (!out.unit.empty() && next < words.size() && words[next] == "of")
        ++next;
    out.of = joined(words, next);
    if (out.of.empty())
        throw std::invalid_argument(fmt::format("\"{}\" says no food and no drink; {}", text, examples));
    return out;
}

std::vector<std::string> split(const std::string& text, const std::string& by) {
    std::vector<std::string> out;
    std::size_t from = 0;
    for (std::size_t at; (at = text.find(by, from)) != std::string::npos; from = at + by.size())
        out.push_back(text.substr(from, at - from));
    out.push_back(text.substr(from));
    return out;
}

/// "stop 20 s, at a station or where it is safe; not at 1:00: hands stay on the bar; 0:44 before the descent"
void read_note(const std::string& note, OwnLine& line) {
    for (const auto& one : split(note, ";")) {
        Reader words(words_of(one));
        if (words.take_if("stop")) {
            line.stop = true;
            continue;
        }
        const bool not_at = words.take_if("not") && words.take_if("at");
        auto when = words.take();
        if (!when.empty() && when.back() == ':')
            when.pop_back();
        (not_at ? line.left_out_s : line.moved_s).push_back(clock_s(when));
    }
}

/// The colon between when and what: the first that a blank follows.
std::size_t colon_of(const std::string& text) {
    const auto at = text.find(": ");
    if (at == std::string::npos)
        throw std::invalid_argument(
            fmt::format("has no colon and blank between when and what; {}", examples));
    return at;
}

bool is_vessel(const Typed& words) {
    const bool bottle = words.size() == 1 && words[0].size() == 2 && words[0][0] == 'B' &&
                        words[0][1] >= '1' && words[0][1] <= '9';
    const bool flask = !words.empty() && words[0] == "flask" && words.size() <= 2;
    const bool transition = words.size() >= 2 && words[1] == "bottle" && leg_of(words[0]);
    return bottle || flask || transition;
}

/// "B1 (750 ml bottle)" -> "B1"
std::string without_note(const std::string& text) {
    const auto open = text.find(" (");
    return open != std::string::npos && text.back() == ')' ? text.substr(0, open) : text;
}

/// "water", "45 g iso drink + 0.5 g salt", with or without ", then water to 375 ml" or "to the top" behind
/// it.
OwnBottle bottle_of(const std::string& name, std::string what, const std::string& said) {
    OwnBottle out{name, "", {}, {}, said};
    for (const char* edge : {", then water to ", " to "}) {
        const auto at = what.find(edge);
        if (at == std::string::npos)
            continue;
        const auto fill = what.substr(at + std::string(edge).size());
        if (fill != "the top")
            out.fill_ml = volume_ml(fill);
        what.resize(at);
        break;
    }
    for (const auto& part : split(what, " + ")) {
        const Typed words = words_of(without_note(part));
        const auto grams = words.size() > 2 && words[1] == "g" ? amount_of(words[0]) : std::nullopt;
        if (grams)
            out.grams.push_back({*grams, joined(words, 2)});
        else
            out.of = joined(words, 0);
    }
    if (out.of.empty() == out.grams.empty())
        throw std::invalid_argument(fmt::format(
            "\"{}\": allowed: one drink, or grams of powders, \"45 g iso drink + 0.5 g salt\"", what));
    return out;
}

} // namespace

void add_own_line(const std::string& text, Event& event) {
    if (text.size() > longest)
        throw std::invalid_argument(fmt::format("is longer than {} letters", longest));
    const auto colon = colon_of(text);
    Typed head = words_of(without_note(text.substr(0, colon)));
    std::string what = text.substr(colon + 2);
    if (is_vessel(head)) {
        event.own_bottles.push_back(bottle_of(joined(head, 0), what, text));
        return;
    }
    OwnLine line;
    line.said = text;
    std::size_t next = !head.empty() && head[0] == "in" ? 1 : 0;
    const auto leg = next < head.size() ? leg_of(head[next]) : std::nullopt;
    if (!leg)
        throw std::invalid_argument(fmt::format("names no leg that feeds (bike, run, T1, T2); {}", examples));
    line.leg = *leg;
    ++next;
    if (next < head.size() && head[next].size() == 1 && head[next][0] >= '1' && head[next][0] <= '9')
        line.which = head[next++][0] - '0';
    Reader when(Typed(head.begin() + static_cast<std::ptrdiff_t>(next), head.end()));
    read_when(when, line);
    if (const auto open = what.find(" ("); open != std::string::npos && what.back() == ')') {
        read_note(what.substr(open + 2, what.size() - open - 3), line);
        what.resize(open);
    }
    for (const auto& part : split(what, " + "))
        line.parts.push_back(part_of(part));
    event.own_lines.push_back(std::move(line));
}

} // namespace tuck::io
