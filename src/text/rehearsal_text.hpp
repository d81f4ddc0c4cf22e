// A rehearsal as text for people, at most 80 columns.
#pragma once

#include "tuck/rehearsal.hpp"

#include <string>

namespace tuck::faces {

/// What to do from start to finish, and why at these rates; stands before the plan's own text.
std::string rehearsal_text(const Rehearsal& rehearsal);

std::string series_text(const RehearsalSeries& series);

} // namespace tuck::faces
