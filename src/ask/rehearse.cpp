#include "tuck/ask.hpp"

#include "io/units.hpp"
#include "tuck/compose.hpp"

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

double session_min(const char* option, const std::optional<std::string>& text, double usual) {
    const auto seconds = value_of(option, text, io::duration_s);
    const double minutes = seconds ? *seconds / 60 : usual;
    if (minutes != 0 && (minutes < 10 || minutes > 720))
        throw Error(option, "",
                    fmt::format("{:g} min is out of range; allowed 0, or 10 to 720 min", minutes));
    return minutes;
}

RehearsalAsk take_ask(const RehearsalWords& words, Ask& race) {
    RehearsalAsk ask;
    ask.ride_min = session_min("--ride", words.ride, ask.ride_min);
    ask.run_min = session_min("--run", words.run, ask.run_min);
    if (ask.ride_min + ask.run_min <= 0)
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

RehearsalAnswer rehearse(const Ask& ask, const RehearsalWords& words) {
    Ask race = ask;
    RehearsalAnswer out;
    out.session = take_ask(words, race);
    out.race = read_ask(race);
    const auto& asked = out.race;
    out.rehearsal = plan_rehearsal(asked.athlete, asked.event, asked.learned, out.session);
    if (out.rehearsal.refused)
        return out;
    out.plan = compose_plan(out.rehearsal.athlete, out.rehearsal.event, asked.pantry);
    const auto own = own_numbers(asked.learned);
    out.plan->assumptions.insert(out.plan->assumptions.begin(), own.begin(), own.end());
    return out;
}

} // namespace tuck
