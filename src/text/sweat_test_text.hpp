// A sweat test as text for people, at most 80 columns.
#pragma once

#include "tuck/sweat_test.hpp"

#include <string>

namespace tuck::faces {

std::string sweat_test_text(const SweatTest& test, const SweatTestResult& result,
                            Units units = Units::metric);

/// The way without scales.
std::string without_scales_text();

} // namespace tuck::faces
