// The sun: where it stands, what reaches the ground, what a body takes up; and how a body warms.
#include "base/sun.hpp"

#include "body/energy.hpp"
#include "body/heat.hpp"
#include "body/land_heat.hpp"
#include "body/sun.hpp"
#include "body/warming.hpp"
#include "models/entry.hpp"

namespace tuck::registry {
namespace {

constexpr char ashrae[] = "ASHRAE 55-2017, Appendix C (Arens et al. 2015)";

body::Stance posture(const Given& g) {
    return g.word("posture") == "seated" ? body::Stance::seated : body::Stance::standing;
}

ModelInput posture_input() {
    return or_else(word("posture", {"standing", "seated"}), "standing");
}

double altitude(const Given& g) {
    const double days = days_since_2000(
        static_cast<int>(g.between("year", 1900, 2100)), static_cast<int>(g.between("month", 1, 12)),
        static_cast<int>(g.between("day", 1, 31)), g.between("hour_utc", 0, 24));
    return sun_altitude_deg(days, g.between("lat_deg", -90, 90), g.between("lon_deg", -180, 180));
}

ModelResult solar_gain(const Given& g) {
    body::Sunlight sun;
    sun.posture = posture(g);
    sun.altitude_deg = g.between("altitude_deg", 0, 90);
    sun.from_front_deg = g.between("sharp_deg", 0, 180);
    sun.direct_w_m2 = g.not_negative("direct_W_m2");
    sun.transmittance = g.between("transmittance", 0, 1);
    sun.sky_seen = g.between("f_svv", 0, 1);
    sun.body_lit = g.between("f_bes", 0, 1);
    sun.absorptance = g.between("absorptance", 0, 1);
    sun.ground_reflectance = g.between("reflectance", 0, 1);
    const auto gain = body::solar_gain(sun);
    return {{{"ERF_W_m2", gain.field_w_per_m2}, {"dMRT_K", gain.mean_radiant_k}}, true, ""};
}

/// Heat that warms a body through the first minutes of steady work.
ModelResult warming(const Given& g) {
    const double mass_kg = g.positive("mass_kg");
    const double area_m2 = body::body_surface_m2(mass_kg, g.positive("height_m"));
    body::Warming body;
    const double minutes = g.not_negative("minutes");
    const double watt =
        body.step_w(body::working_core_c(g.not_negative("metabolic_w"), area_m2), mass_kg, 60 * minutes);
    return {{{"Tcr_C", body.core_c}, {"stored_kJ", watt * 60 * minutes / 1000}}, true, ""};
}

} // namespace

std::vector<Model> sun_models() {
    return {
        {"sun_altitude",
         "Height of the sun over the horizon, without refraction.",
         "degrees",
         {in("year", "a", 1950, 2050), in("month", "month", 1, 12), in("day", "d", 1, 31),
          in("hour_utc", "h", 0, 24), in("lat_deg", "degrees", -90, 90), in("lon_deg", "degrees", -180, 180)},
         "Michalsky 1988 (Astronomical Almanac, low precision, 0.01 degrees; from memory, judged by an "
         "ephemeris)",
         run<altitude>},
        {"clear_sky_sun",
         "Global radiation of a clear sky on level ground.",
         "W/m2",
         {in("altitude_deg", "degrees", 0, 90)},
         "Haurwitz 1945, constants as carried by an open solar library",
         run<[](const Given& g) { return clear_sky_w_m2(g.between("altitude_deg", -90, 90)); }>},
        {"sun_through_cloud",
         "Share of a clear sky's radiation under cloud.",
         "1",
         {in("cloud_pct", "%", 0, 100)},
         "Kasten & Czeplak 1980 (from memory)",
         run<[](const Given& g) { return share_through_cloud(g.between("cloud_pct", 0, 100)); }>},
        {"solar_gain",
         "What a body takes up from the sun, per m2 of its surface, and the same as mean radiant "
         "temperature.",
         "W/m2 and K",
         {posture_input(), in("altitude_deg", "degrees", 0, 90),
          or_else(in("sharp_deg", "degrees", 0, 180), "120"), in("direct_W_m2", "W/m2", 0, 1000),
          or_else(in("transmittance", "1", 0, 1), "1"), or_else(in("f_svv", "1", 0, 1), "1"),
          or_else(in("f_bes", "1", 0, 1), "1"), or_else(in("absorptance", "1", 0.57, 0.84), "0.7"),
          or_else(in("reflectance", "1", 0.05, 0.6), "0.6")},
         ashrae,
         run<solar_gain>},
        {"absorbed_sun",
         "What a body outdoors takes up per W/m2 of global radiation, from all sides in turn.",
         "1",
         {posture_input(), in("altitude_deg", "degrees", 5, 90)},
         "ASHRAE 55-2017, Appendix C; headings averaged, ground 0.15 (common practice)",
         run<[](const Given& g) {
             return body::absorbed_share_of_sun(posture(g), g.between("altitude_deg", 0, 90));
         }>},
        {"sun_shed",
         "Share of the sun taken up that moving air takes away again.",
         "1",
         {in("Va_m_s", "m/s", 0.5, 12)},
         "our surface balance: skin temperature by radiation from ISO 7933:2004, exchange from ASHRAE",
         run<[](const Given& g) { return body::sun_shed_share(g.not_negative("Va_m_s")); }>},
        {"warming",
         "Core temperature, and the heat stored, after minutes of steady work from rest.",
         "C and kJ",
         {in("metabolic_w", "W", 300, 900), in("mass_kg", "kg", 40, 120),
          or_else(in("height_m", "m", 1.5, 2), "1.75"), in("minutes", "min", 0, 600)},
         "ISO 7933:2004 (36.6 + 0.0036 M, 10 min, 57.83 W min per kg and K); the skin taken to follow the "
         "core",
         run<warming>},
        {"ride_energy",
         "Metabolic power of a ride.",
         "W",
         {in("power_w", "W", 50, 400), in("mass_kg", "kg", 40, 120)},
         "ACSM cycling equation, and never less than at an efficiency of 20 % (Moseley & Jeukendrup 2001)",
         run<[](const Given& g) {
             return body::ride_metabolic_power_w(g.not_negative("power_w"), g.positive("mass_kg"));
         }>},
    };
}

} // namespace tuck::registry
