#include "io/options.hpp"

#include "io/event_document.hpp"
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

std::string as_is(const std::string& text) {
    return text;
}

std::string as_time(const std::string& text) {
    duration_s(text);
    return text;
}

std::string as_clock(const std::string& text) {
    clock_min(text);
    return text;
}

/// "yes", "no", or an amount, which is a yes.
bool wants_caffeine(const std::string& text) {
    if (text != "yes" && text != "no" && !text.ends_with("mg"))
        throw std::invalid_argument(
            fmt::format("\"{}\" is not known; allowed: yes, no, or an amount: 150mg", text));
    return text != "no";
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
        const bool by_time = amount.find(':') != std::string::npos || amount.ends_with("min") ||
                             amount.ends_with("h") || amount.ends_with("s");
        if (by_time)
            leg["time"] = as_time(amount);
        else
            leg["distance_m"] = distance_m(amount);
        legs.push_back(leg);
    }
    return legs;
}

/// "10km=52:30", "10km=52:30@2026-09-01".
std::vector<Json> as_results(const char* sport, const std::string& text) {
    std::vector<Json> results;
    for (const auto& part : comma_list(text)) {
        const auto equals = part.find('=');
        if (equals == std::string::npos)
            throw std::invalid_argument(fmt::format(
                "\"{}\" is not a result; allowed: distance=time, such as 10km=52:30 or 10km=52:30@2026-09-01",
                part));
        const auto at = std::min(part.find('@', equals), part.size());
        Json result = {{"sport", sport},
                       {"distance_m", distance_m(part.substr(0, equals))},
                       {"time", as_time(part.substr(equals + 1, at - equals - 1))}};
        if (at < part.size())
            result["date"] = calendar_date(part.substr(at + 1));
        results.push_back(result);
    }
    return results;
}

std::string as_sun(const std::string& text) {
    sun_light(text); // refuses what is none
    return text;
}

void ask_athlete(Asked& asked, const PlanOptions& o) {
    asked.put("--mass", o.mass, "/athlete/mass_kg", mass_kg);
    asked.put("--height", o.height, "/athlete/height_m", length_m);
    asked.put("--age", o.age, "/athlete/age_y",
              [](const std::string& text) { return plain_number(text, "an age in years"); });
    asked.put("--sex", o.sex, "/athlete/sex", as_is);
    asked.put("--level", o.level, "/athlete/level", as_is);
    asked.put("--position", o.position, "/athlete/position", as_is);
    asked.put("--name", o.name, "/athlete/name", as_is);
    asked.put("--threshold-power", o.threshold_power, "/athlete/threshold_power_w", power_w);
    asked.put("--threshold-pace", o.threshold_pace, "/athlete/threshold_run_s_per_km", pace_s_per_km);
    asked.put("--swim-pace", o.swim_pace, "/athlete/critical_swim_speed_m_s", swim_speed_m_s);
    asked.put("--sweat-rate", o.sweat_rate, "/athlete/sweat/sweat_ml_per_h", rate_ml_per_h);
    asked.put("--sweat-sodium", o.sweat_sodium, "/athlete/sweat_sodium_mmol_per_l", sodium_mmol_per_l);
    asked.put("--rehearsed-carb", o.rehearsed_carb, "/athlete/rehearsed/carb_g_per_h", rate_g_per_h);
    asked.put("--rehearsed-fluid", o.rehearsed_fluid, "/athlete/rehearsed/fluid_ml_per_h", rate_ml_per_h);
    asked.put("--caffeine", o.caffeine, "/athlete/caffeine", wants_caffeine);
    if (o.caffeine && o.caffeine->ends_with("mg"))
        asked.put("--caffeine", o.caffeine, "/caffeine_mg", caffeine_mg);
    if (o.caffeine_at && !o.caffeine)
        asked.put("--caffeine-at", o.caffeine_at, "/athlete/caffeine",
                  [](const std::string&) { return true; });
    asked.put("--caffeine-at", o.caffeine_at, "/caffeine_at", as_is);
    asked.put("--hands", o.hands, "/athlete/hands", as_is);
    asked.put("--swim-time", o.swim_time, "/athlete/times/swim", as_time);
    asked.put("--t1-time", o.t1_time, "/athlete/times/t1", as_time);
    asked.put("--bike-time", o.bike_time, "/athlete/times/bike", as_time);
    asked.put("--t2-time", o.t2_time, "/athlete/times/t2", as_time);
    asked.put("--run-time", o.run_time, "/athlete/times/run", as_time);
}

void ask_lists(Asked& asked, const PlanOptions& o) {
    for (const auto& text : o.like)
        asked.append("--like", text, "/athlete/like", comma_list);
    for (const auto& text : o.avoid)
        asked.append("--avoid", text, "/athlete/avoid", comma_list);
    for (const auto& text : o.allergy)
        asked.append("--allergy", text, "/athlete/allergy", comma_list);
    const auto results = [&](const char* option, const char* sport, const std::vector<std::string>& texts) {
        for (const auto& text : texts)
            asked.append(option, text, "/athlete/recent",
                         [&](const std::string& t) { return as_results(sport, t); });
    };
    results("--recent-swim", "swim", o.recent_swim);
    results("--recent-bike", "bike", o.recent_bike);
    results("--recent-run", "run", o.recent_run);
}

void ask_event(Asked& asked, const PlanOptions& o) {
    asked.put("--event-name", o.event_name, "/name", as_is);
    asked.put("--distance", o.distance, "/distance", as_is);
    asked.put("--legs", o.legs, "/legs", as_legs);
    asked.put("--temperature", o.temperature, "/weather/temperature_c", temperature_c);
    asked.put("--humidity", o.humidity, "/weather/humidity_pct", humidity_pct);
    asked.put("--wind", o.wind, "/weather/wind_m_s", wind_m_s);
    asked.put("--wind-from", o.wind_from, "/weather/wind_from_deg", direction_deg);
    asked.put("--water", o.water, "/weather/water_temperature_c", temperature_c);
    asked.put("--sun", o.sun, "/weather/sun", as_sun);
    asked.put("--bottles", o.bottles, "/kit/bike_bottles_ml", volumes_ml);
    asked.put("--stations", o.stations, "/stations", as_is);
    asked.put("--start", o.start, "/start_local", as_clock);
    asked.put("--date", o.date, "/date", calendar_date);
    asked.put("--days", o.days, "/days", whole_number);
    asked.put("--carb", o.carb, "/carb_g_per_h", rate_g_per_h);
    for (const auto& text : o.take)
        asked.append("--take", text, "/own_lines", [](const std::string& t) { return std::vector<Json>{t}; });
    if (o.fill)
        asked.put("--fill", std::string("yes"), "/fill", [](const std::string&) { return true; });
    asked.put("--seed", o.seed, "/seed", whole_number);
    if (o.training)
        asked.put("--training", std::string("training"), "/session", as_is);
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
    ask_athlete(asked, options);
    ask_lists(asked, options);
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
