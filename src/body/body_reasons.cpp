#include "body/body_reasons.hpp"

#include "base/conditions.hpp"
#include "body/land_heat.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::body {

namespace {

constexpr char fit_source[] =
    "running: fitted to Sawka 2007 table 3 (from memory); other speeds and humidity: our extension";
constexpr char fit_row[] = "fit to Sawka 2007, ours"; // short, so that a row of the table fits a line

const char* energy_source(LegKind kind) {
    switch (kind) {
    case LegKind::swim:
        return "Kimber 2002";
    case LegKind::bike:
        return "efficiency 0.20, Moseley 2001";
    case LegKind::run:
        return "ACSM metabolic equations";
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

Reason row(const char* what, double value, const char* unit, const char* source) {
    return {fmt::format("{:<29}{:>5.0f} {:<4}", what, std::round(value) + 0.0, unit), source};
}

Reason watt_row(const char* what, double watt, const char* source) {
    return row(what, watt, "W", source);
}

void land_rows(const HeatBalance& heat, std::vector<Reason>& rows) {
    rows.push_back(
        watt_row(heat.dry_w < 0 ? "  to air and sun: they heat" : "  to air and sun", heat.dry_w, fit_row));
    rows.push_back(watt_row("  stored, or left open", heat.other_w, "what the fit leaves open"));
    rows.push_back(watt_row("  to sweat that evaporates", heat.evaporated_w, fit_row));
    if (heat.required_w - heat.evaporated_w > 0.5)
        rows.push_back(watt_row("  it would need, in drier air", heat.required_w, fit_row));
    rows.push_back(watt_row("sweat made, drips included", heat.sweat_w, "ISO 7933; heat: Junge 2016"));
}

} // namespace

bool beyond_sweat_model(const LegBody& leg, double area_m2) {
    constexpr double near_enough = 0.9; // the curve bends from 0.8 on
    return leg.kind != LegKind::swim && leg.heat.sweat_w > near_enough * most_sweat_w_per_m2 * area_m2;
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

std::vector<Reason> heat_rows(const LegBody& leg) {
    const auto& heat = leg.heat;
    const bool swims = leg.kind == LegKind::swim;
    std::vector<Reason> rows{watt_row("energy used", heat.metabolic_w, energy_source(leg.kind))};
    if (heat.mechanical_w > 0)
        rows.push_back(watt_row("  to the pedals", heat.mechanical_w, "power of the leg"));
    rows.push_back(watt_row("  to the breath", heat.respiratory_w, "ISO 7933:2004"));
    if (swims)
        rows.push_back(watt_row("  to the water", heat.dry_w, "what is left; not modelled"));
    else
        land_rows(heat, rows);
    rows.push_back(row("the average athlete's sweat", heat.sweat_w / watt_per_l_per_h * 1000, "ml/h",
                       swims ? "Macaluso 2011" : "2.43 kJ/g, IOM 2005"));
    rows.push_back(row("planned with: the median", leg.sweat_ml_per_h, "ml/h", "own test or Barnes 2019"));
    return rows;
}

} // namespace tuck::body
