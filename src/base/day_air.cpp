#include "base/day_air.hpp"

#include "base/air.hpp"
#include "base/conditions.hpp"
#include "base/day_sun.hpp"
#include "base/outdoor_wbgt.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tuck {

namespace {

constexpr double sun_step_h = 1.0 / 6, sun_hours = 36;

double kept_humidity_pct(const Weather& weather, double air_c) {
    const double saturated_kpa = saturation_vapour_pressure_kpa(weather.temperature_c);
    return std::min(100.0, humidity_pct(weather) * saturated_kpa / saturation_vapour_pressure_kpa(air_c));
}

double between(double a, double b, double share) {
    return a + (b - a) * share;
}

std::vector<AirPoint> given_points(const Event& event) {
    const auto& weather = event.weather;
    std::vector<AirPoint> points;
    if (!follows_hours(event)) {
        const Sun sun = sun_at(event, start_hour(event));
        return {
            {0, {weather.temperature_c, humidity_pct(weather), wind_m_s(weather), sun.w_m2, sun.height_deg}}};
    }
    for (const auto& h : weather.hourly) {
        const Sun sun = sun_at(event, h.hour, h.sun_w_m2);
        points.push_back(
            {h.hour,
             {h.temperature_c, h.humidity_pct.value_or(kept_humidity_pct(weather, h.temperature_c)),
              h.wind_m_s.value_or(wind_m_s(weather)), sun.w_m2, sun.height_deg}});
    }
    return points;
}

} // namespace

std::vector<AirPoint> air_points(const Event& event) {
    auto given = given_points(event);
    if (!sun_moves(event))
        return given;
    const bool measured = std::any_of(event.weather.hourly.begin(), event.weather.hourly.end(),
                                      [](const HourlyWeather& h) { return h.sun_w_m2.has_value(); });
    const double first = start_hour(event);
    std::vector<AirPoint> points;
    for (int i = 0; i * sun_step_h <= sun_hours; ++i) {
        const double hour = first + i * sun_step_h;
        Air air = air_at(given, hour);
        const Sun sun = sun_at(event, hour);
        air.sun_height_deg = sun.height_deg;
        if (!(measured && follows_hours(event)))
            air.sun_w_m2 = sun.w_m2;
        points.push_back({hour, air});
    }
    return points;
}

Air air_at(const std::vector<AirPoint>& points, double hour) {
    const auto later = std::lower_bound(points.begin(), points.end(), hour,
                                        [](const AirPoint& point, double at) { return point.hour < at; });
    if (later == points.begin())
        return points.front().air;
    if (later == points.end())
        return points.back().air;
    const auto& from = *(later - 1);
    const double share = (hour - from.hour) / (later->hour - from.hour);
    const Air &a = from.air, &b = later->air;
    return {between(a.temperature_c, b.temperature_c, share), between(a.humidity_pct, b.humidity_pct, share),
            between(a.wind_m_s, b.wind_m_s, share), between(a.sun_w_m2, b.sun_w_m2, share),
            between(a.sun_height_deg, b.sun_height_deg, share)};
}

Air mean_air(const std::vector<AirPoint>& points, double from_hour, double to_hour) {
    constexpr int parts = 60;
    Air sum{0, 0, 0, 0, 0};
    for (int i = 0; i < parts; ++i) {
        const Air air = air_at(points, between(from_hour, to_hour, (i + 0.5) / parts));
        sum.temperature_c += air.temperature_c / parts;
        sum.humidity_pct += air.humidity_pct / parts;
        sum.wind_m_s += air.wind_m_s / parts;
        sum.sun_w_m2 += air.sun_w_m2 / parts;
        sum.sun_height_deg += air.sun_height_deg / parts;
    }
    return sum;
}

double wbgt_c(const Air& air) {
    constexpr double driest_pct = 1;   // the wick's balance needs some vapour
    constexpr double stillest_m_s = 1; // no course lies in still air, our choice
    OutdoorAir out;
    out.air_c = air.temperature_c;
    out.humidity_pct = std::max(driest_pct, air.humidity_pct);
    out.wind_2m_m_s = std::max(stillest_m_s, air.wind_m_s);
    out.solar_w_per_m2 = air.sun_w_m2;
    out.cos_zenith = std::sin(air.sun_height_deg * std::numbers::pi / 180);
    out.direct_fraction = direct_fraction(out.solar_w_per_m2, out.cos_zenith);
    return outdoor_wbgt(out).wbgt_c;
}

bool follows_hours(const Event& event) {
    return event.start_min.has_value() && !event.weather.hourly.empty();
}

double start_hour(const Event& event) {
    return own_start_min(event).value_or(0) / 60;
}

} // namespace tuck
