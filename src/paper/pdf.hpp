// Pages of placed texts, lines and boxes turned into a PDF in memory. Knows nothing of sport.
#pragma once

#include "paper/fonts.hpp"

#include <memory>
#include <string>
#include <vector>

namespace tuck::faces {
class HaruDocument;
}

namespace tuck::faces::pdf {

/// Everything is placed in millimetres from the top left corner of the page. Greys: 0 black to 1 white.
/// `cap_mm` is the height of a capital letter: the size that an eye sees, and not the size of the font.
struct Text {
    double x_mm = 0, baseline_mm = 0, cap_mm = 0;
    Face face = Face::sans;
    std::string utf8;
};

struct Line {
    double x1_mm = 0, y1_mm = 0, x2_mm = 0, y2_mm = 0, width_mm = 0.1;
    double dash_mm = 0; // length of a dash and of a gap; 0: solid
};

/// `x_mm`, `y_mm` is the top left corner; the outline is centred on the edge. `line_mm` 0: no outline.
struct Box {
    double x_mm = 0, y_mm = 0, width_mm = 0, height_mm = 0, line_mm = 0.1;
    double fill_grey = -1; // negative: not filled
    double dash_mm = 0;
};

struct Point {
    double x_mm = 0, y_mm = 0;
};

/// A line of many points, or an area when `fill_grey` is not negative.
struct Path {
    std::vector<Point> points;
    double width_mm = 0.3; // 0: no line
    double grey = 0;
    double dash_mm = 0;
    double fill_grey = -1;
};

/// The element further to the right and further down.
inline Text moved(Text text, double right_mm, double down_mm) {
    text.x_mm += right_mm;
    text.baseline_mm += down_mm;
    return text;
}
inline Line moved(Line line, double right_mm, double down_mm) {
    line.x1_mm += right_mm;
    line.x2_mm += right_mm;
    line.y1_mm += down_mm;
    line.y2_mm += down_mm;
    return line;
}
inline Box moved(Box box, double right_mm, double down_mm) {
    box.x_mm += right_mm;
    box.y_mm += down_mm;
    return box;
}
inline Path moved(Path path, double right_mm, double down_mm) {
    for (Point& point : path.points) {
        point.x_mm += right_mm;
        point.y_mm += down_mm;
    }
    return path;
}

/// A4 by default (ISO 216). Drawn in this order: boxes, paths, lines, texts.
struct Page {
    double width_mm = 210, height_mm = 297;
    std::vector<Text> texts; // in their order, which is also the order of reading and of copying
    std::vector<Line> lines;
    std::vector<Box> boxes;
    std::vector<Path> paths = {};
};

struct Document {
    std::string title, subject; // UTF-8
    std::vector<Page> pages;
};

/// The bytes of a PDF: fonts embedded and subset, no dates, no page scaling asked of the viewer; the same
/// input gives the same bytes. Throws std::runtime_error when a font is not found, a glyph is missing, an
/// element lies outside its page, or libharu fails.
std::string write(const Document& document, const std::string& extra_font_folder = {});

/// The same for many pages: each is drawn when it is added, and need not be kept.
class Writer {
public:
    /// `fonts` must outlive the writer.
    Writer(const std::string& title, const std::string& subject, const Fonts& fonts,
           const std::string& extra_font_folder = {});
    ~Writer();
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;
    void add(const Page& page);
    std::size_t pages() const { return pages_; }
    /// The bytes; the last call.
    std::string finish();

private:
    std::unique_ptr<HaruDocument> haru_;
    const Fonts& fonts_;
    std::size_t pages_ = 0;
};

/// The page as SVG 1.1, true to size, for looking without printing. The viewer's own fonts stand in for the
/// paper's where it has not got them, squeezed to the same widths.
std::string svg(const Page& page, const std::string& title, const Fonts& fonts);

} // namespace tuck::faces::pdf
