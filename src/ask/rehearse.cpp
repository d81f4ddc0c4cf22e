#include "tuck/ask.hpp"

#include "diary/session_lines.hpp"
#include "io/units.hpp"
#include "tuck/compose.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <stdexcept>

namespace tuck {

namespace {

/// The value of an option, read; its fault carries the option's name.
template <typename Read>
auto value_of(const char* option, const std::optional<std::string>& text, Read read)
    -> std::optional<decltype(read(*text))> {
    if (!text)
        return std::nullopt;
    try {
        return read(*text);
    } catch (const std::invalid_argument& error) {
        throw Error(option, "", error.what());
    }
}

/// What was typed, taken out: the race is asked for without it.
std::optional<std::string> take(Typed& typed, const char* option) {
    const auto taken = typed.extract(option);
    if (taken.empty() || taken.mapped().empty())
        return std::nullopt;
    return taken.mapped().front();
}

void require_in(const char* option, const std::optional<double>& value, double low, double high,
                const char* unit) {
    if (value && (*value < low || *value > high))
        throw Error({{option, "", fmt::format("{:g} is out of range", *value),
                      fmt::format("{:g} to {:g} {}", low, high, unit)}});
}

std::optional<double> session_min(const char* option, const std::optional<std::string>& text) {
    const auto seconds = value_of(option, text, io::duration_s);
    if (!seconds)
        return std::nullopt;
    const double minutes = *seconds / 60;
    if (minutes != 0 && (minutes < 10 || minutes > 720))
        throw Error(option, "",
                    fmt::format("{:g} min is out of range; allowed 0, or 10 to 720 min", minutes));
    return minutes;
}

/// "--days" names days of the week here, unless it is a number: then simulated race days, as for every plan.
std::optional<std::string> take_weekdays(Typed& typed) {
    const auto days = typed.find("--days");
    if (days == typed.end() || days->second.empty() || days->second.front().empty() ||
        !std::isalpha(static_cast<unsigned char>(days->second.front().front())))
        return std::nullopt;
    return take(typed, "--days");
}

RehearsalAsk take_ask(const RehearsalWords& words, Ask& race) {
    RehearsalAsk ask;
    ask.ride_min = session_min("--ride", words.ride);
    ask.run_min = session_min("--run", words.run);
    if (ask.ride_min == 0 && ask.run_min == 0)
        throw Error("--ride", "", "is 0, and so is --run; give at least one of them");
    ask.date = value_of("--date", take(race.options, "--date"), io::calendar_date);
    ask.start_min = value_of("--start", take(race.options, "--start"), io::clock_min);
    if (!race.event)
        return ask;
    ask.temperature_c = value_of("--temperature", take(race.options, "--temperature"), io::temperature_c);
    ask.humidity_pct = value_of("--humidity", take(race.options, "--humidity"), io::humidity_pct);
    require_in("--temperature", ask.temperature_c, -20, 50, "C");
    require_in("--humidity", ask.humidity_pct, 0, 100, "%");
    return ask;
}

} // namespace

namespace {

double main_carb_g_per_h(const Plan& plan) {
    const bool rides = std::any_of(plan.durations.begin(), plan.durations.end(),
                                   [](const LegEffort& leg) { return leg.kind == LegKind::bike; });
    const LegKind main = rides ? LegKind::bike : LegKind::run;
    double carb = 0, seconds = 0;
    for (const auto& leg : plan.durations)
        seconds += leg.kind == main ? leg.time.p50_s : 0;
    for (const auto& feed : plan.feeds)
        carb += feed.leg == main ? feed.carb_g.count() : 0;
    return seconds > 0 ? carb * 3600 / seconds : 0;
}

/// The same foods from the first session to the race: those that the race has at the rate it asks for in the
/// end stand before others at every step on the way there.
void eat_as_at_the_full_rate(Rehearsal& rehearsal, const Pantry& pantry) {
    if (rehearsal.session_carb_g_per_h <= 0 || rehearsal.as_the_race)
        return;
    Event race = rehearsal.race;
    race.rehearses_carb_g_per_h = rehearsal.race_carb_g_per_h;
    auto& like = rehearsal.athlete.like;
    for (const auto& feed : compose_plan(rehearsal.athlete, race, pantry).feeds)
        for (const auto& item : feed.items)
            if (item.from != "station" && item.food != "water_tap" &&
                std::find(like.begin(), like.end(), item.food) == like.end())
                like.push_back(item.food);
}

/// The race as it would be planned at the session's rate. Whole units may keep such a plan far below its
/// rate; then the next higher one that gives what the step means is rehearsed.
Plan race_at_its_rate(Rehearsal& rehearsal, const Pantry& pantry) {
    constexpr double near = 0.9, beyond = 1.12, step_g = 5, most_steps = 3;
    const double asked = rehearsal.session_carb_g_per_h;
    Plan best = compose_plan(rehearsal.athlete, rehearsal.race, pantry);
    double given = main_carb_g_per_h(best);
    const bool short_day = best.total.p50_s < 2 * 3600; // there the aim is "up to"
    rehearsal.planned_at_g_per_h = asked;
    for (int step = 1; step <= most_steps && !short_day && asked > 0 && given < near * asked; ++step) {
        Event higher = rehearsal.race;
        higher.rehearses_carb_g_per_h = asked + step * step_g;
        Plan plan = compose_plan(rehearsal.athlete, higher, pantry);
        const double gives = main_carb_g_per_h(plan);
        if (gives <= given || gives > beyond * asked)
            continue;
        best = std::move(plan);
        given = gives;
        rehearsal.planned_at_g_per_h = *higher.rehearses_carb_g_per_h;
        rehearsal.event.rehearses_carb_g_per_h = higher.rehearses_carb_g_per_h;
    }
    return best;
}

} // namespace

namespace {

/// The race's lines on the session, without what a shorter day makes unsafe or cannot say.
Plan session_plan(Rehearsal& rehearsal, const Pantry& pantry) {
    auto& lines = rehearsal.event.own_lines;
    try {
        auto plan = compose_plan(rehearsal.athlete, rehearsal.event, pantry);
        const auto later = [](const OwnLine& line) { return line.said == diary::brought_forward; };
        if (!plan.refused || std::none_of(lines.begin(), lines.end(), later))
            return plan;
        std::erase_if(lines, later); // too close behind what the ride ends with
        plan = compose_plan(rehearsal.athlete, rehearsal.event, pantry);
        if (!plan.refused)
            return plan;
    } catch (const Error&) {
        // a line that a session cannot say
    }
    lines.clear(); // the foods and the rate alone
    rehearsal.event.own_bottles.clear();
    return compose_plan(rehearsal.athlete, rehearsal.event, pantry);
}

} // namespace

RehearsalSession rehearse_race(const Asked& asked, const RehearsalAsk& session) {
    RehearsalSession out;
    out.rehearsal = plan_rehearsal(asked.athlete, asked.event, asked.learned, session);
    auto& rehearsal = out.rehearsal;
    if (rehearsal.ride_min + rehearsal.run_min <= 0)
        throw Error("--ride", "", "is 0, and so is the run; give at least one of them");
    if (rehearsal.refused)
        return out;
    eat_as_at_the_full_rate(rehearsal, asked.pantry);
    const Plan race = race_at_its_rate(rehearsal, asked.pantry);
    rehearse_plan(race, rehearsal);
    out.plan = session_plan(rehearsal, asked.pantry);
    tell_what_it_gives(race, rehearsal, *out.plan);
    const auto own = own_numbers(asked.learned);
    out.plan->assumptions.insert(out.plan->assumptions.begin(), own.begin(), own.end());
    out.race = race;
    return out;
}

namespace {

RehearsalAsk on_day(const RehearsalAsk& ask, const RehearsalDay& day) {
    RehearsalAsk out = ask;
    out.date = day.date;
    out.carb_g_per_h = day.carb_g_per_h;
    out.as_race_day = day.as_the_race;
    return out;
}

std::string lower(std::string word) {
    std::transform(word.begin(), word.end(), word.begin(), [](unsigned char c) { return std::tolower(c); });
    return word;
}

/// "sat,wed".
Weekdays weekdays_of(const std::string& text) {
    static constexpr const char* names[] = {"sun", "mon", "tue", "wed", "thu", "fri", "sat"};
    Weekdays out;
    for (const auto& word : io::comma_list(text)) {
        const auto found = std::find_if(std::begin(names), std::end(names), [&word](const char* name) {
            return word.size() >= 3 && lower(word).rfind(name, 0) == 0;
        });
        if (found == std::end(names))
            throw std::invalid_argument(fmt::format(
                "\"{}\" is no day of the week; allowed: mon, tue, wed, thu, fri, sat, sun", word));
        out.push_back(static_cast<unsigned>(found - std::begin(names)));
    }
    return out;
}

constexpr int usual_weeks = 6, fewest_weeks = 2, most_weeks = 26;

} // namespace

SeriesAnswer rehearse_until_the_race(const RehearsalAnswer& answer, const SeriesWords& words) {
    const auto weeks = value_of("--weeks", words.weeks, io::whole_number).value_or(usual_weeks);
    if (weeks < fewest_weeks || weeks > most_weeks)
        throw Error("--weeks", "",
                    fmt::format("{} is out of range; allowed {} to {}", weeks, fewest_weeks, most_weeks));
    const auto days = value_of("--days", answer.days, weekdays_of).value_or(Weekdays{});
    const auto typed = value_of("--race-date", words.race_date, io::calendar_date);
    const auto date = typed ? typed : answer.race.event.date;
    if (!date)
        throw Error("--race-date", "", "is missing; give the day of the race, such as 2027-06-13");
    if (answer.session.date && *answer.session.date >= *date)
        throw Error("--date", "",
                    "is the day of one session, and lies not before the race; leave it out: the series "
                    "finds its own days");
    SeriesAnswer out;
    out.race_date = *date;
    out.series = rehearsal_series(answer.session_answer.rehearsal, answer.race.learned, weeks, *date, days);
    for (const auto& day : out.series.days)
        out.sessions.push_back(rehearse_race(answer.race, on_day(answer.session, day)));
    return out;
}

RehearsalAnswer rehearse(const Ask& ask, const RehearsalWords& words) {
    Ask race = ask;
    RehearsalAnswer out;
    out.days = take_weekdays(race.options);
    out.session = take_ask(words, race);
    out.race = read_ask(race);
    out.session_answer = rehearse_race(out.race, out.session);
    return out;
}

} // namespace tuck
