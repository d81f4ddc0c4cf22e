// Pages of placed texts, lines and boxes turned into a PDF in memory. Knows nothing of sport.
#pragma once

#include "faces/fonts.hpp"

#include <string>
#include <vector>

namespace tuck::faces::pdf {

/// Everything is black on white and placed in millimetres from the top left corner of the page.
/// `cap_mm` is the height of a capital letter: the size that an eye sees, and not the size of the font.
struct Text {
    double x_mm = 0, baseline_mm = 0, cap_mm = 0;
    Face face = Face::sans;
    std::string utf8;
};

struct Line {
    double x1_mm = 0, y1_mm = 0, x2_mm = 0, y2_mm = 0, width_mm = 0.1;
};

/// An outline; `x_mm`, `y_mm` is the top left corner, the line is centred on the edge.
struct Box {
    double x_mm = 0, y_mm = 0, width_mm = 0, height_mm = 0, line_mm = 0.1;
};

/// A4 by default (ISO 216).
struct Page {
    double width_mm = 210, height_mm = 297;
    std::vector<Text> texts; // drawn in this order, which is also the order of reading and of copying
    std::vector<Line> lines;
    std::vector<Box> boxes;
};

struct Document {
    std::string title, subject; // UTF-8
    std::vector<Page> pages;
};

/// The bytes of a PDF: fonts embedded and subset, no dates, no page scaling asked of the viewer; the same
/// input gives the same bytes. Throws std::runtime_error when a font is not found, a glyph is missing, an
/// element lies outside its page, or libharu fails.
std::string write(const Document& document, const std::string& extra_font_folder = {});

} // namespace tuck::faces::pdf
