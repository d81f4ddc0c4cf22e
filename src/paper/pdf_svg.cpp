// A page as SVG, straight from its elements.
#include "paper/markup.hpp"
#include "paper/pdf.hpp"

#include <fmt/format.h>

#include <cmath>

namespace tuck::faces::pdf {
namespace {

/// At most three decimals, no negative zero.
std::string mm(double value) {
    return fmt::format("{:g}", std::round(value * 1000) / 1000 + 0.0);
}

std::string grey(double level) {
    return level < 0 ? "none"
                     : fmt::format("#{0:02x}{0:02x}{0:02x}", static_cast<int>(std::lround(level * 255)));
}

std::string dash(double dash_mm) {
    return dash_mm > 0 ? fmt::format(" stroke-dasharray=\"{}\"", mm(dash_mm)) : "";
}

std::string element(const Box& box) {
    return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\" stroke=\"{}\" "
                       "stroke-width=\"{}\"{}/>\n",
                       mm(box.x_mm), mm(box.y_mm), mm(box.width_mm), mm(box.height_mm), grey(box.fill_grey),
                       grey(box.line_mm > 0 ? 0 : -1), mm(box.line_mm), dash(box.dash_mm));
}

std::string element(const Path& path) {
    std::string points;
    for (const Point& point : path.points)
        points += fmt::format("{}{},{}", points.empty() ? "" : " ", mm(point.x_mm), mm(point.y_mm));
    return fmt::format("<polyline points=\"{}\" fill=\"{}\" stroke=\"{}\" stroke-width=\"{}\"{}/>\n", points,
                       grey(path.fill_grey), grey(path.width_mm > 0 ? path.grey : -1), mm(path.width_mm),
                       dash(path.dash_mm));
}

std::string element(const Line& line) {
    return fmt::format(
        "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"#000\" stroke-width=\"{}\"{}/>\n",
        mm(line.x1_mm), mm(line.y1_mm), mm(line.x2_mm), mm(line.y2_mm), mm(line.width_mm),
        dash(line.dash_mm));
}

std::string element(const Text& text, const Fonts& fonts) {
    const bool narrow = text.face != Face::sans;
    return fmt::format(
        "<text x=\"{}\" y=\"{}\" font-family=\"{}\" font-size=\"{}\"{} textLength=\"{}\" "
        "lengthAdjust=\"spacingAndGlyphs\">{}</text>\n",
        mm(text.x_mm), mm(text.baseline_mm),
        narrow ? "'Liberation Sans Narrow', sans-serif" : "'Liberation Sans', sans-serif",
        mm(text.cap_mm / fonts.cap_per_em(text.face)),
        text.face == Face::narrow_bold || text.face == Face::stand_in_bold ? " font-weight=\"bold\"" : "",
        mm(fonts.width_mm(text.face, text.cap_mm, text.utf8)), escaped(text.utf8));
}

} // namespace

std::string svg(const Page& page, const std::string& title, const Fonts& fonts) {
    std::string out = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\" "
        "role=\"img\">\n<title>{2}</title>\n<rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>\n",
        mm(page.width_mm), mm(page.height_mm), escaped(title));
    for (const Box& box : page.boxes)
        out += element(box);
    for (const Path& path : page.paths)
        out += element(path);
    for (const Line& line : page.lines)
        out += element(line);
    for (const Text& text : page.texts)
        if (!text.utf8.empty())
            out += element(text, fonts);
    return out + "</svg>\n";
}

} // namespace tuck::faces::pdf
