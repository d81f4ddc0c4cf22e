// Where the heat of a leg goes: on land by a heat balance, in water by what is left.
#pragma once

#include "tuck/body.hpp"

namespace tuck::body {

inline constexpr double watt_per_l_per_h = 675; // of sweat or breath water: 2.43 kJ/g at 30 C, IOM 2005

/// What stands between warm skin of 35 C and the air: kit, and skin that is cooler where the air is. In clo
/// of 0.155 m2 K/W: 0.45 for a runner, whose limbs pump air through it, 0.8 for a rider, who is dressed
/// against the own wind. Both are ours, by the groups of tests/published/field.csv at 8-25 C (Maughan 1985,
/// Bongers 2020, Speedy 2001, Ebert 2007); kit alone has 0.1-0.6 clo (ISO 7933:2004).
inline constexpr double runners_shell_m2_k_per_w = 0.45 * 0.155;
inline constexpr double riders_shell_m2_k_per_w = 0.8 * 0.155;

/// What heats and cools a body on land.
struct LandLoad {
    double metabolic_w = 0;  // all energy used
    double mechanical_w = 0; // external work (0 for level running)
    double area_m2 = 0;
    double air_c = 0, humidity_pct = 0;
    double air_speed_m_s = 0;  // over the body: own speed and wind
    double solar_w_per_m2 = 0; // taken up from the sun per m2 of skin (body/sun.hpp)
    double storing_w = 0;      // still warming the body (body/warming.hpp); less where there is not so much
    double shell_m2_k_per_w = runners_shell_m2_k_per_w;
};

inline double shell_of(LegKind kind) {
    return kind == LegKind::bike ? riders_shell_m2_k_per_w : runners_shell_m2_k_per_w;
}

/// The balance of any leg on land: metabolic = mechanical + breath + dry + stored + evaporated, to the last
/// watt. Dry loss is that of warm skin through shell and air in series; in heat (from 30 to 40 C) the shell
/// counts less and less and bare skin meets the air, so faster air cools below 35 C and heats above. Sun is
/// taken up at the surface, and the air takes a part away again; wet skin wastes sweat (1 - w^2/2, ISO
/// 7933:2004); breath as in ISO 7933:2004; in heat up to a fifth more sweat than the balance asks for
/// (Junge 2016), bent to stay below 1.25 L/h per m2. What neither air nor sweat can take is stored: the body
/// overheats. Rises with temperature, humidity, sun, energy and mass. Total on -60..60 C, 0..100 %, any
/// speed >= 0.
///
/// Left out: cold sky and warm ground (long wave), rain, a wet kit, riding behind others, bodies fatter or
/// leaner than usual, acclimatisation, what the single athlete is (an SD of 45 %). No error figure beyond 40
/// C or 11 m/s.
HeatBalance land_heat_balance(const LandLoad& load);

/// Of the sun that is taken up, the share that moving air takes away again; the speed over the body in m/s.
double sun_shed_share(double air_speed_m_s);

/// The same for the rows [first, last) of `minutes`, whose air is set: fills the columns of heat and, in
/// ml/h, the average athlete's sweat and breath. Before, `stored_w` holds what the body takes up as it warms.
/// `own_speed_m_s` has one speed a row, at right angles to the wind; the air of `load` is not read.
void land_heat_minutes(const LandLoad& load, const double* own_speed_m_s, std::size_t first, std::size_t last,
                       BodyMinutes& minutes);

/// How much more than the balance asks for is sweated in full heat, as a share of it; and how much of that
/// holds at an air temperature, 0 (to 18 C) to 1 (from 34 C). In heat much sweat drips. Trained cyclists at
/// 30-40 C, matched in the cool: 1.2 times (median of nine trials, Junge 2016 Table 1). ISO 7933 on runners
/// at 28 C, with or without the water of the breath: 1.2 or 1.1 times. Runners of a humid 25 C: 1.2 or more
/// (O'Neal 2012).
inline constexpr double more_in_heat = 0.2;
double share_of_heat(double air_c);

/// What the rate is bent to stay below, W of latent heat per m2 of skin: 1.25 L/h per m2. 2.5 L/h is the
/// highest mean of a group in Junge 2016, Table 1 (acclimatised cyclists at 39 C), taken at 2.0 m2 (our
/// choice). Single people pass it (Baker 2016: 0.26 to 5.73 L/h).
inline constexpr double most_sweat_w_per_m2 = 1.25 * watt_per_l_per_h;

/// A swimmer's: sweat cannot evaporate, and the water takes what neither breath nor the warming body takes
/// (not modelled).
HeatBalance water_heat_balance(double metabolic_w, double sweat_ml_per_h, double air_c, double humidity_pct,
                               double storing_w = 0);

} // namespace tuck::body
