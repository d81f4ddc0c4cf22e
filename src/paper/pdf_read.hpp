// What a finished PDF page holds, read back with an independent library (qpdf).
#pragma once

#include <string>
#include <vector>

namespace tuck::faces::pdf {

/// A run of text as the file draws it; millimetres from the top left corner.
struct FoundText {
    double x_mm = 0, baseline_mm = 0, em_mm = 0, grey = 0;
    std::string font; // base font without the subset tag
    std::string utf8;
};

struct FoundLine {
    double x1_mm = 0, y1_mm = 0, x2_mm = 0, y2_mm = 0, width_mm = 0;
};

struct FoundFont {
    std::string name; // without the subset tag
    bool embedded = false, subset = false;
};

struct FoundPage {
    double width_mm = 0, height_mm = 0;
    std::vector<FoundText> texts;
    std::vector<FoundLine> lines; // straight lines of two points
    std::vector<FoundFont> fonts;
};

struct Found {
    std::vector<FoundPage> pages;
    std::string title;
    bool unscaled = false; // asks viewers not to scale when printing
};

/// Understands what our own writer draws: text in UTF-16 codes, lines, greys. Throws std::runtime_error when
/// the bytes are no PDF or are damaged.
Found read(const std::string& bytes);

} // namespace tuck::faces::pdf
