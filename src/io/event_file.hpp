// An event file, with or without its athlete, into the structs.
#pragma once

#include "io/json_reader.hpp"
#include "tuck/athlete.hpp"
#include "tuck/event.hpp"
#include "tuck/food.hpp"

#include <map>
#include <string>

namespace tuck::io {

/// One event document with its athlete put in at "/athlete", and where each part was written.
struct EventDocument {
    Json json = Json::object();
    std::string file;                             // empty: options alone
    std::string athlete_file;                     // empty: the athlete stands in the event file
    std::map<std::string, std::string> option_at; // JSON pointer -> the option that said it: "--mass"

    /// "event.json: /weather/temperature_c", "athlete.json: /mass_kg" or "--mass".
    std::string place_of(const std::string& pointer) const;
    /// The fault where the user wrote it.
    Fault placed(Fault fault) const;
};

/// What the input says. Given times (of the event's legs, of the athlete, of the command line) stand in
/// event.legs[i].time_s.
struct EventInput {
    Event event;
    Athlete athlete;
    bool athlete_given = false;
    EventDocument document; // where it was read from, for check_foods
};

/// Loads an event file. Its "athlete" may be an object or the name of an athlete file beside it.
EventDocument load_event(const std::string& path);
/// Puts an athlete file in the place of the event's athlete.
void put_athlete(EventDocument& document, const std::string& athlete_path);

/// Reads the whole document. Throws InputError with every fault.
EventInput read_event(const EventDocument& document);
/// load_event and read_event.
EventInput read_event(const std::string& path);
/// The event of one file for the athlete of another, whoever the event names.
EventInput read_event(const std::string& path, const std::string& athlete_path);

/// Every food that the input likes, avoids or expects at a station must be in the pantry. Throws InputError.
void check_foods(const EventInput& input, const Pantry& pantry);

} // namespace tuck::io
