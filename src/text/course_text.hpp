// A course in text, 80 columns: length, climbing, profile, and where one can eat.
#pragma once

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
};

/// `blocks`: the profile in block characters (UTF-8), else in plain ASCII.
std::string course_text(const CourseSheet& sheet, bool blocks);

/// The profile alone: `rows` lines of heights over `columns` columns, with labels and a scale in km.
std::vector<std::string> profile_lines(const Course& course, int columns, int rows, bool blocks);

} // namespace tuck::faces
