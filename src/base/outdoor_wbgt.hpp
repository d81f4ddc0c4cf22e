// WBGT outdoors from weather data: the natural wet bulb and the globe from their heat balances.
#pragma once

namespace tuck {

/// Weather at 2 m; wind and sun as measured.
struct OutdoorAir {
    double air_c = 0;
    double humidity_pct = 0;
    double pressure_hpa = 1013.25;
    double wind_2m_m_s = 1;
    double solar_w_per_m2 = 0;  // global, on level ground; held to what the zenith lets through
    double direct_fraction = 0; // of it from the sun's disc, held within 0..0.9
    double cos_zenith = 0;      // of the sun; below 0.00873 the sun is down
};

struct OutdoorWbgt {
    double wbgt_c = 0, natural_wet_bulb_c = 0, globe_c = 0;
};

/// Share of the sun's radiation that comes straight from its disc: exp(3 - 1.34 k - 1.65 / k), k the part of
/// 1367 W/m2 on level ground, at most 0.85; 0..0.9. The reference program of Liljegren et al. 2008 (from
/// memory).
double direct_fraction(double solar_w_per_m2, double cos_zenith);

/// Liljegren et al. 2008, constants of the reference program as carried by public code. Radiation
/// is held to 0.85 of 1367 W/m2 on level ground, as that program holds it (from memory), and none comes from
/// a sun that is down: a low sun cannot be a strong one. Iterates to 0.02 K; throws std::invalid_argument
/// when a balance does not settle.
OutdoorWbgt outdoor_wbgt(const OutdoorAir& air);

/// Wind at 2 m from wind at 10 m by stability class, urban exponents (Liljegren et al. 2008); never below
/// 0.13 m/s.
double wind_at_2m_m_s(double wind_10m_m_s, double cos_zenith, double solar_w_per_m2);

/// Least wind at 10 m that the method is run with, m/s (practice of a national weather service).
inline constexpr double least_wind_10m_m_s = 0.62;

} // namespace tuck
