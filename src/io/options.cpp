#include "io/options.hpp"

#include "io/event_document.hpp"
#include "io/input_options.hpp"
#include "io/units.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <stdexcept>

namespace tuck::io {

namespace {

/// The options as one event document, and which option said what.
struct Asked {
    Json json = Json::object();
    std::map<std::string, std::string> option_at;
    std::map<std::string, std::string> failed; // the same, of options that could not be read
    std::vector<Fault> faults;

    /// `read` turns the text into the value that an event file would hold at `pointer`.
    template <typename Read>
    void put(const char* option, const OptionText& text, const char* pointer, Read read) {
        if (!text)
            return;
        option_at[pointer] = option;
        const Json::json_pointer at(pointer);
        if (json[at.parent_pointer()].is_null()) // stands even where the value does not
            json[at.parent_pointer()] = Json::object();
        try {
            json[at] = read(*text);
        } catch (const std::invalid_argument& error) {
            failed[pointer] = option;
            faults.push_back({option, "", error.what()});
        }
    }

    /// One more value of a list.
    template <typename Read>
    void append(const char* option, const std::string& text, const char* pointer, Read read) {
        try {
            for (const auto& value : read(text)) {
                auto& list = json[Json::json_pointer(pointer)];
                option_at[fmt::format("{}/{}", pointer, list.size())] = option;
                list.push_back(value);
            }
        } catch (const std::invalid_argument& error) {
            faults.push_back({option, "", error.what()});
        }
    }
};

/// False for a distance; what is neither is told as a distance, unless it looks like a time.
bool is_duration(const std::string& amount) {
    try {
        duration_s(amount);
        return true;
    } catch (const std::invalid_argument&) {
        if (amount.find(':') != std::string::npos || amount.ends_with("min") || amount.ends_with("h") ||
            amount.ends_with("s"))
            throw;
        return false;
    }
}

/// "swim:750m,bike:90min".
Json as_legs(const std::string& text) {
    Json legs = Json::array();
    for (const auto& part : comma_list(text)) {
        const auto colon = part.find(':');
        if (colon == std::string::npos)
            throw std::invalid_argument(fmt::format(
                "\"{}\" is not a leg; allowed: sport:distance or sport:time, such as swim:750m", part));
        const auto amount = part.substr(colon + 1);
        Json leg = {{"sport", part.substr(0, colon)}};
        if (is_duration(amount))
            leg["time"] = amount;
        else
            leg["distance_m"] = distance_m(amount);
        legs.push_back(leg);
    }
    return legs;
}

/// Every field that was typed, at its place.
void ask_fields(Asked& asked, const std::vector<InputOption>& fields, const PlanOptions& o) {
    for (const auto& field : fields) {
        if (const auto text = o.texts.find(field.option); text != o.texts.end())
            asked.put(field.option.c_str(), text->second, field.pointer.c_str(), field.read);
        if (const auto list = o.lists.find(field.option); list != o.lists.end())
            for (const auto& text : list->second)
                asked.append(field.option.c_str(), text, field.pointer.c_str(), field.read);
    }
}

void ask_event(Asked& asked, const PlanOptions& o) {
    const auto as_is = [](const std::string& text) { return text; };
    asked.put("--distance", o.distance, "/distance", as_is);
    asked.put("--legs", o.legs, "/legs", as_legs);
    if (o.training)
        asked.put("--training", std::string("training"), "/session", as_is);
    ask_fields(asked, event_options(), o);
}

/// Equal, but for the rounding of a unit: one part in 2000.
bool same(const Json& a, const Json& b) {
    if (a.is_number() && b.is_number())
        return std::abs(a.get<double>() - b.get<double>()) <= 0.0005 * std::abs(b.get<double>());
    if (a.is_array() && b.is_array())
        return std::equal(a.begin(), a.end(), b.begin(), b.end(), same);
    if (a.is_string() && b.is_string() && a != b) {
        try {
            return duration_s(a.get<std::string>()) == duration_s(b.get<std::string>());
        } catch (const std::invalid_argument&) {
            return false;
        }
    }
    return a == b;
}

/// Legs are the same when sports and distances are; a file may say more of each.
bool same_legs(const Json& file, const Json& asked) {
    Json sports = Json::array();
    for (const auto& leg : file)
        if (leg.is_object() && leg.contains("sport"))
            sports.push_back(leg);
    return std::equal(sports.begin(), sports.end(), asked.begin(), asked.end(),
                      [](const Json& a, const Json& b) {
                          return std::all_of(b.items().begin(), b.items().end(), [&](const auto& member) {
                              return a.contains(member.key()) && same(a[member.key()], member.value());
                          });
                      });
}

std::string say(const Json& value) {
    if (value.is_number())
        return fmt::format("{:g}", value.get<double>());
    return value.is_boolean() ? (value.get<bool>() ? "yes" : "no") : value.dump();
}

/// Lays the options over the document. What both say must be the same; lists add up.
void lay(Json& base, const Json& extra, const std::string& at, Asked& asked, EventDocument& document) {
    for (const auto& [key, value] : extra.items()) {
        const std::string pointer = at + "/" + key;
        Json& place = base[key];
        if (value.is_object()) {
            if (place.is_null())
                place = Json::object();
            if (place.is_object())
                lay(place, value, pointer, asked, document);
            continue;
        }
        const auto option = asked.option_at.find(pointer);
        if (option == asked.option_at.end()) { // a list that adds up
            if (place.is_null())
                place = Json::array();
            for (size_t i = 0; place.is_array() && i < value.size(); ++i) {
                document.option_at[fmt::format("{}/{}", pointer, place.size())] =
                    asked.option_at.at(fmt::format("{}/{}", pointer, i));
                place.push_back(value[i]);
            }
        } else if (place.is_null()) {
            place = value;
            document.option_at[pointer] = option->second;
        } else if (pointer == "/legs" ? !same_legs(place, value) : !same(place, value)) {
            asked.faults.push_back({option->second, "",
                                    fmt::format("says {}, but {} says {}; leave one of the two out",
                                                say(value), document.place_of(pointer), say(place))});
        }
    }
}

/// Where the event speaks of the one leg of a sport: under "legs", or under "course" of a named distance.
/// Empty where there are several such legs, or none.
std::optional<std::string> leg_pointer(const Json& event, const std::string& sport) {
    const auto legs = event.find("legs");
    if (legs == event.end() || !legs->is_array())
        return "/course/" + sport;
    std::optional<std::string> found;
    for (size_t i = 0; i < legs->size(); ++i) {
        const Json& leg = (*legs)[i];
        if (!leg.is_object() || leg.value("sport", Json()) != sport)
            continue;
        if (found)
            return std::nullopt;
        found = fmt::format("/legs/{}", i);
    }
    return found;
}

struct CourseOption {
    std::string option, sport, key;
    const OptionText& text;
    Json (*read)(const std::string&);
};

/// An event file names courses beside itself, an option from where the user stands.
Json as_course(const std::string& text) {
    if (text.empty())
        throw std::invalid_argument("must be the name of a GPX file");
    return std::filesystem::absolute(text).string();
}

Json as_laps(const std::string& text) {
    return whole_number(text);
}

void lay_course(const CourseOption& o, EventDocument& document, std::vector<Fault>& faults) {
    if (!o.text)
        return;
    const auto leg = leg_pointer(document.json, o.sport);
    if (!leg) {
        faults.push_back(
            {o.option, "",
             fmt::format("the event has not exactly one {} leg; give the course in the event file",
                         o.sport)});
        return;
    }
    const std::string pointer = *leg + "/" + o.key;
    try {
        const Json value = o.read(*o.text);
        Json& place = document.json[Json::json_pointer(pointer)];
        if (place.is_null()) {
            place = value;
            document.option_at[pointer] = o.option;
            const std::string course = *leg + "/course_gpx"; // laps may miss it
            if (!document.json.contains(Json::json_pointer(course)))
                document.option_at[course] = fmt::format("--{}-course", o.sport);
        } else if (!same(place, value)) {
            faults.push_back({o.option, "",
                              fmt::format("says {}, but {} says {}; leave one of the two out", say(value),
                                          document.place_of(pointer), say(place))});
        }
    } catch (const std::invalid_argument& error) {
        faults.push_back({o.option, "", error.what()});
    } catch (const Json::exception&) {
        // The file holds something else than an object there; its reader says so.
    }
}

void choose_athlete(EventDocument& document, const PlanOptions& options, std::vector<Fault>& faults) {
    if (!options.athlete_file)
        return;
    if (document.json.contains("athlete"))
        faults.push_back({"--athlete", "",
                          fmt::format("names {}, but {} gives an athlete too; leave one of the two out",
                                      *options.athlete_file, document.place_of("/athlete"))});
    else
        put_athlete(document, *options.athlete_file);
}

/// What is not said stands under the option's name, should it be missed.
void expect(EventDocument& document, const char* pointer, const char* option) {
    const Json::json_pointer at(pointer);
    if (document.json.contains(at))
        return;
    if (!document.json.contains(at.parent_pointer()))
        document.json[at.parent_pointer()] = Json::object();
    document.option_at.emplace(pointer, option);
}

void lay_courses(const PlanOptions& o, EventDocument& document, std::vector<Fault>& faults) {
    for (const auto& option : {CourseOption{"--bike-course", "bike", "course_gpx", o.bike_course, as_course},
                               {"--bike-laps", "bike", "course_laps", o.bike_laps, as_laps},
                               {"--run-course", "run", "course_gpx", o.run_course, as_course},
                               {"--run-laps", "run", "course_laps", o.run_laps, as_laps}})
        lay_course(option, document, faults);
}

} // namespace

EventInput plan_input(const std::optional<std::string>& event_file, const PlanOptions& options) {
    EventDocument document;
    if (event_file)
        document = load_event(*event_file);
    Asked asked;
    choose_athlete(document, options, asked.faults);
    ask_fields(asked, athlete_options(), options);
    ask_event(asked, options);
    const bool athlete_known = document.json.contains("athlete");
    lay(document.json, asked.json, "", asked, document);
    lay_courses(options, document, asked.faults);
    for (const auto& [pointer, option] : asked.failed)
        expect(document, pointer.c_str(), option.c_str());
    if (!athlete_known)
        expect(document, "/athlete/mass_kg", "--mass");
    if (!event_file) {
        expect(document, "/weather/temperature_c", "--temperature");
        if (!document.json.contains("legs"))
            expect(document, "/distance", "--distance");
    }
    try {
        auto input = read_event(document);
        if (asked.faults.empty())
            return input;
    } catch (const InputError& error) {
        for (const auto& fault : error.faults) {
            const bool told = std::any_of(asked.faults.begin(), asked.faults.end(),
                                          [&](const Fault& other) { return other.file == fault.file; });
            if (!told || fault.file == document.file)
                asked.faults.push_back(fault);
        }
    }
    throw InputError(asked.faults);
}

} // namespace tuck::io
