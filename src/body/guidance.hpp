// Published limits and guidance, kept as data: who says what, and where they disagree.
#pragma once

#include <string>
#include <vector>

namespace tuck::body {

/// One row of guidance on carbohydrate during exercise: from `from_min` (inclusive) to the next row of the
/// same source.
struct CarbGuidance {
    std::string source; // key: ioc_2010, jeukendrup_2014, burke_2011
    double from_min = 0;
    double low_g_per_h = 0, high_g_per_h = 0;
    std::string note;
};
const std::vector<CarbGuidance>& carb_guidance();
/// The row that holds for a duration; throws std::invalid_argument on an unknown source or minutes < 0.
const CarbGuidance& carb_guidance_for(const std::string& source, double minutes);

enum class CaffeineUser { adult, pregnant, minor };
struct CaffeineLimit {
    double dose_mg = 0, day_mg = 0;
};
/// Amounts of caffeine of no concern, EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in
/// pregnancy and breast-feeding, 3 mg/kg a day as a basis for minors (data insufficient).
CaffeineLimit caffeine_limit(CaffeineUser user, double mass_kg);

/// Drink before the start, mL/kg: 5-7 at four hours or more, ACSM 2007 (Sawka 2007).
inline constexpr double pre_drink_low_ml_per_kg = 5;
inline constexpr double pre_drink_high_ml_per_kg = 7;

} // namespace tuck::body
