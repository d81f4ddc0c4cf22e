#include "base/day_sun.hpp"

#include "base/sun.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace tuck {

namespace {

/// The lowest full degree, from the usual height up, whose clear sky gives this much.
double height_for_deg(double w_m2) {
    double height = usual_sun_height_deg;
    while (height < 90 && clear_sky_w_m2(height) < w_m2)
        ++height;
    return height;
}

double height_at_deg(const Event& event, double clock_hour) {
    const auto& date = *event.date; // "2027-06-13"
    const bool exact = event.longitude_deg && event.utc_offset_h;
    const double hour_utc = exact ? clock_hour - *event.utc_offset_h : clock_hour - (sun_highest_at_h - 12);
    const double days =
        days_since_2000(std::atoi(date.substr(0, 4).c_str()), std::atoi(date.substr(5, 2).c_str()),
                        std::atoi(date.substr(8, 2).c_str()), hour_utc);
    return sun_altitude_deg(days, *event.latitude_deg, exact ? *event.longitude_deg : 0);
}

} // namespace

bool sun_assumed(const Weather& weather) {
    const bool hourly = std::any_of(weather.hourly.begin(), weather.hourly.end(),
                                    [](const HourlyWeather& at) { return at.sun_w_m2.has_value(); });
    return !weather.sun_w_m2 && !weather.sun_share && !weather.cloud_pct && !hourly;
}

double sun_share(const Weather& weather) {
    if (weather.sun_share)
        return *weather.sun_share;
    return weather.cloud_pct ? share_through_cloud(*weather.cloud_pct) : usual_sun_share;
}

bool sun_has_clock(const Event& event) {
    return event.date && event.date->size() == 10 && event.start_min && event.latitude_deg;
}

bool sun_moves(const Event& event) {
    const auto& weather = event.weather;
    const bool none = weather.sun_w_m2 ? *weather.sun_w_m2 <= 0 : sun_share(weather) <= 0;
    return sun_has_clock(event) && !(none && weather.hourly.empty());
}

Sun sun_at(const Event& event, double clock_hour, std::optional<double> measured_w_m2) {
    const auto& weather = event.weather;
    const bool by_clock = sun_has_clock(event);
    const double clear_height = by_clock ? height_at_deg(event, clock_hour) : usual_sun_height_deg;
    const double w_m2 = measured_w_m2
                            ? *measured_w_m2
                            : weather.sun_w_m2.value_or(sun_share(weather) * clear_sky_w_m2(clear_height));
    return {w_m2, by_clock ? clear_height : height_for_deg(w_m2)};
}

} // namespace tuck
