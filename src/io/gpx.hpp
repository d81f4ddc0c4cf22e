// GPX 1.1: the track of a course.
#pragma once

#include "tuck/course.hpp"

#include <string>

namespace tuck::io {

inline constexpr std::size_t largest_gpx_file = 256u << 20; // bytes; 500,000 points take about 50 MB
inline constexpr double shortest_course_m = 100, longest_course_m = 1000e3;

/// Reads the tracks of a GPX document, or its routes where it has no track. Segments stay apart. A jump of
/// more than 2 km and 50 times the usual spacing parts a segment; single points and times that run backwards
/// are left out. Each repair is noted. A DOCTYPE is refused, so no entity is ever expanded and nothing is
/// fetched. Throws InputError: file, line, what is wrong, what is allowed.
Track parse_gpx(const std::string& text, const std::string& file);

/// read_file and parse_gpx.
Track read_gpx(const std::string& path);

} // namespace tuck::io
