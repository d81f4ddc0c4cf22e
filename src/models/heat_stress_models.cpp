// Heat stress of people at work and of weather: long calculations, one entry each.
#include "base/outdoor_wbgt.hpp"
#include "body/heat_strain.hpp"
#include "models/entry.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace tuck::registry {
namespace {

ModelResult heat_strain(const Given& g) {
    body::HeatStrainConditions c;
    c.edition = g.word("edition") == "2023" ? body::StrainEdition::iso_2023 : body::StrainEdition::iso_2004;
    c.acclimatised = g.yes("acclimatised");
    c.posture = g.word("posture") == "standing"  ? body::Posture::standing
                : g.word("posture") == "sitting" ? body::Posture::sitting
                                                 : body::Posture::crouching;
    c.air_c = g.temperature("Ta_C");
    c.vapour_kpa = g.not_negative("Pa_kPa");
    c.radiant_c = g.temperature("Tr_C");
    c.air_speed_m_s = g.not_negative("Va_m_s");
    c.metabolic_w_per_m2 = g.positive("Met_W_m2");
    c.mechanical_w_per_m2 = g.not_negative("Work_W_m2");
    c.clothing_clo = g.not_negative("Icl_clo");
    c.reflecting_share = g.between("Ap", 0, 1);
    c.reflection = g.between("Fr", 0, 1);
    c.mass_kg = g.positive("mass_kg");
    c.height_m = g.positive("height_m");
    if (const double walk_m_s = g.not_negative("walk_m_s"); walk_m_s > 0) {
        c.walk_m_s = walk_m_s;
        if (g["theta_deg"] != 0) {
            c.walk_angle_deg = g.between("theta_deg", -360, 360);
        }
    }
    const double minutes = g.between("duration_min", 1, 1440);
    if (minutes != std::floor(minutes)) {
        throw std::invalid_argument("duration_min: must be a whole number of minutes");
    }
    c.minutes = static_cast<int>(minutes);
    const body::HeatStrain h = body::predicted_heat_strain(c);
    return {{{"Tre_C", h.rectal_c},
             {"loss_g", h.water_loss_g},
             {"t38_min", static_cast<double>(h.minutes_to_38_c)},
             {"t7_5pct_min", static_cast<double>(h.minutes_to_7_5_pct)},
             {"t5pct_min", static_cast<double>(h.minutes_to_5_pct)},
             {"Tcr_C", h.core_c},
             {"Tsk_C", h.skin_c},
             {"sweat_W_m2", h.sweat_w_per_m2}},
            true,
            "times equal to the duration mean: not reached"};
}

ModelResult outdoor_wbgt(const Given& g) {
    OutdoorAir w;
    w.air_c = g.temperature("Ta_C");
    g.positive("RH_pct");
    w.humidity_pct = g.humidity();
    w.pressure_hpa = g.between("p_hPa", 300, 1200);
    w.solar_w_per_m2 = g.between("solar_W_m2", 0, 1500);
    w.direct_fraction = g.between("direct_fraction", 0, 1);
    w.cos_zenith = g.between("cos_zenith", -1, 1);
    const double wind = g.not_negative("v10_m_s");
    w.wind_2m_m_s = wind_at_2m_m_s(std::max(wind, least_wind_10m_m_s), w.cos_zenith, w.solar_w_per_m2);
    const OutdoorWbgt result = tuck::outdoor_wbgt(w);
    return {{{"WBGT_C", result.wbgt_c}, {"Tnw_C", result.natural_wet_bulb_c}, {"Tg_C", result.globe_c}},
            true,
            ""};
}

} // namespace

std::vector<Model> heat_stress_models() {
    return {
        {"predicted_heat_strain",
         "Core temperature and water loss of work in heat, minute by minute; not for racing. A walking speed "
         "or an angle of 0 is not given.",
         "C",
         {word("acclimatised", {"yes", "no"}), word("posture", {"standing", "sitting", "crouching"}),
          in("Ta_C", "C", 15, 50), in("Pa_kPa", "kPa", 0, 4.5), in("Tr_C", "C", 15, 110),
          in("Va_m_s", "m/s", 0, 3), in("Met_W_m2", "W/m2", 100, 450),
          or_else(in("Work_W_m2", "W/m2", 0, 100), "0"), in("Icl_clo", "clo", 0.1, 1),
          or_else(in("walk_m_s", "m/s", 0, 1.5), "0"), or_else(in("theta_deg", "deg", -360, 360), "0"),
          or_else(in("mass_kg", "kg", 40, 130), "75"), or_else(in("height_m", "m", 1.4, 2.1), "1.80"),
          or_else(in("duration_min", "min", 1, 481), "480"),
          or_else(word("edition", {"2004", "2023"}), "2004"), or_else(in("Ap", "1", 0, 1), "0"),
          or_else(in("Fr", "1", 0, 1), "0")},
         "ISO 7933:2004; ISO 7933:2023 as public code states its changes",
         run<heat_strain>},
        {"wbgt_outdoors",
         "WBGT outdoors from weather, by the heat balances of globe and wick.",
         "C",
         {in("Ta_C", "C", -5, 50), in("RH_pct", "%", 5, 100),
          or_else(in("p_hPa", "hPa", 600, 1100), "1013.25"), in("v10_m_s", "m/s", 0, 20),
          in("solar_W_m2", "W/m2", 0, 1300), in("direct_fraction", "1", 0, 0.9), in("cos_zenith", "1", 0, 1)},
         "Liljegren et al. 2008, J Occup Environ Hyg 5:645, as carried by public code",
         run<outdoor_wbgt>},
        {"wind_at_2m",
         "Wind at 2 m from wind at 10 m by stability class, in towns.",
         "m/s",
         {in("v10_m_s", "m/s", 0, 20), in("cos_zenith", "1", -1, 1), in("solar_W_m2", "W/m2", 0, 1300)},
         "Liljegren et al. 2008",
         run<[](const Given& g) {
             return wind_at_2m_m_s(g.not_negative("v10_m_s"), g["cos_zenith"], g.not_negative("solar_W_m2"));
         }>},
    };
}

} // namespace tuck::registry
