// An event file as JSON, before it is checked.
#pragma once

#include "io/fault.hpp"
#include "io/json_reader.hpp"
#include "tuck/named_files.hpp"

#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace tuck::io {

/// One event document with its athlete put in at "/athlete", and where each part was written.
struct EventDocument {
    Json json = Json::object();
    std::string file;                             // empty: options alone
    std::string athlete_file;                     // empty: the athlete stands in the event file
    std::shared_ptr<const NamedFiles> files;      // files that are named; empty: they lie on the disk
    std::map<std::string, std::string> option_at; // JSON pointer -> the option that said it: "--mass"
    std::vector<std::string> instead;             // what was typed in the place of what a file says

    /// "event.json: /weather/temperature_c", "athlete.json: /mass_kg" or "--mass".
    std::string place_of(const std::string& pointer) const;
    /// The fault where the user wrote it.
    Fault placed(Fault fault) const;
};

/// "--temperature: 25 instead of 31 (race.json: /weather/temperature_c)".
std::string instead_of(const std::string& option, const std::string& typed, const std::string& said,
                       const std::string& place);

/// Loads an event. Its "athlete" may be an object or the name of an athlete file beside it.
EventDocument load_event(const Document& event, std::shared_ptr<const NamedFiles> files = nullptr);
/// Puts this athlete in the place of the event's.
void put_athlete(EventDocument& document, const Document& athlete);

} // namespace tuck::io
