// The fields of an event document as a form: each value as its option would be typed, in the reader's units.
#pragma once

#include "say/words.hpp"
#include "tuck/athlete.hpp"

#include <nlohmann/json.hpp>

#include <string>

namespace tuck::page {

/// "metric" or "imperial". Throws Error.
Units units_of(const std::string& word);

/// That of the plan's words: "de" beside the "language" of a question, English otherwise.
say::Language language_of(const nlohmann::ordered_json& question);

/// {"--mass": {"at": "/athlete/mass_kg", "help": s, "text": "68kg", "number": 68, "unit": "kg", "low": n,
/// "high": n, "step": n}}. `text` is empty where the document says nothing; numbers and bounds only where a
/// slider makes sense.
nlohmann::ordered_json form_of(const nlohmann::json& document, Units units);

/// The document with `texts` ({"--mass": "150lb"}) laid in the place of what it said; an empty text takes the
/// field out. Ranges are the reader's business. Throws Error, a fault for each text that cannot be read.
nlohmann::json with_texts(nlohmann::json document, const nlohmann::ordered_json& texts);

} // namespace tuck::page
