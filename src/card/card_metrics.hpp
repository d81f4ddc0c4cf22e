// Spaces of the card's typesetting, in capitals of their line unless the name says mm.
#pragma once

namespace tuck::faces {

// Line pitch 1.5 capitals: half a capital of space (MIL-STD-1472, from memory); the descender takes 0.31.
inline constexpr double line_caps = 1.5, below_baseline_caps = 0.35;
// On a low card 0.4 capitals: more than the 0.15 that NUREG-0700 rev. 2 asks between lines (1.3.1, from
// memory).
inline constexpr double low_line_caps = 1.4;
inline constexpr double foot_caps = 0.31;         // of g and p, below the baseline
inline constexpr double row_gap_caps = 0.15;      // above a row, under its rule
inline constexpr double column_gap_caps = 0.45;   // between when and what on one line
inline constexpr double paragraph_gap_caps = 0.4; // between two lines of help
inline constexpr double rule_gap_caps = 0.2;      // between a rule and a line of help
inline constexpr double thin_mm = 0.2, thick_mm = 0.6;
inline constexpr double above_stop_mm = 0.8;

} // namespace tuck::faces
