// The race-day card: a Plan placed on one A4 sheet, true to size, to be cut out and taped on.
#pragma once

#include "faces/pdf.hpp"
#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// Trim size. Allowed: 25 to 180 mm wide, 40 to 180 mm high.
struct CardSize {
    double width_mm = 50, height_mm = 120;
};

/// How the card is read. Distance from eye to card: 300 to 1000 mm; no published figure for riders was found,
/// so 600 is our choice between a card near the bars and one on the top tube. Tilt between the line of sight
/// and the normal of the card: 0 to 60 degrees.
struct CardOptions {
    CardSize size;
    double reading_distance_mm = 600;
    double tilt_deg = 30;
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

/// One sheet. A card that needs more room than one side has gets a second one (the run strip, or the back),
/// at most a third: type does not shrink below its floor.
struct CardLayout {
    double sheet_width_mm = 210, sheet_height_mm = 297; // A4, ISO 216
    std::vector<Trim> sides;
    std::vector<PlacedText> texts; // in the order of reading
    std::vector<pdf::Line> lines;
    std::vector<pdf::Box> boxes;
    std::string title;
};

/// Nothing inside the trim stands nearer to the cut than this.
inline constexpr double quiet_zone_mm = 3;

/// The card as placed elements. Throws std::runtime_error (one line) when the plan is refused, the size or
/// the reading distance is out of range, a text cannot be printed, a font is not found, or the rows do not
/// fit on the sides that the sheet has room for.
CardLayout card_layout(const Plan& plan, const CardOptions& options);

/// One page A4, card true to size. Throws as card_layout does. Same plan, same bytes.
std::string card_pdf(const Plan& plan, const CardOptions& options = {});

/// One page for each plan, for a squad.
std::string cards_pdf(const std::vector<Plan>& plans, const CardOptions& options = {});

} // namespace tuck::faces
