// Roads as the page draws them: profile, stations, and where hands stay on the bar.
#pragma once

#include "page/form.hpp"
#include "tuck/event.hpp"

#include <nlohmann/json.hpp>

namespace tuck::page {

/// What a GPX file holds: {"name", "length_m", "up_m", "profile": [[km, m], ...] of at most 400 points,
/// "notes"}.
nlohmann::ordered_json course_json(const Track& track);

/// For every leg on land: {"leg_index", "leg", "length_km", "profile", "stations": [{"km", "serves", "form",
/// "text"}]}.
nlohmann::ordered_json roads(const Event& event, Units units);

} // namespace tuck::page
