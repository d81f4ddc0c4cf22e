// A course in text, 80 columns: length, climbing, profile, and where one can eat.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/course.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// A course and one passage over it. `title` names the course, `passage` says who goes how: "At 200 W, 75
/// kg".
struct CourseSheet {
    std::string title;
    std::string passage;
    std::vector<std::string> assumptions;
    Course course;
    CourseRide ride;
    bool bike = true;
    Units units = Units::metric;
};

/// `blocks`: the profile in block characters (UTF-8), else in plain ASCII.
std::string course_text(const CourseSheet& sheet, bool blocks);

/// The same as JSON, "tuck.course/1"; metric.
std::string course_json(const CourseSheet& sheet);

/// The profile alone: `rows` lines of heights over `columns` columns, with labels and a scale of the road.
std::vector<std::string> profile_lines(const Course& course, int columns, int rows, bool blocks,
                                       Units units = Units::metric);

} // namespace tuck::faces
