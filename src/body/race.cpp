#include "body/race.hpp"

#include "body/land_heat.hpp"
#include "body/oxidation.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::body {

namespace {

constexpr double minute_s = 60;

std::size_t rows_of(const LegEffort& leg) {
    return leg.time.p50_s > 0 ? static_cast<std::size_t>(std::ceil(leg.time.p50_s / minute_s)) : 0;
}

void write_air(const Air& air, SunOnBody& sun, std::size_t i, BodyMinutes& m) {
    m.air_c[i] = air.temperature_c;
    m.humidity_pct[i] = air.humidity_pct;
    m.wind_m_s[i] = air.wind_m_s;
    m.sun_w_m2[i] = air.sun_w_m2;
    m.sun_height_deg[i] = air.sun_height_deg;
    m.solar_w_per_m2[i] = sun.w_per_m2(air);
}

void write_heat(const HeatBalance& heat, std::size_t i, BodyMinutes& m) {
    m.respiratory_w[i] = heat.respiratory_w;
    m.dry_w[i] = heat.dry_w;
    m.stored_w[i] = heat.stored_w;
    m.required_w[i] = heat.required_w;
    m.evaporated_w[i] = heat.evaporated_w;
    m.sweat_ml_per_h[i] = heat.sweat_w * (1000 / watt_per_l_per_h);
    m.breath_ml_per_h[i] = heat.respiratory_evaporation_w * (1000 / watt_per_l_per_h);
}

void write_leg(const LegDrive& drive, std::size_t first, std::size_t last, BodyMinutes& m) {
    const auto fill = [first, last](auto& column, auto value) {
        std::fill(column.data() + first, column.data() + last, value);
    };
    fill(m.leg_index, drive.leg_index);
    fill(m.metabolic_w, drive.metabolic_w);
    fill(m.mechanical_w, drive.mechanical_w);
    fill(m.carb_g_per_h, drive.carb_g_per_h);
    fill(m.fat_g_per_h, drive.fat_g_per_h);
}

/// From the average athlete's sweat to this one's, and what the minutes do to the stores.
void use_up(const LegDrive& drive, std::size_t first, std::size_t last, Stores& stores, BodyMinutes& m) {
    const double made_water = water_per_g_carb * drive.carb_g_per_h + water_per_g_fat * drive.fat_g_per_h;
    const double fuel = drive.carb_g_per_h + drive.fat_g_per_h;
    const double per_spared = 1 / (glycogen_spared_from * stores.full_glycogen_g);
    for (std::size_t i = first; i < last; ++i) {
        const double hours = m.length_s[i] * (1 / 3600.0);
        const double sweat = std::min(most_sweat_ml_per_h, drive.sweat_factor * m.sweat_ml_per_h[i]);
        const double water = (made_water - sweat - m.breath_ml_per_h[i]) * hours;
        const double asked = drive.carb_g_per_h * hours;
        // left - asked * glycogen_given(left / full), in the order that the next minute waits least for
        const double spared = stores.glycogen_g * std::max(0.0, 1 - asked * per_spared);
        stores.glycogen_g = std::max(stores.glycogen_g - asked, spared);
        stores.water_change_g += water;
        stores.mass_change_g += water - fuel * hours;
        m.sweat_ml_per_h[i] = sweat;
        m.sodium_mg_per_h[i] = sweat * drive.sodium_mg_per_ml;
        m.glycogen_g[i] = stores.glycogen_g;
        m.water_change_g[i] = stores.water_change_g;
        m.mass_change_g[i] = stores.mass_change_g;
    }
}

} // namespace

void resize(BodyMinutes& m, std::size_t rows) {
    m.leg_index.resize(rows);
    for (auto* column : {&m.at_s,
                         &m.length_s,
                         &m.air_c,
                         &m.humidity_pct,
                         &m.wind_m_s,
                         &m.sun_w_m2,
                         &m.sun_height_deg,
                         &m.solar_w_per_m2,
                         &m.metabolic_w,
                         &m.mechanical_w,
                         &m.respiratory_w,
                         &m.dry_w,
                         &m.stored_w,
                         &m.required_w,
                         &m.evaporated_w,
                         &m.sweat_ml_per_h,
                         &m.breath_ml_per_h,
                         &m.sodium_mg_per_h,
                         &m.carb_g_per_h,
                         &m.fat_g_per_h,
                         &m.glycogen_g,
                         &m.water_change_g,
                         &m.mass_change_g,
                         &m.sweat_ml_per_h_per_c,
                         &m.sweat_ml_per_h_per_pct,
                         &m.sweat_ml_per_h_per_pace,
                         &m.metabolic_w_per_pace,
                         &m.sweat_ml_per_h_per_c2,
                         &m.sweat_ml_per_h_per_pct2})
        column->resize(rows);
}

