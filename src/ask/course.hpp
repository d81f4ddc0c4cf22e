// A passage of a course: what is not said of rider and runner is assumed here, and told.
#pragma once

#include "tuck/effort.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::ask {

/// As typed. What belongs to the other sport is refused.
struct CourseWords {
    std::string sport = "bike"; // or "run"
    std::optional<std::string> power, pace, mass, position, temperature, wind, wind_from;
};

struct CoursePassage {
    CourseRide ride;
    std::string passage; // "At an effort of 150 W, rider of 70 kg, ..."
    std::vector<std::string> assumptions;
};

/// Throws Error that names the option.
CoursePassage pass_course(const Course& course, const CourseWords& words);

} // namespace tuck::ask
