#include "io/event_file.hpp"

#include "io/athlete_file.hpp"
#include "io/event_document.hpp"
#include "io/event_fields.hpp"
#include "io/event_legs.hpp"
#include "io/field_reader.hpp"

#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <stdexcept>

namespace tuck::io {

namespace {

constexpr char athlete_at[] = "/athlete";

void check_weather(Node& root, const Weather& weather) {
    if (!root.has("weather"))
        root.fault("weather", "is missing; give at least {\"temperature_c\": ...}");
    for (std::size_t i = 1; i < weather.hourly.size(); ++i)
        if (weather.hourly[i].hour <= weather.hourly[i - 1].hour)
            root.faults().push_back(
                {"", fmt::format("/weather/hourly/{}/hour", i),
                 fmt::format("{:g} does not come after {:g}; hours stand in the order of the day",
                             weather.hourly[i].hour, weather.hourly[i - 1].hour)});
    if (!weather.hourly.empty() && !root.has("start_local"))
        root.fault("start_local", "is missing; weather by the hour needs the start");
}

/// Gives each of the athlete's times to the one leg of that kind. `places` then says where each time stands.
void take_times(Node& root, const EventDocument& document, const LegTimes& times, std::vector<Leg>& legs,
                std::vector<std::string>& places, std::vector<std::string>& instead) {
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
        const auto typed = document.option_at.find("/" + key);
        if (leg.time_s && std::abs(*leg.time_s - time_s) > 0.5 && typed != document.option_at.end()) {
            instead.push_back(instead_of(typed->second, duration_text(time_s), duration_text(*leg.time_s),
                                         document.place_of(places[found[0]])));
        } else if (leg.time_s && std::abs(*leg.time_s - time_s) > 0.5) {
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

/// The athlete file that an event names, as handed over, or from the disk.
Document named_athlete(const EventDocument& document, const std::string& name) {
    if (!document.files)
        return (std::filesystem::path(document.file).parent_path() / name).string();
    const auto given = document.files->athletes.find(name);
    if (given == document.files->athletes.end())
        throw InputError(document.file, athlete_at, "\"" + name + "\" was not given; open that file too");
    return {name, given->second};
}

} // namespace

std::string instead_of(const std::string& option, const std::string& typed, const std::string& said,
                       const std::string& place) {
    return fmt::format("{}: {} instead of {} ({})", option, typed, said, place);
}

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

EventDocument load_event(const Document& event, std::shared_ptr<const NamedFiles> files) {
    const std::string& path = event.name;
    EventDocument document;
    document.file = path;
    document.files = std::move(files);
    document.json = read_json(event);
    if (!document.json.is_object())
        throw InputError(path, "/", "must be an object: { ... }");
    const auto athlete = document.json.find("athlete");
    if (athlete != document.json.end() && athlete->is_string()) {
        const auto name = athlete->get<std::string>();
        if (name.empty() || !is_plain_text(name))
            throw InputError(path, athlete_at, "must be an athlete or the name of an athlete file");
        put_athlete(document, named_athlete(document, name));
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
    input.instead = document.instead;
    LegTimes times;
    Node root(document.json, "", "", faults);
    read_heading(root, "tuck.event/1");
    auto places = read_legs(root, document, input.event);
    FieldReader reader(root);
    visit_fields(input.event, reader);
    check_weather(root, input.event.weather);
    if (input.event.fill && input.event.own_lines.empty())
        root.fault("fill", "completes a plan of your own lines; there are none");
    if (auto node = root.object("athlete")) {
        input.athlete = athlete_from(*node, times);
        input.athlete_given = true;
    }
    root.finish();
    check_results(root, input);
    if (!input.event.legs.empty()) {
        take_times(root, document, times, input.event.legs, places, input.instead);
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
