// The options of an event and its athlete, and the columns of a roster, as their fields tell them.
#pragma once

#include "io/json_reader.hpp"

#include <functional>
#include <string>
#include <vector>

namespace tuck::io {

/// One option of a plan in one line.
struct InputOption {
    std::string option;   // "--mass"
    std::string pointer;  // where an event file would hold the value: "/athlete/mass_kg"
    std::string help;     // "body mass before the race: 68kg, 150lb"
    std::string kind;     // of value, for the help: "MASS"
    bool adds_up = false; // a list: every use adds to it
    /// The value that an event file would hold; of a list an array. Throws std::invalid_argument.
    std::function<Json(const std::string&)> read;
};

const std::vector<InputOption>& athlete_field_options();
const std::vector<InputOption>& event_field_options();

/// What a cell of a roster holds.
enum class Cell { text, number, yes_no, list, flags };

struct InputColumn {
    std::string name;    // "mass_kg"
    std::string pointer; // "/athlete/mass_kg"
    Cell cell = Cell::text;
    /// A cell with its unit, as an option takes it. Throws std::invalid_argument.
    std::function<Json(const std::string&)> read = nullptr;
    std::string help = {};
};

/// In the order of the fields: the athlete's, then the event's.
const std::vector<InputColumn>& roster_columns();

} // namespace tuck::io
