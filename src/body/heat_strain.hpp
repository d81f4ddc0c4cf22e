// Predicted heat strain, minute by minute: ISO 7933:2004 with its verification table (Annex F), and the 2023
// edition with its five examples, its changes as public code states them.
#pragma once

#include <optional>

namespace tuck::body {

enum class StrainEdition { iso_2004, iso_2023 };
enum class Posture { standing, sitting, crouching };

/// Range of the standard: 15-50 C, air to 3 m/s, 100-450 W/m2 (2023: 56-250), 0.1-1 clo. Racing lies outside
/// it.
struct HeatStrainConditions {
    StrainEdition edition = StrainEdition::iso_2004;
    bool acclimatised = false;
    Posture posture = Posture::standing;
    double air_c = 0;
    double vapour_kpa = 0;
    double radiant_c = 0;
    double air_speed_m_s = 0;
    double metabolic_w_per_m2 = 0;
    double mechanical_w_per_m2 = 0;
    double clothing_clo = 0;
    double reflecting_share = 0;          // of the body, covered by reflecting clothes
    double reflection = 0;                // 2023: what these reflect; 2004: their emissivity
    std::optional<double> walk_m_s;       // not given: estimated from the metabolic rate
    std::optional<double> walk_angle_deg; // between wind and walking
    double mass_kg = 75;
    double height_m = 1.80;
    int minutes = 480;
};

/// State after the last minute; times are `minutes` when not reached.
struct HeatStrain {
    double rectal_c = 0, core_c = 0, skin_c = 0;
    double sweat_w_per_m2 = 0;
    double water_loss_g = 0; // sweat and breath
    int minutes_to_38_c = 0;
    int minutes_to_7_5_pct = 0; // of body mass
    int minutes_to_5_pct = 0;
};

/// Throws std::invalid_argument for minutes < 1 or a mass, height or metabolic rate that is not above 0.
HeatStrain predicted_heat_strain(const HeatStrainConditions& conditions);

} // namespace tuck::body
