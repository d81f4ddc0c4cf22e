#include "faces/pdf.hpp"

#include "faces/haru.hpp"

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
        for (const Line& line : page_.lines)
            draw(line);
        for (const Text& text : page_.texts)
            draw(text);
    }

private:
    void draw(const Box& box) {
        require_inside(box.x_mm, box.y_mm);
        require_inside(box.x_mm + box.width_mm, box.y_mm + box.height_mm);
        check(HPDF_Page_SetLineWidth(sheet_, points(box.line_mm)));
        check(HPDF_Page_Rectangle(sheet_, points(box.x_mm), up(box.y_mm + box.height_mm),
                                  points(box.width_mm), points(box.height_mm)));
        check(HPDF_Page_Stroke(sheet_));
    }

    void draw(const Line& line) {
        require_inside(line.x1_mm, line.y1_mm);
        require_inside(line.x2_mm, line.y2_mm);
        check(HPDF_Page_SetLineWidth(sheet_, points(line.width_mm)));
        check(HPDF_Page_MoveTo(sheet_, points(line.x1_mm), up(line.y1_mm)));
        check(HPDF_Page_LineTo(sheet_, points(line.x2_mm), up(line.y2_mm)));
        check(HPDF_Page_Stroke(sheet_));
    }

    void draw(const Text& text) {
        fonts_.require_glyphs(text.face, text.utf8, "\"" + text.utf8 + "\"");
        require_inside(text.x_mm, text.baseline_mm - text.cap_mm);
        require_inside(text.x_mm + fonts_.width_mm(text.face, text.cap_mm, text.utf8), text.baseline_mm);
        const double em_mm = text.cap_mm / fonts_.cap_per_em(text.face);
        check(HPDF_Page_BeginText(sheet_));
        check(HPDF_Page_SetFontAndSize(sheet_, document_.font(text.face), points(em_mm)));
        check(HPDF_Page_TextOut(sheet_, points(text.x_mm), up(text.baseline_mm), text.utf8.c_str()));
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

std::string write(const Document& document, const std::string& extra_font_folder) {
    require_printable(document.title, "title");
    require_printable(document.subject, "subject");
    const Fonts fonts(extra_font_folder);
    HaruDocument haru(extra_font_folder);
    const HPDF_Doc doc = haru.get();
    haru.require(HPDF_SetCompressionMode(doc, HPDF_COMP_ALL), "compressing");
    haru.require(HPDF_SetCurrentEncoder(doc, "UTF-8"), "choosing the encoder");
    haru.require(HPDF_SetInfoAttr(doc, HPDF_INFO_TITLE, document.title.c_str()), "setting the title");
    haru.require(HPDF_SetInfoAttr(doc, HPDF_INFO_SUBJECT, document.subject.c_str()), "setting the subject");
    haru.require(HPDF_SetViewerPreference(doc, HPDF_PRINT_SCALING_NONE), "asking for no scaling");
    for (const Page& page : document.pages)
        Painter(haru, fonts, page).draw();
    return bytes(haru);
}

} // namespace tuck::faces::pdf
