// One made-up athlete on one made-up day for every number: an event document and edits, read by the one door.
#pragma once

#include "properties/draw.hpp"
#include "tuck/ask.hpp"

#include <memory>

namespace tuck::properties {

struct Case {
    Asked asked;
    std::string event; // the document, to run it again by hand
    Edits edits;
    int refused = 0; // draws before it that were no legal input
};

/// The same case for the same number, on every machine and thread. Empty where 40 draws were refused, each
/// with an Error; `why` then says the last.
std::optional<Case> case_of(Kind kind, std::uint64_t seed, std::uint64_t number,
                            const std::shared_ptr<const Pantry>& pantry, std::string& why);

} // namespace tuck::properties
