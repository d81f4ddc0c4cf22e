// The sun that a body takes up. ASHRAE 55-2017, Appendix C (Arens 2015).
//
// What it does not know: bends of a course (the sun comes from all sides in turn), the shade of trees and
// houses (part of what "half sun" means), a flat position on aerobars (seated stands for it; lying is more at
// noon), hair and helmet, a sky that is colder than the air (some 20-50 W/m2 less in clear dry weather).
#pragma once

namespace tuck::body {

enum class Stance { standing, seated };

/// Share of the body's effective surface that the beam meets, by the sun's height 0..90 degrees and its angle
/// from the front 0..180 degrees; linear between the values of the standard's table, held beyond.
double projected_area_factor(Stance posture, double altitude_deg, double from_front_deg);

/// A body in the sun. Defaults of the standard, but for a ceiling of its own they are those of a room.
struct Sunlight {
    Stance posture = Stance::standing;
    double altitude_deg = 45;
    double from_front_deg = 120; // angle between the beam and where the body faces
    double direct_w_m2 = 0;      // of the beam, across it; a fifth of it comes diffuse from the sky
    double transmittance = 1;    // of a window
    double sky_seen = 1;         // share of the sky vault in view
    double body_lit = 1;         // share of the body in the beam
    double absorptance = 0.7;    // of skin and clothes for sunlight
    double ground_reflectance = 0.6;
};

struct SolarGain {
    double field_w_per_m2 = 0; // effective radiant field, per m2 of body surface
    double mean_radiant_k = 0; // the same as a rise of the mean radiant temperature
};
/// E = f_eff [0.5 f_svv t I_diff + f_p t f_bes I_dir + 0.5 f_svv t (I_dir sin b + I_diff) r], field = E a /
/// 0.95.
SolarGain solar_gain(const Sunlight& sun);

/// What a body outdoors takes up per W/m2 of global radiation on level ground, from all sides in turn: W per
/// m2 of skin. Open sky, absorptance 0.7, a fifth of the beam diffuse, ground that reflects 0.15 (grass,
/// asphalt, water: 0.05-0.25, common practice). Height held at 5 degrees: below it the beam is next to
/// nothing.
double absorbed_share_of_sun(Stance posture, double altitude_deg);

} // namespace tuck::body
