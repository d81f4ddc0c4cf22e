#include "io/options.hpp"

#include "io/event_document.hpp"
#include "io/option_rows.hpp"
#include "io/units.hpp"

#include <algorithm>
#include <cmath>
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
};
std::vector<PlanOption> options_of(const std::vector<Row>& rows) {
    std::vector<PlanOption> out;
    for (const auto& row : rows)
        out.push_back(row.option);
    return out;
}

/// The value that an event file would hold at the row's place.
void put(const Row& row, const std::string& text, Asked& asked) {
    asked.option_at[row.place] = row.option.name;
    const Json::json_pointer at(row.place);
    if (asked.json[at.parent_pointer()].is_null()) // stands even where the value does not
        asked.json[at.parent_pointer()] = Json::object();
    try {
        asked.json[at] = row.read(text);
    } catch (const std::invalid_argument& error) {
        asked.failed[row.place] = row.option.name;
        asked.faults.push_back({row.option.name, "", error.what()});
    }
}

/// More values of a list.
void append(const Row& row, const std::string& text, Asked& asked) {
    try {
        for (const auto& value : row.read(text)) {
            auto& list = asked.json[Json::json_pointer(row.place)];
            asked.option_at[fmt::format("{}/{}", row.place, list.size())] = row.option.name;
            list.push_back(value);
        }
    } catch (const std::invalid_argument& error) {
        asked.faults.push_back({row.option.name, "", error.what()});
    }
}

void ask(const Row& row, const Typed& typed, Asked& asked) {
    const auto texts = typed.find(row.option.name);
    if (texts == typed.end() || row.place[0] != '/')
        return;
    if (*row.option.kind == '\0')
        return put(row, row.option.name + 2, asked); // "--training" puts "training"
    if (!row.option.many && texts->second.size() != 1)
        asked.faults.push_back({row.option.name, "", "must be given once"});
    for (const auto& text : texts->second)
        row.option.many ? append(row, text, asked) : put(row, text, asked);
}

/// An amount of caffeine says more than the yes of its row; a moment for it is a yes.
void ask_caffeine(const Typed& typed, Asked& asked) {
    const auto amount = typed.find(caffeine_option), moment = typed.find(caffeine_at_option);
    if (amount != typed.end() && !amount->second.empty() && amount->second.front().ends_with("mg"))
        put({{caffeine_option, "", "WORD"}, "/caffeine_mg", as<caffeine_mg>}, amount->second.front(), asked);
    if (amount == typed.end() && moment != typed.end())
        put({{caffeine_at_option, "", "CLOCK"}, "/athlete/caffeine", yes}, "", asked);
}

/// A sweat rate says its sport, and there may be one of each.
void ask_sweat(const Typed& typed, Asked& asked) {
    const auto rate = typed.find(sweat_rate_option);
    if (rate == typed.end() || rate->second.size() != 1)
        return;
    try {
        const auto said = said_sweat(rate->second.front());
        if (!said.bare)
            put({{sweat_rate_option, "", "RATE"}, "/athlete/sweat/sport", as<as_is>},
                said.bike ? "bike" : "run", asked);
        if (said.bike && said.run)
            put({{sweat_rate_option, "", "RATE"},
                 "/athlete/sweat_on_run/sweat_ml_per_h",
                 [&](const std::string&) -> Json { return *said.run; }},
                "", asked);
    } catch (const std::invalid_argument&) {
        // told where the rate itself is read
    }
}

