// An event file, with or without its athlete, into the structs.
#pragma once

#include "io/fault.hpp"
#include "tuck/athlete.hpp"
#include "tuck/event.hpp"
#include "tuck/food.hpp"

#include <memory>
#include <string>

namespace tuck::io {

struct EventDocument;

/// What the input says. Given times (of the event's legs, of the athlete, of the command line) stand in
/// event.legs[i].time_s.
struct EventInput {
    Event event;
    Athlete athlete;
    bool athlete_given = false;
    std::vector<std::string> instead; // "--temperature: 25 instead of 31 (race.json: /weather/temperature_c)"
    std::shared_ptr<const EventDocument> document; // where it was read from, for check_foods
};

/// Reads the whole document. Throws InputError with every fault.
EventInput read_event(const EventDocument& document);
/// Loads and reads an event file. Its "athlete" may be an object or the name of an athlete file beside it.
EventInput read_event(const std::string& path);
/// The event of one file for the athlete of another, whoever the event names.
EventInput read_event(const std::string& path, const std::string& athlete_path);

/// Every food that the input likes, avoids or expects at a station must be in the pantry; one that stands
/// there by an id of an earlier release gets its new one. Throws InputError.
void check_foods(EventInput& input, const Pantry& pantry);

} // namespace tuck::io
