#include "io/athlete_file.hpp"

#include "io/athlete_fields.hpp"
#include "io/field_reader.hpp"
#include "io/units.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <utility>

namespace tuck::io {

namespace {

/// Slowest and fastest believable mean speed of an event, m/s: our choice, wider than any result.
struct SpeedBounds {
    double low, high;
};
SpeedBounds speed_bounds(Sport sport) {
    switch (sport) {
    case Sport::swim:
        return {0.1, 2.5};
    case Sport::bike:
        return {1, 25};
    case Sport::run:
        break;
    }
    return {0.4, 9};
}

} // namespace

const std::vector<std::pair<std::string, Sport>>& sport_words() {
    static const std::vector<std::pair<std::string, Sport>> words = {
        {"swim", Sport::swim}, {"bike", Sport::bike}, {"run", Sport::run}};
    return words;
}

Sport sport_of(LegKind leg) {
    return leg == LegKind::swim ? Sport::swim : leg == LegKind::bike ? Sport::bike : Sport::run;
}

Athlete athlete_from(Node& node, LegTimes& times) {
    AthleteInput input;
    read_heading(node, "tuck.athlete/1");
    FieldReader reader(node);
    visit_fields(input, reader);
    const Athlete& athlete = input.athlete;
    for (const auto& word : athlete.like)
        if (std::find(athlete.avoid.begin(), athlete.avoid.end(), word) != athlete.avoid.end())
            node.fault("avoid", fmt::format("\"{}\" stands in \"like\" too; leave one of the two out", word));
    node.finish();
    times = input.times;
    return athlete;
}

Athlete read_athlete(const std::string& path) {
    const Json json = read_json(path);
    std::vector<Fault> faults;
    LegTimes times;
    Node node(json, path, "", faults);
    Athlete athlete = athlete_from(node, times);
    if (!faults.empty())
        throw InputError(faults);
    return athlete;
}

std::vector<RecentResult> results_in(Node& node, const std::string& key) {
    std::vector<RecentResult> results;
    for (auto& item : node.objects(key, most_results)) {
        RecentResult result;
        const auto sport = item.choice<Sport>("sport", sport_words());
        if (!item.has("sport"))
            item.missing("sport");
        result.sport = sport.value_or(Sport::run);
        result.distance_m =
            item.required_number("distance_m", shortest_result_m, longest_leg_m(result.sport), "m");
        const auto time = time_in(item, "time");
        if (!item.has("time"))
            item.missing("time");
        result.time_s = time.value_or(0);
        if (sport && time) {
            const auto why = unbelievable(result.sport, result.distance_m, result.time_s);
            if (!why.empty())
                item.fault("time", why);
        }
        result.date = day_in(item, "date");
        item.finish();
        results.push_back(result);
    }
    return results;
}

std::optional<double> time_in(Node& node, const std::string& key, double longest_s) {
    const auto text = node.text(key, 20);
    if (!text)
        return std::nullopt;
    try {
        const double seconds = duration_s(*text);
        if (seconds >= 1 && seconds <= longest_s)
            return seconds;
        node.fault(key,
                   fmt::format("\"{}\" is out of range; allowed 1 s to {:g} h", *text, longest_s / 3600));
    } catch (const std::invalid_argument& error) {
        node.fault(key, error.what());
    }
    return std::nullopt;
}

std::optional<std::string> day_in(Node& node, const std::string& key) {
    const auto text = node.text(key);
    if (!text)
        return std::nullopt;
    try {
        return calendar_date(*text);
    } catch (const std::invalid_argument& error) {
        node.fault(key, error.what());
        return std::nullopt;
    }
}

double longest_leg_m(Sport sport) {
    return sport == Sport::swim ? 25000 : sport == Sport::bike ? 1000000 : 330000;
}

std::string unbelievable(Sport sport, double distance_m, double time_s) {
    const auto bounds = speed_bounds(sport);
    const double speed = distance_m / time_s;
    if (speed >= bounds.low && speed <= bounds.high)
        return {};
    return fmt::format(
        "{} over {:g} km is {:.1f} km/h; allowed {:g} to {:g} km/h (a time is min:s or h:min:s)",
        duration_text(time_s), distance_m / 1000, speed * 3.6, bounds.low * 3.6, bounds.high * 3.6);
}

void read_heading(Node& node, const std::string& schema) {
    node.text("about", 500);
    const auto given = node.text("schema");
    if (given && *given != schema)
        node.fault("schema", fmt::format("\"{}\" is not known here; allowed: \"{}\"", *given, schema));
}

} // namespace tuck::io
