// When a line that the athlete typed comes.
#pragma once

#include "schedule/frames.hpp"
#include "tuck/own_line.hpp"

#include <string>
#include <vector>

namespace tuck::schedule {

/// Throws Error: what was said, and what is wrong with it.
[[noreturn]] void fail_own_line(const std::string& said, const std::string& what);

/// Every moment of the line on this leg of the likely day; sets rhythm, window and what is beside the rhythm
/// in `out`. Throws Error where it never comes, or after the end of the leg.
std::vector<LegMoment> own_moments(const Setting& now, const OwnLine& line, size_t leg, Line& out);

} // namespace tuck::schedule
