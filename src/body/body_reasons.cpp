#include "body/body_reasons.hpp"

#include "base/conditions.hpp"
#include "body/land_heat.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::body {

namespace {

constexpr char fit_source[] = "breath and storage: ISO 7933:2004; air: ASHRAE; kit and cool skin: ours, by "
                              "measured groups; sun: ASHRAE 55-2017";

const char* energy_source(LegKind kind) {
    switch (kind) {
    case LegKind::swim:
        return "Kimber 2002";
    case LegKind::bike:
        return "ACSM; Moseley 2001";
    case LegKind::run:
        return "Leger & Mercier 1984";
    default:
        return "our choice, no source";
    }
}

std::string air_text(const LegBody& leg) {
    return std::abs(leg.air_last_c - leg.air_first_c) < 0.5
               ? fmt::format("{:.0f} C", leg.air_first_c)
               : fmt::format("{:.0f} to {:.0f} C", leg.air_first_c, leg.air_last_c);
}

Reason model_reason(const LegEffort& effort, const LegBody& leg, const Event& event) {
    if (leg.kind == LegKind::swim)
        return {fmt::format("swimming in water of {:.0f} C, scaled with body mass",
                            water_temperature_c(event.weather)),
                "Macaluso 2011 (23-32 C; beyond extrapolated, level below 14 C)"};
    const auto pedals = leg.heat.mechanical_w > 0
                            ? fmt::format(", {:.0f} W of it moves the bicycle", leg.heat.mechanical_w)
                            : "";
    const auto sun = leg.sun_w_m2 > 0 ? fmt::format(", sun of {:.0f} W/m2", leg.sun_w_m2) : "";
    return {fmt::format("heat balance: {:.0f} W used{}, {}, {:.0f} % humidity, {:.1f} m/s of air over the "
                        "body{}",
                        leg.heat.metabolic_w, pedals, air_text(leg), leg.humidity_pct,
                        std::hypot(std::max(effort.speed_m_s, 1.0), leg.wind_m_s), sun),
            fit_source};
}

/// The balance at some minutes of the leg and, last, on average: a column each.
struct Column {
    std::string head;
    HeatBalance heat;
    double planned_ml_per_h = 0;
};

HeatBalance at_minute(const BodyMinutes& m, std::size_t i, const LegDrive& drive) {
    HeatBalance heat;
    heat.metabolic_w = m.metabolic_w[i];
    heat.mechanical_w = m.mechanical_w[i];
    heat.respiratory_w = m.respiratory_w[i];
    heat.dry_w = m.dry_w[i];
    heat.stored_w = m.stored_w[i];
    heat.required_w = m.required_w[i];
    heat.evaporated_w = m.evaporated_w[i];
    heat.sun_w = m.solar_w_per_m2[i] * drive.area_m2;
    heat.sweat_w = m.sweat_ml_per_h[i] / drive.sweat_factor / 1000 * watt_per_l_per_h;
    return heat;
}

std::vector<Column> columns_of(const LegEffort& effort, const LegBody& leg, const LegDrive& drive,
                               const BodyMinutes& m, std::size_t first, std::size_t last) {
    std::vector<Column> columns;
    for (const std::size_t minute : {10, 60, 180})
        if (const std::size_t i = first + minute - 1; i < last) {
            columns.push_back({fmt::format("{}'", minute), at_minute(m, i, drive), m.sweat_ml_per_h[i]});
            const double air_m_s =
                std::hypot(speed_at_m_s(effort, 60 * (static_cast<double>(minute) - 0.5)), m.wind_m_s[i]);
            columns.back().heat.sun_shed_w = columns.back().heat.sun_w * sun_shed_share(air_m_s);
        }
    columns.push_back({"mean", leg.heat, leg.sweat_ml_per_h});
    columns.back().heat.sun_shed_w =
        leg.heat.sun_w *
        sun_shed_share(std::hypot(std::max(effort.speed_m_s, least_speed_m_s), leg.wind_m_s));
    return columns;
}

template <typename Value>
Reason row(const char* what, const std::vector<Column>& columns, const char* unit, const char* source,
           const Value& value) {
    std::string text = fmt::format("{:<24}", what);
    for (const auto& column : columns)
        text += fmt::format("{:>6.0f}", std::round(value(column)) + 0.0);
    return {text + " " + unit, source};
}

template <typename Value>
Reason watt_row(const char* what, const std::vector<Column>& columns, const char* source,
                const Value& value) {
    return row(what, columns, "W", source, [&](const Column& column) { return value(column.heat); });
}

void land_rows(const std::vector<Column>& columns, std::vector<Reason>& rows) {
    rows.push_back(watt_row("  to the air", columns, "ASHRAE; kit ours",
                            [](const auto& h) { return h.dry_w + h.sun_w - h.sun_shed_w; }));
    if (columns.back().heat.sun_w > 0.5) {
        rows.push_back(
            watt_row("  sun taken up", columns, "ASHRAE 55-2017", [](const auto& h) { return -h.sun_w; }));
        rows.push_back(watt_row("  of it back to the air", columns, "surface; ISO 7933",
                                [](const auto& h) { return h.sun_shed_w; }));
    }
    rows.push_back(
        watt_row("  warms the body", columns, "ISO 7933:2004", [](const auto& h) { return h.stored_w; }));
    rows.push_back(watt_row("  sweat that evaporates", columns, "what is left",
                            [](const auto& h) { return h.evaporated_w; }));
    if (columns.back().heat.required_w - columns.back().heat.evaporated_w > 0.5)
        rows.push_back(watt_row("  would have to", columns, "more than can",
                                [](const auto& h) { return h.required_w; }));
    rows.push_back(watt_row("sweat, drips included", columns, "ISO 7933; Junge 2016",
                            [](const auto& h) { return h.sweat_w; }));
}

} // namespace

