#include "paper/pdf.hpp"

#include "paper/haru.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace tuck::faces::pdf {
namespace {

constexpr double points_per_mm = 72.0 / 25.4;

HPDF_REAL points(double mm) {
    return static_cast<HPDF_REAL>(mm * points_per_mm);
}

/// Draws one page; PDF counts upwards from the bottom, the elements downwards from the top.
class Painter {
public:
    Painter(HaruDocument& document, const Fonts& fonts, const Page& page)
        : document_(document), fonts_(fonts), page_(page), sheet_(HPDF_AddPage(document.get())) {
        if (sheet_ == nullptr)
            document_.require(HPDF_GetError(document_.get()), "adding a page");
        check(HPDF_Page_SetWidth(sheet_, points(page.width_mm)));
        check(HPDF_Page_SetHeight(sheet_, points(page.height_mm)));
    }

    void draw() {
        for (const Box& box : page_.boxes)
            draw(box);
        for (const Path& path : page_.paths)
            draw(path);
        for (const Line& line : page_.lines)
            draw(line);
        for (const Text& text : page_.texts)
            draw(text);
    }

private:
    void draw(const Box& box) {
        require_inside(box.x_mm, box.y_mm);
        require_inside(box.x_mm + box.width_mm, box.y_mm + box.height_mm);
        const bool fill = box.fill_grey >= 0, line = box.line_mm > 0;
        if (!fill && !line)
            return;
        style(box.line_mm, 0, box.dash_mm, box.fill_grey);
        check(HPDF_Page_Rectangle(sheet_, points(box.x_mm), up(box.y_mm + box.height_mm),
                                  points(box.width_mm), points(box.height_mm)));
        paint(fill, line);
    }

    void draw(const Path& path) {
        if (path.points.size() < 2)
            return;
        for (const Point& point : path.points)
            require_inside(point.x_mm, point.y_mm);
        style(path.width_mm, path.grey, path.dash_mm, path.fill_grey);
        check(HPDF_Page_MoveTo(sheet_, points(path.points[0].x_mm), up(path.points[0].y_mm)));
        for (std::size_t i = 1; i < path.points.size(); ++i)
            check(HPDF_Page_LineTo(sheet_, points(path.points[i].x_mm), up(path.points[i].y_mm)));
        paint(path.fill_grey >= 0, path.width_mm > 0);
    }

    void draw(const Line& line) {
        require_inside(line.x1_mm, line.y1_mm);
        require_inside(line.x2_mm, line.y2_mm);
        style(line.width_mm, 0, line.dash_mm, -1);
        check(HPDF_Page_MoveTo(sheet_, points(line.x1_mm), up(line.y1_mm)));
        check(HPDF_Page_LineTo(sheet_, points(line.x2_mm), up(line.y2_mm)));
        check(HPDF_Page_Stroke(sheet_));
    }

    /// Says only what has changed since the last element.
    void style(double line_mm, double grey, double dash_mm, double fill_grey) {
        if (line_mm > 0 && line_mm != line_mm_)
            check(HPDF_Page_SetLineWidth(sheet_, points(line_mm_ = line_mm)));
        if (line_mm > 0 && grey != grey_) {
            grey_ = grey;
            check(HPDF_Page_SetGrayStroke(sheet_, static_cast<HPDF_REAL>(grey)));
        }
        if (line_mm > 0 && dash_mm != dash_mm_) {
            dash_mm_ = dash_mm;
            // libharu 2.3 takes dashes in whole points.
            const HPDF_UINT16 dash[] = {
                static_cast<HPDF_UINT16>(std::max(1.0, std::round(dash_mm * points_per_mm)))};
            check(HPDF_Page_SetDash(sheet_, dash_mm > 0 ? dash : nullptr, dash_mm > 0 ? 1 : 0, 0));
        }
        if (fill_grey >= 0 && fill_grey != fill_grey_)
            set_fill(fill_grey);
    }

