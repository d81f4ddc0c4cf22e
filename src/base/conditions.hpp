// What is assumed when the weather or the athlete leaves something open. One table, so that every stage
// assumes the same and the plan can say it.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/event.hpp"

namespace tuck {

inline constexpr double usual_humidity_pct = 60;
inline constexpr double usual_wind_m_s = 2;

inline double humidity_pct(const Weather& weather) {
    return weather.humidity_pct.value_or(usual_humidity_pct);
}
inline double wind_m_s(const Weather& weather) {
    return weather.wind_m_s.value_or(usual_wind_m_s);
}

/// Lakes follow the air slowly: half way between 15 C and the air, 12 to 28 C.
inline double water_temperature_c(const Weather& weather) {
    const double guess = 15 + (weather.temperature_c - 15) / 2;
    return weather.water_temperature_c.value_or(guess < 12 ? 12 : guess > 28 ? 28 : guess);
}
/// Height not given: the line through 1.60 m at 50 kg, 1.75 at 70 and 1.85 at 90 (our choice).
inline double usual_height_m(double mass_kg) {
    const double height = mass_kg < 70 ? 1.60 + (mass_kg - 50) * 0.0075 : 1.75 + (mass_kg - 70) * 0.005;
    return height < 1.45 ? 1.45 : height > 2.0 ? 2.0 : height;
}
inline double height_m(const Athlete& athlete) {
    return athlete.height_m.value_or(usual_height_m(athlete.mass_kg));
}

inline Hands hands_of(const Athlete& athlete) {
    return athlete.hands.value_or(athlete.level == Level::beginner ? Hands::bottle : Hands::bottle_and_food);
}
inline bool is_minor(const Athlete& athlete) {
    return athlete.age_y && *athlete.age_y < 18;
}

} // namespace tuck
