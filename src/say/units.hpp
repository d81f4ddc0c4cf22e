// Amounts in the units that a person reads. The plan's numbers are metric everywhere; only faces ask here.
#pragma once

#include "tuck/plan.hpp"

#include <string>

namespace tuck::say {

/// "375 ml", "13 fl oz" (US, 29.5735 ml). A ceiling is cut off to the whole ounce, never rounded up.
std::string volume(double ml, Units units);
std::string ceiling(double ml, Units units);

/// "ml" or "fl oz", and how much of it: for the axes of a picture.
std::string volume_unit(Units units);
double volume_in(double ml, Units units);

/// "33 C", "91 F"; with one decimal where it is given so.
std::string temperature(double celsius, Units units);

/// "1.5 km", "750 m"; "24.9 miles", and yards below a mile and a half, as pools and lakes are measured.
std::string distance(double m, Units units);

/// A place on the road, "km 4", "mile 2.5", and its number alone.
std::string road_mark(double km, Units units);
std::string road_number(double km, Units units);

/// Of a road: "350 m" or "1150 ft"; kilometres or miles; km/h or mph.
std::string height(double m, Units units);
double road_in(double km, Units units);
double speed_in(double m_per_s, Units units);

/// A sentence with each of its amounts in these units: "310 to 430 ml" is "10 to 15 fl oz". What is not an
/// amount of ml, L, km, kg, m/s, km/h or C stays as it stands.
std::string in_units(const std::string& sentence, Units units);

/// The plan with all its sentences in its own units. Numbers stay as they are.
Plan in_own_units(const Plan& plan);

} // namespace tuck::say