    void set_fill(double grey) {
        fill_grey_ = grey;
        check(HPDF_Page_SetGrayFill(sheet_, static_cast<HPDF_REAL>(grey)));
    }

    void paint(bool fill, bool line) {
        check(fill && line ? HPDF_Page_FillStroke(sheet_)
              : fill       ? HPDF_Page_Fill(sheet_)
                           : HPDF_Page_Stroke(sheet_));
    }

    void draw(const Text& text) {
        fonts_.require_glyphs(text.face, text.utf8, "\"" + text.utf8 + "\"");
        require_inside(text.x_mm, text.baseline_mm - text.cap_mm);
        require_inside(text.x_mm + fonts_.width_mm(text.face, text.cap_mm, text.utf8), text.baseline_mm);
        if (fill_grey_ != 0)
            set_fill(0);
        check(HPDF_Page_BeginText(sheet_));
        bool first = true;
        for (const Fonts::Run& run : fonts_.runs(text.face, text.utf8)) {
            const double em_mm = text.cap_mm / fonts_.cap_per_em(run.face);
            const std::string part(run.text);
            check(HPDF_Page_SetFontAndSize(sheet_, document_.font(run.face), points(em_mm)));
            check(first ? HPDF_Page_TextOut(sheet_, points(text.x_mm), up(text.baseline_mm), part.c_str())
                        : HPDF_Page_ShowText(sheet_, part.c_str()));
            first = false;
        }
        check(HPDF_Page_EndText(sheet_));
    }

    HPDF_REAL up(double y_mm) const { return points(page_.height_mm - y_mm); }

    void require_inside(double x_mm, double y_mm) const {
        if (!(x_mm >= 0 && x_mm <= page_.width_mm && y_mm >= 0 && y_mm <= page_.height_mm))
            throw std::runtime_error("PDF: an element lies outside the page");
    }

    void check(HPDF_STATUS status) const { document_.require(status, "drawing"); }

    HaruDocument& document_;
    const Fonts& fonts_;
    const Page& page_;
    HPDF_Page sheet_;
    // As a page begins (ISO 32000-1, table 52): black, solid; the width is set with the first line.
    double line_mm_ = 0, grey_ = 0, dash_mm_ = 0, fill_grey_ = 0;
};

std::string bytes(HaruDocument& document) {
    document.require(HPDF_SaveToStream(document.get()), "writing");
    std::string out(HPDF_GetStreamSize(document.get()), '\0');
    auto size = static_cast<HPDF_UINT32>(out.size());
    document.require(HPDF_ReadFromStream(document.get(), reinterpret_cast<HPDF_BYTE*>(out.data()), &size),
                     "reading");
    if (size != out.size())
        throw std::runtime_error("PDF: fewer bytes than announced");
    return out;
}

} // namespace

Writer::Writer(const std::string& title, const std::string& subject, const Fonts& fonts,
               const std::string& extra_font_folder)
    : fonts_(fonts) {
    require_printable(title, "title");
    require_printable(subject, "subject");
    haru_ = std::make_unique<HaruDocument>(extra_font_folder);
    const HPDF_Doc doc = haru_->get();
    haru_->require(HPDF_SetCompressionMode(doc, HPDF_COMP_ALL), "compressing");
    haru_->require(HPDF_SetCurrentEncoder(doc, "UTF-8"), "choosing the encoder");
    haru_->describe(title, subject);
}

Writer::~Writer() = default;

void Writer::add(const Page& page) {
    Painter(*haru_, fonts_, page).draw();
    ++pages_;
}

std::string Writer::finish() {
    return bytes(*haru_);
}

std::string write(const Document& document, const std::string& extra_font_folder) {
    const Fonts fonts(extra_font_folder);
    Writer writer(document.title, document.subject, fonts, extra_font_folder);
    for (const Page& page : document.pages)
        writer.add(page);
    return writer.finish();
}

} // namespace tuck::faces::pdf
