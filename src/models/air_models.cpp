// Air, radiation and the body's surface.
#include "body/exchange.hpp"
#include "body/heat.hpp"
#include "body/moist_air.hpp"
#include "effort/power.hpp"
#include "effort/power_terms.hpp"
#include "models/entry.hpp"

#include <cmath>
#include <stdexcept>

namespace tuck::registry {
namespace {

double saturation(const Given& g) {
    const double air_c = g.temperature("Ta_C");
    const std::string& form = g.word("form");
    if (form == "ashrae") {
        return body::saturation_vapour_pressure_ashrae_kpa(air_c);
    }
    if (form == "hardy_1998") {
        return body::saturation_vapour_pressure_hardy_kpa(air_c);
    }
    if (form == "cipm_2007") {
        return effort::saturation_vapour_pressure_cipm_pa(air_c) / 1000;
    }
    return body::saturation_vapour_pressure_kpa(air_c);
}

ModelResult humidity_from_dew_point(const Given& g) {
    const double humidity = body::humidity_from_dew_point_pct(g.temperature("Ta_C"), g.temperature("Td_C"));
    return flagged(humidity, humidity <= 100, "dew point above the air temperature");
}

double surface(const Given& g) {
    const double mass_kg = g.positive("mass_kg");
    const double height_m = g.positive("height_m");
    const std::string& formula = g.word("formula");
    if (formula == "takahira") {
        return body::body_surface_takahira_m2(mass_kg, height_m);
    }
    if (formula == "fujimoto") {
        return body::body_surface_fujimoto_m2(mass_kg, height_m);
    }
    if (formula == "kurazumi") {
        return body::body_surface_kurazumi_m2(mass_kg, height_m);
    }
    return body::body_surface_m2(mass_kg, height_m);
}

ModelResult wet_bulb(const Given& g) {
    const double air_c = g.temperature("Ta_C");
    if (g.word("form") == "stull") {
        return as_result(body::wet_bulb_stull_c(air_c, g.humidity()));
    }
    const double wet_c = body::wet_bulb_ashrae_c(g.between("Ta_C", -20, 60), g.humidity());
    return flagged(wet_c, wet_c >= 0, "below freezing: ice is not in this form");
}

struct ConvectionLaw {
    const char* name;
    double (*law)(double);
    double low_m_s, high_m_s;
};
constexpr ConvectionLaw convection_laws[] = {
    {"seated", body::convection_w_per_m2_k, 0, 4},
    {"walking", body::convection_walking_still_air, 0.5, 2},
    {"treadmill", body::convection_treadmill, 0.5, 2},
    {"standing", body::convection_standing, 0, 1.5},
    {"manikin", body::convection_manikin, 0, 5},
    {"iso_7933", body::convection_iso, 0, 3},
};

ModelResult convection(const Given& g) {
    const double speed = g.not_negative("Va_m_s");
    for (const ConvectionLaw& law : convection_laws) {
        if (g.word("law") == law.name) {
            const bool inside = speed >= law.low_m_s && speed <= law.high_m_s;
            return flagged(law.law(speed), inside, "extrapolated: beyond the speeds of this law");
        }
    }
    return {};
}

} // namespace

std::vector<Model> air_models() {
    return {
        {"saturation_vapour_pressure",
         "Vapour pressure of saturated air over water.",
         "kPa",
         {in("Ta_C", "C", 0, 50),
          or_else(word("form", {"iso_7933", "ashrae", "hardy_1998", "cipm_2007"}), "iso_7933")},
         "ISO 7933:2004; ASHRAE Fundamentals after Hyland & Wexler 1983 (from memory); Hardy 1998 (from "
         "memory); CIPM-2007, Picard et al. 2008",
         run<saturation>},
        {"vapour_pressure",
         "Partial pressure of water vapour.",
         "kPa",
         {in("Ta_C", "C", 0, 50), in("RH_pct", "%", 0, 100)},
         "ISO 7933:2004",
         run<[](const Given& g) { return body::vapour_pressure_kpa(g.temperature("Ta_C"), g.humidity()); }>},
        {"dew_point",
         "Dew point of moist air.",
         "C",
         {in("Ta_C", "C", -45, 60), in("RH_pct", "%", 1, 100)},
         "WMO Guide to Instruments and Methods of Observation (17.62, 243.12)",
         run<[](const Given& g) {
             g.positive("RH_pct");
             return body::dew_point_c(g.temperature("Ta_C"), g.humidity());
         }>},
        {"humidity_from_dew_point",
         "Relative humidity from air temperature and dew point.",
         "%",
         {in("Ta_C", "C", 0, 50), in("Td_C", "C", 0, 50)},
         "ISO 7933:2004 (vapour pressure)",
         run<humidity_from_dew_point>},
        {"wet_bulb",
         "Psychrometric wet-bulb temperature at sea level.",
         "C",
         {in("Ta_C", "C", -20, 50), in("RH_pct", "%", 5, 99),
          or_else(word("form", {"stull", "ashrae"}), "stull")},
         "Stull 2011, J Appl Meteorol Climatol 50:2267, eq. 1 (error -1.0 to +0.65 C, cold dry air excepted; "
         "above 35 C up to 1.2 C over the other form); ASHRAE Fundamentals, adiabatic saturation (from "
         "memory)",
         run<wet_bulb>},
        {"wbgt_from_parts",
         "WBGT from measured natural wet bulb, globe and air.",
         "C",
         {in("Tnw_C", "C", 0, 50), in("Tg_C", "C", 0, 90), or_else(in("Ta_C", "C", 0, 50), "0"),
          word("sun", {"yes", "no"})},
         "ISO 7243",
         run<[](const Given& g) {
             return body::wbgt_from_parts_c(g.temperature("Tnw_C"), g.temperature("Tg_C"),
                                            g.temperature("Ta_C"), g.yes("sun"));
         }>},
        {"wbgt_simple",
         "WBGT outdoors from temperature and humidity alone, moderate sun and light wind assumed.",
         "C",
         {in("Ta_C", "C", 0, 50), in("RH_pct", "%", 0, 100)},
         "Australian Bureau of Meteorology form (0.567, 0.393, 3.94), as carried by a weather-centre library",
         run<[](const Given& g) { return body::wbgt_simple_c(g.temperature("Ta_C"), g.humidity()); }>},
        {"wbgt_shade",
         "WBGT indoors or in shade from temperature and humidity alone.",
         "C",
         {in("Ta_C", "C", 0, 50), in("RH_pct", "%", 0, 100)},
         "shade form (0.567, 0.216, 3.38), as carried by a public R package",
         run<[](const Given& g) { return body::wbgt_shade_c(g.temperature("Ta_C"), g.humidity()); }>},
        {"mean_radiant_temperature",
         "Mean radiant temperature from a black globe.",
         "C",
         {in("Tg_C", "C", 0, 90), in("Ta_C", "C", 0, 50), in("Va_m_s", "m/s", 0, 5),
          or_else(in("d_m", "m", 0.04, 0.15), "0.15")},
         "ISO 7726 (from memory)",
         run<[](const Given& g) {
             const double radiant_c = body::mean_radiant_c(g.temperature("Tg_C"), g.temperature("Ta_C"),
                                                           g.not_negative("Va_m_s"), g.positive("d_m"));
             if (std::isnan(radiant_c)) {
                 throw std::invalid_argument(
                     "Tg_C: no surroundings make a globe so much colder than the air");
             }
             return radiant_c;
         }>},
        {"body_surface",
         "Body surface area.",
         "m2",
         {in("mass_kg", "kg", 30, 150), in("height_m", "m", 1.3, 2.2),
          or_else(word("formula", {"dubois", "takahira", "fujimoto", "kurazumi"}), "dubois")},
         "DuBois & DuBois 1916; Takahira 1925, Fujimoto 1968, Kurazumi 1994 from memory",
         run<surface>},
        {"convection",
         "Convective heat transfer coefficient of the body.",
         "W/(m2 K)",
         {in("Va_m_s", "m/s", 0, 15),
          or_else(word("law", {"seated", "walking", "treadmill", "standing", "manikin", "iso_7933"}),
                  "seated")},
         "ASHRAE Fundamentals, list of laws; de Dear 1997 (manikin); ISO 7933:2004",
         run<convection>},
        {"air_density",
         "Density of moist air as an ideal gas.",
         "kg/m3",
         {in("Ta_C", "C", -20, 45), or_else(in("p_Pa", "Pa", 60000, 110000), "101325"),
          or_else(in("RH_pct", "%", 0, 100), "50")},
         "ideal gas with vapour pressure of ISO 7933:2004",
         run<[](const Given& g) {
             return effort::air_density_kg_per_m3(g.temperature("Ta_C"), g.positive("p_Pa"), g.humidity());
         }>},
        {"air_density_cipm",
         "Density of moist air for metrology.",
         "kg/m3",
         {in("Ta_C", "C", 15, 27), in("p_Pa", "Pa", 60000, 110000), in("RH_pct", "%", 0, 100)},
         "CIPM-2007, Picard et al. 2008, Metrologia 45:149",
         run<[](const Given& g) {
             return effort::air_density_cipm_kg_per_m3(g.temperature("Ta_C"), g.positive("p_Pa"),
                                                       g.humidity());
         }>},
        {"standard_pressure",
         "Air pressure of the standard atmosphere at an altitude.",
         "Pa",
         {in("altitude_m", "m", -500, 11000)},
         "International Standard Atmosphere (from memory)",
         run<[](const Given& g) {
             return effort::pressure_at_altitude_pa(g.between("altitude_m", -5000, 44000));
         }>},
    };
}

} // namespace tuck::registry
