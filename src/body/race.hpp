// The race path: one row a minute, stepped through the legs.
#pragma once

#include "base/day_air.hpp"
#include "body/sun.hpp"
#include "body/warming.hpp"
#include "tuck/body.hpp"
#include "tuck/figures.hpp"

#include <limits>

namespace tuck::body {

using tuck::Air;

// What a gram yields, kcal. Carbohydrate between glucose 3.87 and glycogen 4.18; fat 9.74 closes the table of
// Peronnet & Massicotte 1991 (computed).
inline constexpr double kcal_per_g_carb = 4.0;
inline constexpr double kcal_per_g_fat = 9.74;
// Water made by burning, g/g: C6H12O6 + 6 O2 -> 6 CO2 + 6 H2O, and C55H104O6 + 78 O2 -> 55 CO2 + 52 H2O.
inline constexpr double water_per_g_carb = 6 * 18.015 / 180.156;
inline constexpr double water_per_g_fat = 52 * 18.015 / 861.41;

/// What stays the same through a leg.
struct LegDrive {
    int leg_index = 0;
    LegKind kind = LegKind::bike;
    double metabolic_w = 0, mechanical_w = 0;
    double area_m2 = 0, mass_kg = 0;
    double speed_m_s = 0; // through the air, of its own
    double carb_g_per_h = 0, fat_g_per_h = 0;
    double swim_sweat_ml_per_h = 0; // model's mean, swims only
    double sweat_factor = 1;        // this athlete's median per model's mean
    double sodium_mg_per_ml = 0;    // of sweat
};

/// Nobody's rate is taken to be higher, whatever a test is carried over to.
inline constexpr double most_sweat_ml_per_h = figure("test.most_ml_per_h");

/// Stores and changes before the first minute. A leg starts from `full_glycogen_g` or less.
struct Stores {
    double glycogen_g = 0, water_change_g = 0, mass_change_g = 0;
    double full_glycogen_g = 1; // ordinary diet
    Warming warming = {};
};

void resize(BodyMinutes& minutes, std::size_t rows);

inline constexpr double least_speed_m_s = 1.0; // nobody stands in still air for long

/// Own speed through the air at a time of the leg: that of its section of a known road, else the leg's mean;
/// never below least_speed_m_s.
double speed_at_m_s(const LegEffort& leg, double leg_s);

/// What the body takes up from the sun in this leg, W per m2 of skin; in the water none: the water takes it.
double solar_w_per_m2(LegKind kind, const Air& air);

/// The same for the minutes of one leg, one after the other: the body's share is worked out where the sun
/// moves.
class SunOnBody {
public:
    explicit SunOnBody(LegKind kind) : kind_(kind) {}
    double w_per_m2(const Air& air);

private:
    LegKind kind_;
    double height_deg_ = std::numeric_limits<double>::quiet_NaN(), share_ = 0; // of no height yet
};

/// The heat of one minute in this air (its sun is not read), with the sun taken up and what warms the body:
/// none once it is warm.
HeatBalance heat_of(const LegDrive& drive, const Air& air, double solar_w_per_m2, double storing_w = 0);

/// Fills the rows [first, last) of a leg, whose times, air and solar_w_per_m2 are set, and moves the stores
/// to their end. `own_speed_m_s` has one speed a row (not read in the water); it stands for drive.speed_m_s.
void step_minutes(const LegDrive& drive, const double* own_speed_m_s, std::size_t first, std::size_t last,
                  Stores& stores, BodyMinutes& minutes);

/// All minutes of all legs. `drives` stand in the order of `effort.legs`.
BodyMinutes race_path(const Event& event, const Effort& effort, const std::vector<LegDrive>& drives,
                      double glycogen_g);

} // namespace tuck::body
