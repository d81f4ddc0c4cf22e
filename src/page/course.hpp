// Roads as the page draws them: profile, stations, and where hands stay on the bar.
#pragma once

#include "page/reader.hpp"
#include "tuck/event.hpp"

#include <nlohmann/json.hpp>

namespace tuck::page {

/// What a GPX file holds: {"name", "length_m", "up_m", "profile": [[km, m], ...] of at most 400 points,
/// "notes"}.
nlohmann::ordered_json course_json(const Track& track);

/// For every leg on land: {"leg_index", "leg", "at", "length_km", "profile", "stations": [{"km", "serves",
/// "form", "text"}]}. `at`: where the document speaks of the leg. A station that stands in the document has
/// "of", its place in the list there, "offset_km", from its first pass to this one, and "laps".
nlohmann::ordered_json roads(const Event& event, const nlohmann::json& document, const Reader& reader);

} // namespace tuck::page
