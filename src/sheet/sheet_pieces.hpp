// The sheet's content set in type: pieces of known height, not yet on a page.
#pragma once

#include "paper/pdf.hpp"
#include "sheet/sheet_content.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// Elements placed from the piece's own top left corner. Never split over pages.
struct Piece {
    std::vector<pdf::Text> texts;
    std::vector<pdf::Line> lines;
    std::vector<pdf::Box> boxes;
    std::vector<pdf::Path> paths;
    double height_mm = 0;
    bool with_next = false; // must not be the last of a page or column
};

/// Puts `below` under what stands in `piece`, `x_mm` to the right.
void stack(Piece& piece, const Piece& below, double x_mm = 0);
/// Puts a piece on a page with its corner at x, y.
void put(const Piece& piece, double x_mm, double y_mm, pdf::Page& page);

/// Heights of capitals. Read at home at about 350 mm: 1.5 mm is 14.7 minutes of arc there.
struct SheetType {
    double body_mm = 1.95, small_mm = 1.5, head_mm = 2.6, title_mm = 4.6;
};

/// Sets items of one width.
class SheetSetter {
public:
    /// In capitals: `after_caps`, the space after a paragraph; `pitch_caps`, from line to line.
    SheetSetter(const Fonts& fonts, double width_mm, double cap_mm, double after_caps = 0.5,
                double pitch_caps = 1.75)
        : fonts_(fonts), width_mm_(width_mm), cap_mm_(cap_mm), after_caps_(after_caps),
          pitch_caps_(pitch_caps) {}

    std::vector<Piece> set(const SheetItem& item) const;
    Piece heading(const std::string& text, double cap_mm) const;
    Piece paragraph(const std::string& lead, const std::string& text) const;
    /// A text in a box, its first word large.
    Piece boxed(const std::string& text) const;

private:
    std::vector<Piece> list(const SheetList& list) const;
    std::vector<Piece> running(const SheetList& list) const;
    std::vector<Piece> table(const SheetTable& table) const;
    Piece row(const std::vector<std::string>& cells, const SheetTable& table, bool head) const;
    std::vector<Piece> labels(const SheetLabels& labels) const;
    Piece label(const SheetLabels::Label& label, double width_mm) const;
    double text_mm(Face face, const std::string& text) const;

    const Fonts& fonts_;
    double width_mm_, cap_mm_, after_caps_, pitch_caps_;
};

/// The plots: axes, units, labels at the curves; greys and dashes only.
Piece timeline_piece(const SheetTimeline& plot, const Fonts& fonts, double width_mm, double cap_mm);
Piece curves_piece(const SheetCurves& plot, const Fonts& fonts, double width_mm, double cap_mm);
Piece bands_piece(const SheetBands& plot, const Fonts& fonts, double width_mm, double cap_mm);
Piece bars_piece(const SheetBars& plot, const Fonts& fonts, double width_mm, double cap_mm);

} // namespace tuck::faces
