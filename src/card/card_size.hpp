// Sizes of cards and paper, and how many rows a card of some size can hold.
#pragma once

#include "paper/paper_size.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

struct CardSize {
    double width_mm = 50, height_mm = 120;
};

/// A named size. `distance_mm` is how far it is read from; no published figure for riders was found: 600 for
/// what lies on the bike and 400 for what is held or worn are our choice.
struct CardFormat {
    std::string name;
    CardSize size;
    double distance_mm = 600;
    bool turns = false;    // may be laid the other way round when that holds more
    bool run_only = false; // carries the rows of the run alone
    bool on_tube = false;  // lies round a tube of the bike
    std::string what;      // one line for the help
};

/// strip, stem, pocket (ISO/IEC 7810 ID-1), wrist.
const std::vector<CardFormat>& card_formats();

/// Diameter of a tube that is not given: common practice, no source.
inline constexpr double usual_tube_mm = 50;

/// A named size, or "55x90" in millimetres. Throws std::runtime_error that says what is allowed.
CardFormat card_format(const std::string& word);

/// Nothing inside the trim stands nearer to the cut than this.
inline constexpr double quiet_zone_mm = 3;

/// The width of a card that faces the eye on a tube of this diameter: 45 degrees to either side. 0: flat,
/// all.
double facing_mm(double width_mm, double tube_mm);

/// A hole for a zip tie of 2.5 to 3.6 mm, and how far from the edge its middle and then text stand: common
/// practice, no source.
inline constexpr double hole_mm = 4, hole_from_edge_mm = 3.2, text_beside_holes_mm = 6;

/// A card lower than this carries short heads, and its notes among the help.
inline constexpr double low_card_mm = 100;

/// Digits of the card's face (bold, narrow) that stand beside each other in `width_mm` when capitals are
/// `cap_mm` high. A digit is 0.4561 em wide and a capital 0.688 em high (measured on Debian's Liberation).
int digits_across(double width_mm, double cap_mm);

struct CardCapacity {
    int rows = 0;       // of one line, under one heading, on one side that also carries its head and STOP
    int characters = 0; // of one row, at the width of a digit
};

/// Lines of a plan that one side with this capacity surely holds: a row of 17 characters takes as many lines
/// as the width asks for.
int lines_held(const CardCapacity& capacity);

/// What one side holds with letters at their floors (legibility.hpp). Pure geometry; meant to be known before
/// planning. Width and height in mm (25 to 180 and 40 to 180), distance 300 to 1000 mm, tilt 0 to 60 degrees.
CardCapacity card_capacity(const CardSize& size, double distance_mm, double tilt_deg);

} // namespace tuck::faces
