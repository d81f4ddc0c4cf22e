// Where the sun stands, and what of it reaches the ground.
#pragma once

namespace tuck {

/// Days since 2000-01-01 12:00, of a Gregorian day and an hour of Universal Time.
double days_since_2000(int year, int month, int day, double hour_utc);

/// Height of the sun's centre over the horizon, degrees, without refraction (0.5 degrees at the horizon, 0.1
/// at 8 degrees). Latitude -90..90 and longitude -180..180 (east above 0) in degrees. The low-precision
/// equations of the Astronomical Almanac as given by Michalsky 1988 (Solar Energy 40:227): to 0.01 degrees,
/// 1950-2050.
double sun_altitude_deg(double days, double latitude_deg, double longitude_deg);

/// Global radiation of a clear sky on level ground, W/m2, from the sun's height alone: 1098 sin h exp(-0.059
/// / sin h), 0 below the horizon. Haurwitz 1945, constants as carried by an open solar library. Height above
/// the sea, haze and the season's turbidity are not in it: +-10 %.
double clear_sky_w_m2(double altitude_deg);

/// What a cloud cover of 0..100 % leaves of it: 1 - 0.75 N^3.4. Kasten & Czeplak 1980, from memory.
double share_through_cloud(double cloud_pct);

} // namespace tuck
