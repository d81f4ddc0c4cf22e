// A plan as the page shows it: every number and sentence ready, in the reader's units, so that the script
// computes nothing. Beside the plan's own JSON, never in its place.
#pragma once

#include "page/reader.hpp"
#include "tuck/plan.hpp"

#include <nlohmann/json.hpp>

namespace tuck::page {

/// {"title", "short": [s, s, s], "sure", "stop", "warnings": [{"text", "lang", "severity"}], "legs": [...],
/// "lines", "total": {...}, "totals": {...}, "feeds": [...], "guesses": [{"text", "lang", "option"}], ...}. A
/// sentence carries the language that it is in: "en" where the reader's has no words for it. Every number
/// with a chain carries "why", its JSON pointer.
nlohmann::ordered_json shown(const Plan& plan, const Reader& reader);

/// The card's words side by side with their headings, for a screen and a screen reader.
nlohmann::ordered_json card_words(const Plan& plan);

/// The chain behind one number, by its JSON pointer: [{"number", "part", "field", "leg", "value", "because":
/// [{"text", "source"}], "depth"}]: its pointer and keys, the name of its leg or nothing, and what it is in
/// the reader's units. Empty where the plan knows no such number.
nlohmann::ordered_json chain(const Plan& plan, const Reader& reader, const std::string& number);

} // namespace tuck::page
