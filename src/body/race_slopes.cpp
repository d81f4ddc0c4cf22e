#include "body/race_slopes.hpp"

#include "body/heat.hpp"
#include "body/land_heat.hpp"
#include "body/race_drive.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::body {

namespace {

constexpr double step_c = 2.5, step_pct = 10, step_pace = 0.05;
constexpr double warm_enough_w = 1;
constexpr double bike_power_per_pace = 1.2; // half of 2.4, see at_pace

struct Slopes {
    double per_c = 0, per_c2 = 0, per_pct = 0, per_pct2 = 0, per_pace = 0; // ml/h of sweat
};

class Minute {
public:
    Minute(const LegDrive& drive, const LegDrive& faster, const LegDrive& slower, double solar_w_per_m2,
           double storing_w)
        : drive_(drive), faster_(faster), slower_(slower), solar_w_per_m2_(solar_w_per_m2),
          storing_w_(storing_w) {}

    Slopes slopes(const Air& air) const {
        const Air warm = warmer_air(air, step_c), cold = warmer_air(air, -step_c);
        const double span_pct = std::min({step_pct, 100 - air.humidity_pct, air.humidity_pct});
        Air wet = air, dry = air;
        wet.humidity_pct += span_pct;
        dry.humidity_pct -= span_pct;
        const double here = sweat(drive_, air), warmer = sweat(drive_, warm), colder = sweat(drive_, cold);
        const double wetter = sweat(drive_, wet), drier = sweat(drive_, dry);
        const bool varies = span_pct > 1; // next to 0 or 100 %: taken as level
        return {(warmer - colder) / (2 * step_c), (warmer + colder - 2 * here) / (2 * step_c * step_c),
                varies ? (wetter - drier) / (2 * span_pct) : 0.0,
                varies ? (wetter + drier - 2 * here) / (2 * span_pct * span_pct) : 0.0,
                (sweat(faster_, air) - sweat(slower_, air)) / (2 * step_pace)};
    }

private:
    double sweat(const LegDrive& drive, const Air& air) const {
        const auto heat = heat_of(drive, air, solar_w_per_m2_, storing_w_);
        return std::min(most_sweat_ml_per_h, drive_.sweat_factor * heat.sweat_w * (1000 / watt_per_l_per_h));
    }
    const LegDrive &drive_, &faster_, &slower_;
    double solar_w_per_m2_, storing_w_; // those of the plan on every day
};

bool same_air(const BodyMinutes& m, std::size_t i, std::size_t k) {
    return m.air_c[i] == m.air_c[k] && m.humidity_pct[i] == m.humidity_pct[k] &&
           m.wind_m_s[i] == m.wind_m_s[k] && m.solar_w_per_m2[i] == m.solar_w_per_m2[k];
}

} // namespace

Air warmer_air(Air air, double by_c) {
    const double before_kpa = saturation_vapour_pressure_kpa(air.temperature_c);
    air.temperature_c += by_c;
    air.humidity_pct =
        std::min(100.0, air.humidity_pct * before_kpa / saturation_vapour_pressure_kpa(air.temperature_c));
    return air;
}

LegEffort at_pace(LegEffort leg, double log_pace) {
    const double faster = std::exp(log_pace);
    leg.speed_m_s *= faster;
    leg.power_w *= std::exp(bike_power_per_pace * log_pace);
    for (auto& section : leg.sections)
        section.speed_m_s *= faster;
    return leg;
}

void add_slopes(const Athlete& athlete, const Event& event, const Effort& effort,
                const std::vector<LegDrive>& drives, BodyMinutes& m) {
    std::size_t i = 0;
    double leg_start_s = 0;
    Warming warming;
    for (std::size_t leg = 0; leg < drives.size(); ++leg) {
        const auto fast_leg = at_pace(effort.legs[leg], step_pace),
                   slow_leg = at_pace(effort.legs[leg], -step_pace);
        LegDrive here = drives[leg], faster = leg_drive(athlete, event, fast_leg),
                 slower = leg_drive(athlete, event, slow_leg);
        const double metabolic_per_pace = (faster.metabolic_w - slower.metabolic_w) / (2 * step_pace);
        const std::size_t first = i;
        const double warm_c = working_core_c(here.metabolic_w, here.area_m2);
        double speed_before = -1, storing_before_w = 0;
        for (; i < m.size() && m.leg_index[i] == effort.legs[leg].leg_index; ++i) {
            const double middle_s = m.at_s[i] - leg_start_s + m.length_s[i] / 2;
            here.speed_m_s = speed_at_m_s(effort.legs[leg], middle_s);
            m.metabolic_w_per_pace[i] = metabolic_per_pace;
            double storing_w = warming.step_w(warm_c, here.mass_kg, m.length_s[i]);
            if (std::abs(storing_w) < warm_enough_w)
                storing_w = 0;
            if (i > first && here.speed_m_s == speed_before && storing_w == storing_before_w &&
                same_air(m, i, i - 1)) {
                m.sweat_ml_per_h_per_c[i] = m.sweat_ml_per_h_per_c[i - 1];
                m.sweat_ml_per_h_per_c2[i] = m.sweat_ml_per_h_per_c2[i - 1];
                m.sweat_ml_per_h_per_pct[i] = m.sweat_ml_per_h_per_pct[i - 1];
                m.sweat_ml_per_h_per_pct2[i] = m.sweat_ml_per_h_per_pct2[i - 1];
                m.sweat_ml_per_h_per_pace[i] = m.sweat_ml_per_h_per_pace[i - 1];
                continue;
            }
            speed_before = here.speed_m_s;
            storing_before_w = storing_w;
            faster.speed_m_s = speed_at_m_s(fast_leg, middle_s);
            slower.speed_m_s = speed_at_m_s(slow_leg, middle_s);
            const Slopes slopes = Minute(here, faster, slower, m.solar_w_per_m2[i], storing_w)
                                      .slopes({m.air_c[i], m.humidity_pct[i], m.wind_m_s[i]});
            m.sweat_ml_per_h_per_c[i] = slopes.per_c;
            m.sweat_ml_per_h_per_c2[i] = slopes.per_c2;
            m.sweat_ml_per_h_per_pct[i] = slopes.per_pct;
            m.sweat_ml_per_h_per_pct2[i] = slopes.per_pct2;
            m.sweat_ml_per_h_per_pace[i] = slopes.per_pace;
        }
        leg_start_s += effort.legs[leg].time.p50_s;
    }
}

} // namespace tuck::body
