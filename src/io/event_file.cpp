#include "io/event_file.hpp"

#include "io/athlete_file.hpp"
#include "io/event_document.hpp"
#include "io/event_legs.hpp"
#include "io/own_lines.hpp"
#include "io/units.hpp"

#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <stdexcept>

namespace tuck::io {

namespace {

constexpr char athlete_at[] = "/athlete";

/// The text under `key` as `read` understands it.
template <typename Read>
auto read_text(Node& node, const std::string& key, Read read)
    -> std::optional<decltype(read(std::string()))> {
    const auto text = node.text(key);
    if (!text)
        return std::nullopt;
    try {
        return read(*text);
    } catch (const std::invalid_argument& error) {
        node.fault(key, error.what());
        return std::nullopt;
    }
}

/// A word for the sky, or W/m2 with their unit: what `--sun` says; it outranks `sun_w_m2`.
void read_sun(Node& node, Weather& weather) {
    weather.sun_w_m2 = node.number("sun_w_m2", 0, 1300, "W/m2");
    weather.cloud_pct = node.number("cloud_pct", 0, 100, "%");
    const auto sun = read_text(node, "sun", sun_light);
    if (!sun)
        return;
    weather.sun_share = sun->share;
    weather.sun_w_m2 = sun->w_m2;
    if (sun->w_m2 && *sun->w_m2 > 1300)
        node.fault("sun", fmt::format("{:g} is out of range; allowed 0 to 1300 W/m2", *sun->w_m2));
}

std::vector<HourlyWeather> read_hours(Node& weather) {
    std::vector<HourlyWeather> hours;
    for (auto& node : weather.objects("hourly", 49)) {
        HourlyWeather at;
        at.hour = node.required_number("hour", 0, 48, "h");
        at.temperature_c = node.required_number("temperature_c", -20, 50, "C");
        at.humidity_pct = node.number("humidity_pct", 0, 100, "%");
        at.wind_m_s = node.number("wind_m_s", 0, 25, "m/s");
        at.sun_w_m2 = node.number("sun_w_m2", 0, 1300, "W/m2");
        if (!hours.empty() && at.hour <= hours.back().hour)
            node.fault("hour",
                       fmt::format("{:g} does not come after {:g}; hours stand in the order of the day",
                                   at.hour, hours.back().hour));
        node.finish();
        hours.push_back(at);
    }
    return hours;
}

void read_weather(Node& root, Weather& weather) {
    auto node = root.object("weather");
    if (!node) {
        if (!root.has("weather"))
            root.fault("weather", "is missing; give at least {\"temperature_c\": ...}");
        return;
    }
    weather.temperature_c = node->required_number("temperature_c", -20, 50, "C");
    weather.humidity_pct = node->number("humidity_pct", 0, 100, "%");
    weather.wind_m_s = node->number("wind_m_s", 0, 25, "m/s");
    weather.wind_from_deg = node->number("wind_from_deg", 0, 360, "degrees");
    weather.water_temperature_c = node->number("water_temperature_c", 0, 35, "C");
    read_sun(*node, weather);
    weather.hourly = read_hours(*node);
    node->finish();
    if (!weather.hourly.empty() && !root.has("start_local"))
        root.fault("start_local", "is missing; weather by the hour needs the start");
}

void read_kit(Node& root, Kit& kit) {
    auto node = root.object("kit");
    if (!node)
        return;
    const auto bottles = node->numbers("bike_bottles_ml", 100, 2000, "ml", 6);
    if (node->has("bike_bottles_ml"))
        kit.bike_bottles_ml = bottles;
    kit.run_flask_ml = node->number("run_flask_ml", 0, 2000, "ml");
    kit.run_gels = node->whole("run_gels", 0, 20);
    node->finish();
}

void read_day(Node& root, Event& event) {
    event.date = day_in(root, "date");
    event.latitude_deg = root.number("latitude", -90, 90, "degrees");
    event.longitude_deg = root.number("longitude", -180, 180, "degrees");
    event.utc_offset_h = root.number("utc_offset_h", -12, 14, "h");
    event.cutoff_s = time_in(root, "cutoff");
    event.start_min = read_text(root, "start_local", clock_min);
    event.transition_closes_min = read_text(root, "transition_closes", clock_min);
    event.wave = root.text("wave", 20).value_or("");
    event.wave_offset_min = root.number("wave_offset_min", 0, 720, "min").value_or(0);
    event.pen_wait_min = root.number("pen_wait_min", 0, 240, "min").value_or(0);
}

void read_rest(Node& root, Event& event) {
    event.name = root.text("name", 60).value_or("");
    event.race = root.choice<bool>("session", {{"race", true}, {"training", false}}).value_or(true);
    event.station_policy = root.choice<StationPolicy>("stations", {{"typical", StationPolicy::typical}})
                               .value_or(StationPolicy::as_given);
    event.salt_water = root.flag("salt_water").value_or(false);
    event.draft_legal = root.flag("draft_legal").value_or(false);
    event.next_session_within_24_h = root.flag("next_session_within_24_h").value_or(false);
    event.seed = static_cast<unsigned long long>(root.whole("seed", 0, 2147483647).value_or(1));
    event.days = root.whole("days", 0, 100000).value_or(10000);
}

/// "2:30" on the clock of a leg.
double leg_clock_s(const std::string& text) {
    return clock_min(text) * 60.0;
}

/// What the athlete decides instead of the plan.
void read_wishes(Node& root, Event& event) {
    event.wanted_carb_g_per_h = root.number("carb_g_per_h", 0, 120, "g/h");
    event.caffeine_mg = root.number("caffeine_mg", 1, 400, "mg");
    event.caffeine_at_s = read_text(root, "caffeine_at", leg_clock_s);
    event.fill = root.flag("fill").value_or(false);
    size_t place = 0;
    for (const auto& line : root.texts("own_lines", 40)) {
        try {
            add_own_line(line, event);
        } catch (const std::invalid_argument& error) {
            root.faults().push_back({"", fmt::format("/own_lines/{}", place), error.what()});
        }
        ++place;
    }
    if (event.fill && event.own_lines.empty())
        root.fault("fill", "completes a plan of your own lines; there are none");
}

/// Gives each of the athlete's times to the one leg of that kind. `places` then says where each time stands.
void take_times(Node& root, const EventDocument& document, const LegTimes& times, std::vector<Leg>& legs,
                std::vector<std::string>& places) {
    for (auto& place : places)
        if (!place.empty())
            place += "/time";
    for (const auto& [kind, time_s] : times) {
        const std::string key = std::string("athlete/times/") + to_string(kind);
        const auto fault = [&](const std::string& text) { root.faults().push_back({"", "/" + key, text}); };
        std::vector<size_t> found;
        for (size_t i = 0; i < legs.size(); ++i)
            if (legs[i].kind == kind)
                found.push_back(i);
        if (found.size() != 1) {
            fault(found.empty() ? fmt::format("the event has no {} leg", to_string(kind))
                                : fmt::format("the event has {} {} legs; give their times under \"legs\"",
                                              found.size(), to_string(kind)));
            continue;
        }
        Leg& leg = legs[found[0]];
        if (leg.time_s && std::abs(*leg.time_s - time_s) > 0.5) {
            fault(fmt::format("says {}, but {} says {}; leave one of the two out", duration_text(time_s),
                              document.place_of(places[found[0]]), duration_text(*leg.time_s)));
            continue;
        }
        leg.time_s = time_s;
        places[found[0]] = "/" + key;
    }
}

void check_times(Node& root, const std::vector<Leg>& legs, const std::vector<std::string>& places) {
    double total_s = 0;
    for (size_t i = 0; i < legs.size(); ++i) {
        const Leg& leg = legs[i];
        if (!leg.time_s)
            continue;
        total_s += *leg.time_s;
        if (is_transition(leg.kind) || leg.distance_m <= 0)
            continue;
        const auto why = unbelievable(sport_of(leg.kind), leg.distance_m, *leg.time_s);
        if (!why.empty())
            root.faults().push_back({"", places[i], why});
    }
    if (total_s > longest_event_s)
        root.fault("legs", fmt::format("take {} in all; allowed up to {:g} h", duration_text(total_s),
                                       longest_event_s / 3600));
}

/// A result that lies after the event is a slip of the pen.
void check_results(Node& root, const EventInput& input) {
    for (size_t i = 0; i < input.athlete.recent.size(); ++i) {
        const auto& date = input.athlete.recent[i].date;
        if (date && input.event.date && *date > *input.event.date)
            root.faults().push_back(
                {"", fmt::format("/athlete/recent/{}/date", i),
                 fmt::format("{} lies after the event; allowed up to {}", *date, *input.event.date)});
    }
}

} // namespace

std::string EventDocument::place_of(const std::string& pointer) const {
    const Fault fault = placed({"", pointer, ""});
    if (fault.place.empty())
        return fault.file;
    return fault.file.empty() ? fault.place : fault.file + ": " + fault.place;
}

Fault EventDocument::placed(Fault fault) const {
    for (std::string at = fault.place; !at.empty(); at.erase(at.rfind('/'))) {
        const auto option = option_at.find(at);
        if (option == option_at.end())
            continue;
        fault.file = option->second;
        fault.place.clear();
        return fault;
    }
    const size_t length = sizeof athlete_at - 1;
    const bool of_athlete = fault.place.compare(0, length, athlete_at) == 0 &&
                            (fault.place.size() == length || fault.place[length] == '/');
    if (of_athlete && !athlete_file.empty()) {
        fault.file = athlete_file;
        fault.place.erase(0, length);
    } else {
        fault.file = file.empty() ? "options" : file;
    }
    return fault;
}

EventDocument load_event(const Document& event) {
    const std::string& path = event.name;
    EventDocument document;
    document.file = path;
    document.json = read_json(event);
    if (!document.json.is_object())
        throw InputError(path, "/", "must be an object: { ... }");
    const auto athlete = document.json.find("athlete");
    if (athlete != document.json.end() && athlete->is_string()) {
        const auto name = athlete->get<std::string>();
        if (name.empty() || !is_plain_text(name))
            throw InputError(path, athlete_at, "must be an athlete or the name of an athlete file");
        put_athlete(document, (std::filesystem::path(path).parent_path() / name).string());
    }
    return document;
}

void put_athlete(EventDocument& document, const Document& athlete) {
    document.json["athlete"] = read_json(athlete);
    document.athlete_file = athlete.name;
}

EventInput read_event(const EventDocument& document) {
    std::vector<Fault> faults;
    EventInput input;
    LegTimes times;
    Node root(document.json, "", "", faults);
    read_heading(root, "tuck.event/1");
    read_rest(root, input.event);
    read_wishes(root, input.event);
    auto places = read_legs(root, document, input.event);
    read_weather(root, input.event.weather);
    read_kit(root, input.event.kit);
    read_day(root, input.event);
    if (auto node = root.object("athlete")) {
        input.athlete = athlete_from(*node, times);
        input.athlete_given = true;
    }
    root.finish();
    check_results(root, input);
    if (!input.event.legs.empty()) {
        take_times(root, document, times, input.event.legs, places);
        check_times(root, input.event.legs, places);
    }
    if (faults.empty()) {
        input.document = std::make_shared<const EventDocument>(document);
        return input;
    }
    for (auto& fault : faults)
        fault = document.placed(fault);
    throw InputError(faults);
}

EventInput read_event(const std::string& path) {
    return read_event(load_event(path));
}

EventInput read_event(const std::string& path, const std::string& athlete_path) {
    auto document = load_event(path);
    put_athlete(document, athlete_path);
    return read_event(document);
}

} // namespace tuck::io
