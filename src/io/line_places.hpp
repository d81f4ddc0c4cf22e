// Stations, bags and hours of weather as they are typed in one line.
#pragma once

#include "io/json_reader.hpp"

#include <string>

namespace tuck::io {

/// "22km,64km", "22km,64km=iso+water+bottle", "4x2.5km" (four of them, 2.5 km apart): stations as an event
/// file holds them. Foods are ids, or water, iso, cola, gel, banana. Throws std::invalid_argument.
Json stations_on_line(const std::string& text);

/// "92km=2x750ml" and "21.5km=3": a special-needs bag of bottles, or of gels. Throw std::invalid_argument.
Json bike_bag_on_line(const std::string& text);
Json run_bag_on_line(const std::string& text);

/// "7=16C,10=22C/60%,13:30=27C": the air by the clock, with its humidity. Throws std::invalid_argument.
Json hours_on_line(const std::string& text);

} // namespace tuck::io
