// How large a letter must be to be read: visual angle, by geometry alone.
#pragma once

namespace tuck::faces {

/// What is read while riding or running: when, what, how much. Display practice prefers 20 to 22 minutes of
/// arc (ISO 9241-3, as quoted by a maker's guide; NUREG-0700 rev. 2, 1.3.1-4).
inline constexpr double row_arcmin = 20;
/// Headings and labels: the least for display text (same sources).
inline constexpr double label_arcmin = 16;
/// Help, notes, cautions: the least for anything on the card (ISO 15008, from memory).
inline constexpr double help_arcmin = 12;

/// Height in millimetres of a capital that subtends `arcmin` at `distance_mm`, on a surface whose normal is
/// `tilt_deg` off the line of sight: h = 2 D tan(a/2) / cos(tilt). Tilt must be below 90.
double cap_mm_for(double arcmin, double distance_mm, double tilt_deg);

/// The inverse: minutes of arc that a capital of `cap_mm` subtends.
double arcmin_of(double cap_mm, double distance_mm, double tilt_deg);

} // namespace tuck::faces