bool beyond_sweat_model(const LegBody& leg, double area_m2) {
    constexpr double near_enough = 0.9; // the curve bends from 0.8 on
    return leg.kind != LegKind::swim && leg.heat.sweat_w > near_enough * most_sweat_w_per_m2 * area_m2;
}

std::string out_of_range(const LegBody& leg, double air_speed_m_s) {
    if (leg.kind != LegKind::bike && leg.kind != LegKind::run)
        return "";
    struct Bound {
        double value, low, high;
        const char* words;
    };
    const double coldest_c = std::min(leg.air_first_c, leg.air_last_c),
                 warmest_c = std::max(leg.air_first_c, leg.air_last_c);
    // Powers and speeds of the field table and of the trials in heat; air of the same.
    for (const Bound& at :
         {Bound{leg.metabolic_w, 300, 1600, "{:.0f} W used (300 to 1600)"},
          Bound{coldest_c, 5, 60, "{:.0f} C (5 to 40)"}, Bound{warmest_c, -60, 40, "{:.0f} C (5 to 40)"},
          Bound{air_speed_m_s, 0, 12.5, "{:.0f} m/s of air (up to 12)"}})
        if (at.value < at.low || at.value > at.high)
            return fmt::format("{}: {}", to_string(leg.kind),
                               fmt::format(fmt::runtime(at.words), at.value + 0.0));
    return "";
}

std::vector<Reason> sweat_reasons(const LegEffort& effort, const LegBody& leg, const Event& event,
                                  const SweatFactor& own, double area_m2) {
    std::vector<Reason> out{model_reason(effort, leg, event)};
    out.insert(out.end(), own.because.begin(), own.because.end());
    if (own.because.empty())
        out.push_back({fmt::format("no sweat test: athletes differ by 45 %, so the 20th percentile is {:.0f} "
                                   "ml/h and the median {:.0f} ml/h",
                                   leg.sweat_p20_ml_per_h, leg.sweat_ml_per_h),
                       "Barnes 2019"});
    if (leg.kind == LegKind::swim)
        return out;
    const double warmest_c = std::max(leg.air_first_c, leg.air_last_c);
    if (share_of_heat(warmest_c) > 0.05)
        out.push_back(
            {fmt::format("in heat people sweat more than the balance asks for: here {:.2f} times",
                         1 + more_in_heat * share_of_heat(warmest_c)),
             "Junge 2016 table 1 (trained cyclists, 30-40 C); ISO 7933:2004; from 18 C on: our choice"});
    if (beyond_sweat_model(leg, area_m2))
        out.push_back(
            {fmt::format("out of the model's range: held to the most that groups of athletes were seen to "
                         "sweat, {:.1f} L/h for this body",
                         most_sweat_w_per_m2 * area_m2 / watt_per_l_per_h),
             "Junge 2016 table 1 (2.5 L/h); by skin area: our choice"});
    return out;
}

std::vector<Reason> heat_rows(const LegEffort& effort, const LegBody& leg, const LegDrive& drive,
                              const BodyMinutes& minutes, std::size_t first, std::size_t last) {
    const bool swims = leg.kind == LegKind::swim;
    const auto columns = columns_of(effort, leg, drive, minutes, first, last);
    std::string heads = fmt::format("{:<24}", "minute");
    for (const auto& column : columns)
        heads += fmt::format("{:>6}", column.head);
    std::vector<Reason> rows{{heads, "of this leg"},
                             watt_row("energy used", columns, energy_source(leg.kind),
                                      [](const auto& h) { return h.metabolic_w; })};
    if (leg.heat.mechanical_w > 0)
        rows.push_back(watt_row("  to the pedals", columns, "power of the leg",
                                [](const auto& h) { return h.mechanical_w; }));
    rows.push_back(
        watt_row("  to the breath", columns, "ISO 7933:2004", [](const auto& h) { return h.respiratory_w; }));
    if (swims) {
        rows.push_back(
            watt_row("  warms the body", columns, "ISO 7933:2004", [](const auto& h) { return h.stored_w; }));
        rows.push_back(
            watt_row("  to the water", columns, "what is left", [](const auto& h) { return h.dry_w; }));
    } else {
        land_rows(columns, rows);
    }
    rows.push_back(row("average sweat", columns, "ml/h", swims ? "Macaluso 2011" : "2.43 kJ/g, IOM 2005",
                       [](const Column& c) { return c.heat.sweat_w / watt_per_l_per_h * 1000; }));
    rows.push_back(row("planned with: the median", columns, "ml/h", "own test; Barnes 2019",
                       [](const Column& c) { return c.planned_ml_per_h; }));
    return rows;
}

} // namespace tuck::body
