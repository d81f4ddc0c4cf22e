// The sun along the race day: geometry of the sky (the sun at noon stands at 90 - latitude + declination,
// which is 23.44 degrees at the June solstice and 0 at an equinox), and the contracts of base/day_sun.hpp and
// base/day_air.hpp.
#include "base/day_air.hpp"
#include "base/day_sun.hpp"
#include "base/sun.hpp"

#include <catch2/catch.hpp>

using namespace tuck;

namespace {

/// On the meridian of its clock: the sun is highest at 13 h of summer time.
Event june(double latitude_deg = 50) {
    Event event;
    event.date = "2027-06-21";
    event.start_min = 7 * 60;
    event.latitude_deg = latitude_deg;
    event.longitude_deg = 15;
    event.utc_offset_h = 2;
    event.weather.temperature_c = 20;
    event.weather.sun_share = 1;
    return event;
}

} // namespace

TEST_CASE("the sun of the day stands where the sky has it", "[sun]") {
    CHECK(sun_at(june(), 13).height_deg == Approx(90 - 50 + 23.44).margin(0.1));
    auto september = june();
    september.date = "2027-09-23"; // the equinox, to a day: 0.4 degrees
    CHECK(sun_at(september, 13).height_deg == Approx(90 - 50).margin(0.5));
    // The equation of time is 2 minutes in June: 0.3 degrees at this hour.
    CHECK(sun_at(june(), 9).height_deg == Approx(sun_at(june(), 17).height_deg).margin(0.6));
    CHECK(sun_at(june(), 1).height_deg < 0);
    CHECK(sun_at(june(), 1).w_m2 == 0);
    CHECK(sun_at(june(70), 1).height_deg > 0); // the midnight sun: north of 66.6 degrees
    CHECK(sun_at(june(), 13 + 24).height_deg == Approx(sun_at(june(), 13).height_deg).margin(0.1));
}

TEST_CASE("without longitude or the clock's offset the sun is highest at 13 h", "[sun]") {
    auto unknown = june();
    unknown.longitude_deg.reset();
    CHECK(sun_at(unknown, 13).height_deg == Approx(63.44).margin(0.1));
    auto east = june(); // 15 degrees further east the same sun is an hour earlier
    east.longitude_deg = 30;
    CHECK(sun_at(east, 12).height_deg == Approx(63.44).margin(0.1));
}

TEST_CASE("without place, day or start the sun stands 45 degrees high, or where its radiation has it",
          "[sun]") {
    for (int missing = 0; missing < 3; ++missing) {
        auto event = june();
        if (missing == 0)
            event.date.reset();
        else if (missing == 1)
            event.start_min.reset();
        else
            event.latitude_deg.reset();
        CHECK_FALSE(sun_has_clock(event));
        CHECK_FALSE(sun_moves(event));
        CHECK(sun_at(event, 13).height_deg == 45);
        CHECK(sun_at(event, 13).w_m2 == Approx(clear_sky_w_m2(45)));
        event.weather.sun_w_m2 = 900; // more than a clear sky gives at 45 degrees
        const double height = sun_at(event, 13).height_deg;
        CHECK(clear_sky_w_m2(height) >= 900);
        CHECK(clear_sky_w_m2(height - 1) < 900);
        CHECK(sun_at(event, 13).w_m2 == 900);
    }
}

TEST_CASE("what is said of the sun outranks what is assumed", "[sun]") {
    Weather weather;
    CHECK(sun_assumed(weather));
    CHECK(sun_share(weather) == 0.5);
    weather.cloud_pct = 100;
    CHECK_FALSE(sun_assumed(weather));
    CHECK(sun_share(weather) == Approx(0.25)); // Kasten & Czeplak 1980
    weather.sun_share = 1;
    CHECK(sun_share(weather) == 1);
    Weather hours;
    hours.hourly.resize(2);
    CHECK(sun_assumed(hours));
    hours.hourly[1].sun_w_m2 = 0;
    CHECK_FALSE(sun_assumed(hours));
}

TEST_CASE("a sun that moves has a point every ten minutes from the start on, and none shines at night",
          "[sun]") {
    const auto points = air_points(june());
    REQUIRE(points.size() > 100);
    CHECK(points.front().hour == 7);
    CHECK(points[6].hour == Approx(8));
    double most_w_m2 = 0, at_h = 0;
    for (const auto& point : points) {
        CHECK(point.air.temperature_c == 20); // no daily curve is invented
        if (point.air.sun_height_deg < 0)
            CHECK(point.air.sun_w_m2 == 0);
        if (point.hour < 24 && point.air.sun_w_m2 > most_w_m2) {
            most_w_m2 = point.air.sun_w_m2;
            at_h = point.hour;
        }
    }
    CHECK(at_h == Approx(13).margin(0.17));
    auto dull = june();
    dull.weather.sun_share = 0;
    CHECK(air_points(dull).size() == 1); // nothing changes
    CHECK(air_points(dull)[0].air.sun_w_m2 == 0);
}

TEST_CASE("hours that were measured keep their sun, and the sky its height", "[sun]") {
    auto event = june();
    event.weather.sun_share.reset();
    event.weather.hourly.resize(2);
    event.weather.hourly[0].hour = 7;
    event.weather.hourly[0].temperature_c = 16;
    event.weather.hourly[0].sun_w_m2 = 300;
    event.weather.hourly[1].hour = 13;
    event.weather.hourly[1].temperature_c = 28;
    event.weather.hourly[1].sun_w_m2 = 900;
    const auto points = air_points(event);
    CHECK(air_at(points, 7).sun_w_m2 == 300);
    CHECK(air_at(points, 10).sun_w_m2 == Approx(600)); // straight between
    CHECK(air_at(points, 10).temperature_c == Approx(22));
    CHECK(air_at(points, 20).sun_w_m2 == 900); // held beyond the last
    CHECK(air_at(points, 13).sun_height_deg == Approx(63.44).margin(0.1));
    event.weather.hourly[0].sun_w_m2.reset();
    event.weather.hourly[1].sun_w_m2.reset();
    CHECK(air_at(air_points(event), 13).sun_w_m2 ==
          Approx(0.5 * clear_sky_w_m2(63.44)).epsilon(0.01)); // assumed
}
