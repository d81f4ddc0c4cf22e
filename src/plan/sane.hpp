// What no person and no day can be.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/event.hpp"

namespace tuck::plan {

/// Throws Error with a fault for each number that is out of its range or no number; ranges are those of the
/// files. Readers check long before; this is for callers that fill the structs themselves.
void require_sane(const Athlete& athlete, const Event& event);

} // namespace tuck::plan
