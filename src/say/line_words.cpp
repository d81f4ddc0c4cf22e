#include "say/line_words.hpp"

#include "base/clock.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>

namespace tuck::say {

std::string ordinal(int number) {
    return number == 2 ? "2nd" : number == 3 ? "3rd" : fmt::format("{}th", number);
}

std::string clock(double seconds) {
    return hours_text(seconds);
}

std::string km(double km) {
    return fmt::format("{:g}", std::round(km * 10) / 10);
}

std::string amount(double amount, const std::string& of) {
    if (amount == 0.5)
        return "1/2 " + of;
    if (amount == 1)
        return of == "swallow" || of == "cup" ? "1 " + of : of;
    return fmt::format("{:g} {}s", amount, of);
}

std::string moment(const Line& line, const LegMoment& at) {
    if (is_transition(line.leg))
        return line.leg == LegKind::t1 ? "in T1" : "in T2";
    return line.by_km ? "km " + km(at.km) : clock(at.at_s);
}

bool has_moments(const Line& line) {
    return line.rhythm.kind == Rhythm::Kind::moments && !is_transition(line.leg);
}

bool by_bottle(const Line& line, const LineItem& item) {
    return line.leg == LegKind::bike && item.drink() && item.from.front().name != "station";
}

std::string item(const Line& line, const LineItem& item) {
    if (!item.drink())
        return amount(item.amount, item.label);
    std::string of = item.label;
    if (by_bottle(line, item)) {
        of.clear();
        for (const LineSource& source : item.from)
            of += (of.empty() ? "" : " then ") + source.name;
    }
    return amount(item.amount, item.unit) + " " + of;
}

std::string rhythm(const Line& line) {
    const Rhythm& rhythm = line.rhythm;
    if (rhythm.kind == Rhythm::Kind::every)
        return fmt::format("every {:.0f}'", rhythm.every_s / 60);
    return rhythm.step == 1 ? "each station" : fmt::format("every {} station", ordinal(rhythm.step));
}

std::string window(const Line& line) {
    const auto edge = [&](const std::optional<LegMoment>& at, const char* word) {
        return at ? fmt::format("{} {}", word, moment(line, *at)) : std::string();
    };
    const std::string from = edge(line.window.from, "from"), to = edge(line.window.to, "to");
    return from.empty() || to.empty() ? from + to : from + " " + to;
}

std::string when(const Line& line) {
    if (line.rhythm.kind != Rhythm::Kind::moments) {
        const std::string from_to = window(line);
        return from_to.empty() ? rhythm(line) : rhythm(line) + " " + from_to;
    }
    if (is_transition(line.leg))
        return moment(line, line.at.front());
    std::string text = line.by_km ? "km" : "";
    for (const LegMoment& at : line.at)
        text += (text.empty() ? "" : " ") + (line.by_km ? km(at.km) : clock(at.at_s));
    return text;
}

std::string what(const Line& line) {
    std::string text;
    for (const LineItem& each : line.items)
        text += (text.empty() ? "" : " + ") + item(line, each);
    return text;
}

std::string beside(const Line& line) {
    std::string text = line.stop ? "stop 20 s, at a station or where it is safe" : "";
    for (const Beside& one : line.beside) {
        text += text.empty() ? "" : "; ";
        text += one.kind == Beside::Kind::replaced
                    ? fmt::format("not at {}: another takes its place", clock(one.at_s))
                : one.kind == Beside::Kind::left_out
                    ? fmt::format("not at {}: hands stay on the bar", clock(one.at_s))
                    : fmt::format("{} {} the {} at km {:.0f}", clock(one.at_s),
                                  one.kind == Beside::Kind::before ? "before" : "after", one.stretch, one.km);
    }
    return text;
}

std::string what_whole(const Line& line) {
    const std::string off_the_rhythm = beside(line);
    return off_the_rhythm.empty() ? what(line) : what(line) + " (" + off_the_rhythm + ")";
}

std::string text(const Line& line) {
    return when(line) + ": " + what_whole(line);
}

std::string feed(const PlanFeed& feed) {
    std::string text;
    for (const FeedItem& item : feed.items) {
        text += text.empty() ? "" : " + ";
        if (item.unit == "swallow")
            text +=
                fmt::format("{:g} {} {}", item.amount, item.amount > 1 ? "swallows" : "swallow", item.from);
        else
            text += (item.amount == 0.5 ? "half a" : fmt::format("{:g}", item.amount)) + " " + item.label;
    }
    return text;
}

double steady_s(const Line& line) {
    if (line.at.size() < 2)
        return 0;
    const double step = line.at[1].at_s - line.at[0].at_s;
    for (std::size_t i = 2; i < line.at.size(); ++i)
        if (std::abs(line.at[i].at_s - line.at[i - 1].at_s - step) > 0.5)
            return 0;
    return step;
}

} // namespace tuck::say
