// Quantities of a diary as people write them. All throw std::invalid_argument as io/units.hpp does.
#pragma once

#include <string>

namespace tuck::io {

/// "120g", "1.2kg", "4oz" (1 oz = 28.349523125 g).
double grams(const std::string& text);
/// "50g" and "0.1kg" in kg.
double scale_kg(const std::string& text);
/// "400mg", "1.2g".
double milligrams(const std::string& text);
/// "900kcal", "3800kJ" (1 kcal = 4.184 kJ).
double energy_kcal(const std::string& text);
/// "90min", "1:30:00" in minutes, "3h" in hours.
double minutes(const std::string& text);
double hours(const std::string& text);
/// "148bpm", "148".
double beats_per_min(const std::string& text);
/// "9.5": a number of feeds.
double count(const std::string& text);
/// "yes" or "no".
bool yes(const std::string& text);

} // namespace tuck::io
