// The legs of an event file: a named distance, free legs, or both where they agree.
#pragma once

#include "io/event_document.hpp"
#include "io/event_file.hpp"

#include <string>
#include <vector>

namespace tuck::io {

/// Reads "distance", "legs" and "course" into event.preset and event.legs. Returns where each leg was
/// described, as a JSON pointer ("/legs/2", "/course/bike"); empty where nothing was said of it.
std::vector<std::string> read_legs(Node& root, const EventDocument& document, Event& event);

} // namespace tuck::io
