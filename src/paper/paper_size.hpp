// Sheets of paper by their trade names.
#pragma once

#include <string>

namespace tuck::faces {

struct Paper {
    std::string name;
    double width_mm = 210, height_mm = 297;
};

/// "a4" (ISO 216) or "letter" (8.5 x 11 in). Throws std::runtime_error that says what is allowed.
Paper paper_of(const std::string& word);

} // namespace tuck::faces
