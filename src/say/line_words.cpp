#include "say/line_words.hpp"

#include "base/clock.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>

namespace tuck::say {

std::string clock(double seconds) {
    return hours_text(seconds);
}

std::string km(double km) {
    return fmt::format("{:g}", std::round(km * 10) / 10);
}

std::string amount(double amount, const std::string& of, Language language) {
    return words(language).amount(amount, of);
}

std::string moment(const Line& line, const LegMoment& at, Language language) {
    if (is_transition(line.leg))
        return line.leg == LegKind::t1 ? words(language).in_t1 : words(language).in_t2;
    return line.by_km ? "km " + km(at.km) : clock(at.at_s);
}

bool has_moments(const Line& line) {
    return line.rhythm.kind == Rhythm::Kind::moments && !is_transition(line.leg);
}

bool by_bottle(const Line& line, const LineItem& item) {
    return line.leg == LegKind::bike && item.drink() && item.from.front().name != "station";
}

std::string item(const Line& line, const LineItem& item, Language language) {
    const Words& say = words(language);
    if (!item.drink())
        return say.amount(item.amount, item.label);
    std::string of = say.noun(item.label);
    if (by_bottle(line, item)) {
        of.clear();
        for (const LineSource& source : item.from)
            of += (of.empty() ? "" : say.then) + source.name;
    }
    return say.amount(item.amount, item.unit) + " " + of;
}

std::string rhythm(const Line& line, Language language) {
    const Words& say = words(language);
    const Rhythm& rhythm = line.rhythm;
    if (rhythm.kind == Rhythm::Kind::every)
        return fmt::format(fmt::runtime(say.every), rhythm.every_s / 60);
    return rhythm.step == 1 ? say.each_station
                            : fmt::format(fmt::runtime(say.nth_station), say.ordinal(rhythm.step));
}

std::string window(const Line& line, Language language) {
    const Words& say = words(language);
    const auto edge = [&](const std::optional<LegMoment>& at, const char* word) {
        return at ? fmt::format(fmt::runtime(word), moment(line, *at, language)) : std::string();
    };
    const std::string from = edge(line.window.from, say.from), to = edge(line.window.to, say.to);
    return from.empty() || to.empty() ? from + to : from + " " + to;
}

std::string when(const Line& line, Language language) {
    if (line.rhythm.kind != Rhythm::Kind::moments) {
        const std::string from_to = window(line, language);
        return rhythm(line, language) + (from_to.empty() ? "" : " " + from_to);
    }
    if (is_transition(line.leg))
        return moment(line, line.at.front(), language);
    std::string text = line.by_km ? "km" : "";
    for (const LegMoment& at : line.at)
        text += (text.empty() ? "" : " ") + (line.by_km ? km(at.km) : clock(at.at_s));
    return text;
}

std::string what(const Line& line, Language language) {
    std::string text;
    for (const LineItem& each : line.items)
        text += (text.empty() ? "" : " + ") + item(line, each, language);
    return text;
}

std::string beside(const Line& line, Language language) {
    const Words& say = words(language);
    std::string text = line.stop ? say.stop : "";
    for (const Beside& one : line.beside) {
        text += text.empty() ? "" : "; ";
        const auto at = clock(one.at_s);
        if (one.kind == Beside::Kind::replaced || one.kind == Beside::Kind::left_out)
            text += fmt::format(
                fmt::runtime(one.kind == Beside::Kind::replaced ? say.replaced : say.left_out), at);
        else
            text += fmt::format(
                fmt::runtime(one.kind == Beside::Kind::before ? say.before_stretch : say.after_stretch), at,
                say.stretch(one.stretch), one.km);
    }
    return text;
}

std::string what_whole(const Line& line, Language language) {
    const std::string off_the_rhythm = beside(line, language);
    return what(line, language) + (off_the_rhythm.empty() ? "" : " (" + off_the_rhythm + ")");
}

std::string text(const Line& line, Language language) {
    return when(line, language) + ": " + what_whole(line, language);
}

std::string feed(const PlanFeed& feed, Language language) {
    const Words& say = words(language);
    std::string text;
    for (const FeedItem& item : feed.items) {
        text += text.empty() ? "" : " + ";
        if (item.unit == "swallow")
            text += say.amount(item.amount, item.unit) + " " + item.from;
        else
            text += say.logged(item.amount, item.label);
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
