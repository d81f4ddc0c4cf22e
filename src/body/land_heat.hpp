// Where the heat of a leg goes: on land by a heat balance, in water by what is left.
#pragma once

#include "tuck/body.hpp"

namespace tuck::body {

inline constexpr double watt_per_l_per_h = 675; // of sweat or breath water: 2.43 kJ/g at 30 C, IOM 2005

/// What heats and cools a body on land.
struct LandLoad {
    double metabolic_w = 0;  // all energy used
    double mechanical_w = 0; // external work (0 for level running)
    double area_m2 = 0;
    double air_c = 0, humidity_pct = 0;
    double air_speed_m_s = 0; // over the body: own speed and wind
    double sun_w_m2 = 0;      // global radiation on level ground
};

/// The balance of any leg on land. Between 18 and 28 C at running speed, 30 % humidity and no sun it is the
/// fit to Sawka 2007, Table 3 (from memory). Beyond it is our extension: dry loss through a skin and an air
/// resistance in series, never more than a skin of 35 C gives to this air (so faster air cools below 35 C and
/// heats above); sun as warmer air; humid air wastes sweat (1 - w^2/2, ISO 7933:2004); breath as in ISO
/// 7933:2004. Total on -60..60 C, 0..100 %, any speed >= 0; no error figure beyond 40 C or 5 m/s.
HeatBalance land_heat_balance(const LandLoad& load);

/// A swimmer's: sweat cannot evaporate, and the water takes what the breath does not (not modelled).
HeatBalance water_heat_balance(double metabolic_w, double sweat_ml_per_h, double air_c, double humidity_pct);

} // namespace tuck::body
