// What races usually hand out where nothing is given and typical stations are asked for.
// Common practice, no source: one table, to be changed as a whole.
#pragma once

#include "tuck/event.hpp"

#include <string>
#include <vector>

namespace tuck::schedule {

struct TypicalStations {
    LegKind leg;
    double from_m;   // legs of this length and more, up to the next row
    double every_km; // 0: none
    ServedIn form;
    std::vector<std::string> serves;
};

/// By leg and rising length.
inline const std::vector<TypicalStations>& typical_stations() {
    static const std::vector<TypicalStations> rows{
        {LegKind::bike, 0, 0, ServedIn::bottle, {}},
        {LegKind::bike, 60e3, 20, ServedIn::bottle, {"water_tap", "sports_drink_rtd"}},
        {LegKind::run, 0, 2, ServedIn::cup, {"water_tap"}},
        {LegKind::run, 8e3, 2, ServedIn::cup, {"water_tap", "sports_drink_rtd"}},
        {LegKind::run, 18e3, 2, ServedIn::cup, {"water_tap", "sports_drink_rtd", "cola_flat", "gel_25"}},
        {LegKind::run,
         35e3,
         2,
         ServedIn::cup,
         {"water_tap", "sports_drink_rtd", "cola_flat", "gel_25", "orange_segments"}},
    };
    return rows;
}

} // namespace tuck::schedule
