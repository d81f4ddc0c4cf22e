// The options that say something of the athlete or of the event, as tables: one row each.
#pragma once

#include "io/json_reader.hpp"
#include "io/options.hpp"

#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

namespace tuck::io {

// Options that are more than one value at one place; options.cpp says how they are laid.
inline constexpr char athlete_file_option[] = "--athlete", caffeine_option[] = "--caffeine",
                      caffeine_at_option[] = "--caffeine-at", sweat_rate_option[] = "--sweat-rate",
                      set_option[] = "--set", hourly_option[] = "--hourly";

/// A row of the tables: the option, where its value stands in an event document, and how it is read. The
/// place of what belongs to the one leg of a sport has no slash in front.
struct Row {
    PlanOption option;
    const char* place;
    std::function<Json(const std::string&)> read;
};

/// Readers of values: the text itself, a yes whatever it says, or by a reader of units.
inline std::string as_is(const std::string& text) {
    return text;
}
inline Json yes(const std::string&) {
    return true;
}
template <auto read>
Json as(const std::string& text) {
    return read(text);
}

/// Those of the athlete, and of the event.
const std::vector<Row>& athlete_rows();
const std::vector<Row>& event_rows();

/// "1.2L/h", or with its sport: "bike=1.2L/h", "bike=1.2L/h,run=1.5L/h".
struct SaidSweat {
    std::optional<double> bare, bike, run;
};
/// Throws std::invalid_argument.
SaidSweat said_sweat(const std::string& text);

} // namespace tuck::io
