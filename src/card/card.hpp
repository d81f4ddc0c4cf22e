// The race-day card: a Plan placed on a sheet, true to size, to be cut out and taped on.
#pragma once

#include "card/card_size.hpp"
#include "paper/pdf.hpp"
#include "tuck/plan.hpp"

#include <memory>
#include <string>
#include <vector>

namespace tuck::faces {

/// How the card is cut and read. Width 25 to 180 mm, height 40 to 180 mm. Distance from eye to card: 300 to
/// 1000 mm. Tilt between the line of sight and the normal of the card: 0 to 60 degrees.
struct CardOptions {
    CardSize size;
    double reading_distance_mm = 600;
    double tilt_deg = 30;
    bool turns = false;    // may be laid the other way round when that holds more
    bool run_only = false; // the rows after the bike alone
    double tube_mm = 0;    // diameter of the round tube that the card lies on, 25 to 120; 0: flat
    bool holes = false;    // four for zip ties, beside the text
    bool glue = false;     // a tab at the outer edge of a pair, or of a band; not on a squad's sheets
    Paper paper;
    std::string font_folder; // `fonts` of the installed tree, searched before Debian's; may be empty
};

/// What a text is for, which sets how small it may be: see legibility.hpp. `sheet` is read at home.
enum class Role { row, label, help, sheet };

/// A text on the paper. `side` counts from 0; -1 is outside every card.
struct PlacedText {
    Role role = Role::sheet;
    int side = -1;
    double width_mm = 0;
    pdf::Text text;
    bool cut = false; // ends in an ellipsis because it did not fit
};

struct Trim {
    double x_mm = 0, y_mm = 0, width_mm = 0, height_mm = 0;
};

/// One sheet. A card that needs more room than one side has gets more sides (the run strip, or the back):
/// type does not shrink below its floor.
struct CardLayout {
    double sheet_width_mm = 210, sheet_height_mm = 297; // A4, ISO 216
    std::vector<Trim> sides;
    std::vector<PlacedText> texts; // in the order of reading
    std::vector<pdf::Line> lines;
    std::vector<pdf::Box> boxes;
    std::vector<pdf::Path> paths;
    std::string title;
};

/// The card as placed elements: one sheet, or more when it has more sides than one sheet has room for. The
/// notes that are read at home stand on the first. Throws std::runtime_error (one line) when the plan is
/// refused, the size or the reading distance is out of range, a text cannot be printed, a font is not found,
/// or the rows do not fit on twelve sides.
std::vector<CardLayout> card_layouts(const Plan& plan, const CardOptions& options);
std::vector<CardLayout> card_layouts(const Plan& plan, const CardOptions& options, const Fonts& fonts);

/// The elements as a page for pdf::write or pdf::svg.
pdf::Page page_of(const CardLayout& layout);

/// Card true to size, usually one page. Throws as card_layouts does. Same plan, same bytes.
std::string card_pdf(const Plan& plan, const CardOptions& options = {});

/// The PDF of the sheets of one card.
std::string card_pdf(const std::vector<CardLayout>& layouts, const CardOptions& options);

/// Cards of many athletes, side after side on sheets, in the order in which they are added. A card is set by
/// `prepare`, which may run on several threads, each with its own Fonts; adding and finishing are for one.
class CardSheets {
public:
    /// Throws std::runtime_error when an option is out of range.
    explicit CardSheets(const CardOptions& options);
    ~CardSheets();
    CardSheets(const CardSheets&) = delete;
    CardSheets& operator=(const CardSheets&) = delete;

    struct Prepared;
    /// Throws as card_layouts does.
    static std::shared_ptr<const Prepared> prepare(const Plan& plan, const CardOptions& options,
                                                   const Fonts& fonts);
    /// Returns the page on which the card begins.
    std::size_t add(const Prepared& card);
    std::size_t cards() const;
    /// The bytes of all sheets since the last call, and a page of the cautions; empty without any card.
    std::string finish();

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace tuck::faces