void require_known(const Typed& typed, std::vector<Fault>& faults) {
    std::vector<std::string> known;
    for (const auto* rows : {&athlete_rows(), &event_rows()})
        for (const auto& row : *rows)
            known.emplace_back(row.option.name);
    for (const auto& [name, texts] : typed)
        if (std::find(known.begin(), known.end(), name) == known.end())
            faults.push_back({name, "", "is not an option", "", nearest_word(name, known)});
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

std::string typed(const Json& value) {
    if (value.is_number())
        return fmt::format("{:g}", value.get<double>());
    if (value.is_array() && !value.empty() && value[0].is_object())
        return fmt::format("{} of them", value.size());
    return value.is_boolean() ? (value.get<bool>() ? "yes" : "no") : value.dump();
}

/// What is typed stands in the place of what the file says, and that is told.
void outrank(Json& place, const Json& value, const std::string& pointer, const std::string& option,
             EventDocument& document) {
    document.instead.push_back(instead_of(option, typed(value), typed(place), document.place_of(pointer)));
    place = value;
    document.option_at[pointer] = option;
}

/// Lays the options over the document. What is typed outranks what the file says; lists add up.
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
            outrank(place, value, pointer, option->second, document);
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

/// The value of all uses: of a list of places those of each, in the order of the road.
Json read_all(const Row& row, const std::vector<std::string>& texts) {
    if (!row.option.many)
        return row.read(texts.at(0));
    Json all = Json::array();
    for (const auto& text : texts)
        for (const auto& each : row.read(text))
            all.push_back(each);
    std::stable_sort(all.begin(), all.end(), [](const Json& a, const Json& b) { return a["km"] < b["km"]; });
    return all;
}

/// What belongs to the one leg of a sport: "bike/course_gpx".
void lay_course(const Row& row, const std::vector<std::string>& texts, EventDocument& document,
                std::vector<Fault>& faults) {
    const std::string option = row.option.name, of_sport = row.place;
    const auto slash = of_sport.find('/');
    const std::string sport = of_sport.substr(0, slash), key = of_sport.substr(slash + 1);
    const auto leg = leg_pointer(document.json, sport);
    if (!leg) {
        faults.push_back(
            {option, "",
             fmt::format("the event has not exactly one {} leg; give this in the event file", sport)});
        return;
    }
    const std::string pointer = *leg + "/" + key;
    try {
        const Json value = read_all(row, texts);
        Json& place = document.json[Json::json_pointer(pointer)];
        if (place.is_null()) {
            place = value;
            document.option_at[pointer] = option;
            const std::string course = *leg + "/course_gpx"; // laps may miss it
            if (key == "course_laps" && !document.json.contains(Json::json_pointer(course)))
                document.option_at[course] = fmt::format("--{}-course", sport);
        } else if (!same(place, value)) {
            outrank(place, value, pointer, option, document);
        }
    } catch (const std::invalid_argument& error) {
        faults.push_back({option, "", error.what()});
    } catch (const Json::exception&) {
        // The file holds something else than an object there; its reader says so.
    }
}

void choose_athlete(EventDocument& document, const Typed& typed) {
    const auto file = typed.find(athlete_file_option);
    if (file == typed.end() || file->second.empty())
        return;
    if (document.json.contains("athlete"))
        document.instead.push_back(fmt::format("--athlete: {} instead of the athlete of {}", file->second[0],
                                               document.place_of("/athlete")));
    put_athlete(document, file->second[0]);
}

/// "weather.humidity_pct=80": any key of an event file.
void set_keys(const Typed& typed, EventDocument& document, std::vector<Fault>& faults) {
    const auto texts = typed.find(set_option);
    if (texts == typed.end())
        return;
    for (const auto& text : texts->second) {
        const auto equals = text.find('=');
        if (equals == std::string::npos || equals == 0) {
            faults.push_back(
                {set_option, "",
                 fmt::format("\"{}\": allowed: KEY=VALUE, such as weather.humidity_pct=80", text)});
            continue;
        }
        std::string pointer = "/" + text.substr(0, equals);
        std::replace(pointer.begin(), pointer.end(), '.', '/');
        Json value = Json::parse(text.substr(equals + 1), nullptr, false);
        if (value.is_discarded())
            value = text.substr(equals + 1);
        try {
            Json& place = document.json[Json::json_pointer(pointer)];
            if (place.is_null())
                place = value;
            else if (!same(place, value))
                outrank(place, value, pointer, set_option, document);
            document.option_at[pointer] = set_option;
        } catch (const Json::exception&) {
            faults.push_back(
                {set_option, "", fmt::format("\"{}\" is no key of an event", text.substr(0, equals))});
        }
    }
}

/// A temperature that is typed is the whole day's: the file's hours do not outlive it.
void forget_hours(const Typed& typed, EventDocument& document) {
    const Json::json_pointer hours("/weather/hourly");
    if (!typed.count("--temperature") || !document.json.contains(hours))
        return;
    document.json["weather"].erase("hourly");
    document.instead.push_back("--temperature: one temperature instead of the weather by the hour (" +
                               document.place_of("/weather/hourly") + ")");
}

/// One temperature is needed beside the hours: their mean, where none is said.
void fill_temperature(EventDocument& document) {
    auto& json = document.json;
    const Json::json_pointer hours("/weather/hourly"), one("/weather/temperature_c");
    if (!document.option_at.count("/weather/hourly") || json.contains(one) || json[hours].empty())
        return;
    double sum = 0;
    for (const auto& hour : json[hours])
        sum += hour["temperature_c"].get<double>();
    json[one] = std::round(10 * sum / static_cast<double>(json[hours].size())) / 10;
    document.option_at[one.to_string()] = hourly_option;
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

void lay_courses(const Typed& typed, EventDocument& document, std::vector<Fault>& faults) {
    for (const auto& row : event_rows()) {
        const auto texts = typed.find(row.option.name);
        if (texts != typed.end() && row.place[0] != '/' && row.place[0] != '\0')
            lay_course(row, texts->second, document, faults);
    }
}

} // namespace

const std::vector<PlanOption>& athlete_options() {
    static const auto options = options_of(athlete_rows());
    return options;
}

const std::vector<PlanOption>& event_options() {
    static const auto options = options_of(event_rows());
    return options;
}

EventInput plan_input(const std::optional<Document>& event, const Typed& typed,
                      const std::optional<Document>& profile, std::shared_ptr<const NamedFiles> files) {
    EventDocument document;
    if (event)
        document = load_event(*event, files);
    document.files = std::move(files);
    Asked asked;
    require_known(typed, asked.faults);
    choose_athlete(document, typed);
    if (profile && !document.json.contains("athlete")) {
        put_athlete(document, *profile);
        document.instead.push_back("The athlete is your own of " + profile->name +
                                   "; --no-profile leaves it out");
    }
    if (event)
        forget_hours(typed, document);
    for (const auto* rows : {&athlete_rows(), &event_rows()})
        for (const auto& row : *rows)
            ask(row, typed, asked);
    ask_caffeine(typed, asked);
    ask_sweat(typed, asked);
    const bool athlete_known = document.json.contains("athlete");
    lay(document.json, asked.json, "", asked, document);
    lay_courses(typed, document, asked.faults);
    set_keys(typed, document, asked.faults);
    fill_temperature(document);
    for (const auto& [pointer, option] : asked.failed)
        expect(document, pointer.c_str(), option.c_str());
    if (!athlete_known)
        expect(document, "/athlete/mass_kg", "--mass");
    if (typed.count(hourly_option))
        expect(document, "/start_local", "--start");
    if (!event) {
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