double speed_at_m_s(const LegEffort& leg, double leg_s) {
    const auto here = std::find_if(leg.sections.begin(), leg.sections.end(),
                                   [leg_s](const Section& section) { return leg_s < section.to_s; });
    return std::max(least_speed_m_s, here == leg.sections.end() ? leg.speed_m_s : here->speed_m_s);
}

double SunOnBody::w_per_m2(const Air& air) {
    if (kind_ == LegKind::swim || air.sun_w_m2 <= 0)
        return 0;
    if (air.sun_height_deg != height_deg_) {
        height_deg_ = air.sun_height_deg;
        share_ =
            absorbed_share_of_sun(kind_ == LegKind::bike ? Stance::seated : Stance::standing, height_deg_);
    }
    return air.sun_w_m2 * share_;
}

double solar_w_per_m2(LegKind kind, const Air& air) {
    return SunOnBody(kind).w_per_m2(air);
}

HeatBalance heat_of(const LegDrive& drive, const Air& air, double solar_w_per_m2, double storing_w) {
    if (drive.kind == LegKind::swim)
        return water_heat_balance(drive.metabolic_w, drive.swim_sweat_ml_per_h, air.temperature_c,
                                  air.humidity_pct, storing_w);
    const double air_speed = // own speed, and wind from all sides of a course
        std::sqrt(drive.speed_m_s * drive.speed_m_s + air.wind_m_s * air.wind_m_s);
    return land_heat_balance({drive.metabolic_w, drive.mechanical_w, drive.area_m2, air.temperature_c,
                              air.humidity_pct, air_speed, solar_w_per_m2, storing_w, shell_of(drive.kind)});
}

void step_minutes(const LegDrive& drive, const double* own_speed_m_s, std::size_t first, std::size_t last,
                  Stores& stores, BodyMinutes& m) {
    write_leg(drive, first, last, m);
    const double warm_c = working_core_c(drive.metabolic_w, drive.area_m2);
    for (std::size_t i = first; i < last; ++i)
        m.stored_w[i] = stores.warming.step_w(warm_c, drive.mass_kg, m.length_s[i]);
    if (drive.kind == LegKind::swim) {
        for (std::size_t i = first; i < last; ++i)
            write_heat(water_heat_balance(drive.metabolic_w, drive.swim_sweat_ml_per_h, m.air_c[i],
                                          m.humidity_pct[i], m.stored_w[i]),
                       i, m);
    } else {
        LandLoad load;
        load.metabolic_w = drive.metabolic_w;
        load.mechanical_w = drive.mechanical_w;
        load.area_m2 = drive.area_m2;
        load.shell_m2_k_per_w = shell_of(drive.kind);
        land_heat_minutes(load, own_speed_m_s, first, last, m);
    }
    use_up(drive, first, last, stores, m);
}

BodyMinutes race_path(const Event& event, const Effort& effort, const std::vector<LegDrive>& drives,
                      double glycogen_g) {
    std::size_t rows = 0;
    for (const auto& leg : effort.legs)
        rows += rows_of(leg);
    BodyMinutes minutes;
    resize(minutes, rows);

    const auto points = air_points(event);
    const double first_hour = start_hour(event);
    Stores stores{glycogen_g, 0, 0, glycogen_g, {}};
    double leg_start_s = 0;
    std::size_t first = 0;
    for (std::size_t leg = 0; leg < drives.size(); ++leg) {
        const double leg_s = effort.legs[leg].time.p50_s;
        const std::size_t last = first + rows_of(effort.legs[leg]);
        std::vector<double> own_speed_m_s;
        SunOnBody sun(effort.legs[leg].kind);
        for (std::size_t i = first; i < last; ++i) {
            const double at_s = minute_s * static_cast<double>(i - first);
            minutes.at_s[i] = leg_start_s + at_s;
            minutes.length_s[i] = std::min(minute_s, leg_s - at_s);
            const double middle_s = at_s + minutes.length_s[i] / 2;
            own_speed_m_s.push_back(speed_at_m_s(effort.legs[leg], middle_s));
            write_air(air_at(points, first_hour + (leg_start_s + middle_s) / 3600), sun, i, minutes);
        }
        step_minutes(drives[leg], own_speed_m_s.data(), first, last, stores, minutes);
        leg_start_s += leg_s;
        first = last;
    }
    return minutes;
}

} // namespace tuck::body
