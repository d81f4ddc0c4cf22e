#include "base/day_air.hpp"

#include "base/air.hpp"
#include "base/conditions.hpp"

#include <algorithm>

namespace tuck {

namespace {

double kept_humidity_pct(const Weather& weather, double air_c) {
    const double saturated_kpa = saturation_vapour_pressure_kpa(weather.temperature_c);
    return std::min(100.0, humidity_pct(weather) * saturated_kpa / saturation_vapour_pressure_kpa(air_c));
}

double between(double a, double b, double share) {
    return a + (b - a) * share;
}

} // namespace

Air air_of_day(const Weather& weather) {
    return {weather.temperature_c, humidity_pct(weather), wind_m_s(weather), weather.sun_w_m2.value_or(0)};
}

std::vector<AirPoint> air_points(const Weather& weather) {
    const Air day = air_of_day(weather);
    std::vector<AirPoint> points;
    for (const auto& h : weather.hourly)
        points.push_back(
            {h.hour,
             {h.temperature_c, h.humidity_pct.value_or(kept_humidity_pct(weather, h.temperature_c)),
              h.wind_m_s.value_or(day.wind_m_s), h.sun_w_m2.value_or(day.sun_w_m2)}});
    if (points.empty())
        points.push_back({0, day});
    return points;
}

Air air_at(const std::vector<AirPoint>& points, double hour) {
    const auto later = std::find_if(points.begin(), points.end(),
                                    [hour](const AirPoint& point) { return point.hour >= hour; });
    if (later == points.begin())
        return points.front().air;
    if (later == points.end())
        return points.back().air;
    const auto& from = *(later - 1);
    const double share = (hour - from.hour) / (later->hour - from.hour);
    const Air &a = from.air, &b = later->air;
    return {between(a.temperature_c, b.temperature_c, share), between(a.humidity_pct, b.humidity_pct, share),
            between(a.wind_m_s, b.wind_m_s, share), between(a.sun_w_m2, b.sun_w_m2, share)};
}

Air mean_air(const std::vector<AirPoint>& points, double from_hour, double to_hour) {
    constexpr int parts = 60;
    Air sum;
    for (int i = 0; i < parts; ++i) {
        const Air air = air_at(points, between(from_hour, to_hour, (i + 0.5) / parts));
        sum.temperature_c += air.temperature_c / parts;
        sum.humidity_pct += air.humidity_pct / parts;
        sum.wind_m_s += air.wind_m_s / parts;
        sum.sun_w_m2 += air.sun_w_m2 / parts;
    }
    return sum;
}

bool follows_hours(const Event& event) {
    return event.start_min.has_value() && !event.weather.hourly.empty();
}

double start_hour(const Event& event) {
    return own_start_min(event).value_or(0) / 60;
}

} // namespace tuck
