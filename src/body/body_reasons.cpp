#include "body/body_reasons.hpp"

#include "base/conditions.hpp"
#include "base/sources.hpp"
#include "body/land_heat.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::body {

namespace {

constexpr char breath_source[] = "ISO 7933:2004 (breath)";
constexpr char fit_source[] =
    "running: fitted to Sawka 2007 table 3 (from memory); other speeds and humidity: "
    "our extension";

const char* energy_source(LegKind kind) {
    switch (kind) {
    case LegKind::swim:
        return "Kimber 2002";
    case LegKind::bike:
        return "gross efficiency 0.20, Moseley & Jeukendrup 2001";
    case LegKind::run:
        return "ACSM metabolic equations";
    default:
        return "brisk walking and changing: our choice, no source";
    }
}

std::string air_text(const LegBody& leg) {
    return std::abs(leg.air_last_c - leg.air_first_c) < 0.5
               ? fmt::format("{:.0f} C", leg.air_first_c)
               : fmt::format("{:.0f} to {:.0f} C", leg.air_first_c, leg.air_last_c);
}

Reason row(const char* what, double watt, const char* source) {
    return {fmt::format("{:<34}{:>6.0f} W", what, std::round(watt) + 0.0), source};
}

Reason rate_row(const char* what, double ml_per_h, const char* source) {
    return {fmt::format("{:<34}{:>6.0f} ml/h", what, std::round(ml_per_h) + 0.0), source};
}

Reason model_reason(const LegEffort& effort, const LegBody& leg, const Event& event) {
    if (leg.kind == LegKind::swim)
        return {fmt::format("swimming in water of {:.0f} C, scaled with body mass",
                            water_temperature_c(event.weather)),
                "Macaluso 2011 (below 23 C extrapolated, at least 100 ml/h)"};
    const double sun_w_m2 = event.weather.sun_w_m2.value_or(0);
    return {
        fmt::format("heat balance: {:.0f} W used, {:.0f} W of it moves the bicycle, {}, {:.0f} % humidity, "
                    "{:.1f} m/s of air over the body{}",
                    leg.heat.metabolic_w, leg.heat.mechanical_w, air_text(leg), humidity_pct(event.weather),
                    std::hypot(std::max(effort.speed_m_s, 1.0), wind_m_s(event.weather)),
                    sun_w_m2 > 0 ? fmt::format(", sun of {:.0f} W/m2", sun_w_m2) : ""),
        fit_source};
}

} // namespace

std::vector<Reason> sweat_reasons(const LegEffort& effort, const LegBody& leg, const Event& event,
                                  const SweatFactor& own, const SweatSpread& spread) {
    std::vector<Reason> out{model_reason(effort, leg, event)};
    out.insert(out.end(), own.because.begin(), own.because.end());
    if (own.because.empty())
        out.push_back({fmt::format("no sweat test: athletes differ by 45 %, so the 20th percentile is {:.0f} "
                                   "ml/h and the median {:.0f} ml/h",
                                   leg.sweat_p20_ml_per_h, leg.sweat_ml_per_h),
                       "Barnes 2019"});
    if (spread.log_sd_up > spread.log_sd && leg.kind != LegKind::swim)
        out.push_back(
            {fmt::format("above 28 C the model is known to say too little: 80th percentile {:.0f} ml/h",
                         leg.sweat_p80_ml_per_h),
             "Junge 2016 table 1 (trained cyclists, 30-40 C); where it sets in: our choice"});
    return out;
}

std::vector<Reason> heat_rows(const LegBody& leg) {
    const auto& h = leg.heat;
    const bool swims = leg.kind == LegKind::swim;
    std::vector<Reason> rows{row("energy used", h.metabolic_w, energy_source(leg.kind))};
    if (h.mechanical_w > 0)
        rows.push_back(row("- moves the bicycle", h.mechanical_w, "the power of the leg"));
    rows.push_back(row("- breath", h.respiratory_w, breath_source));
    if (swims) {
        rows.push_back(row("- to the water", h.dry_w, "what is left; not modelled"));
    } else {
        rows.push_back(row(h.dry_w < 0 ? "- air and sun (they heat)" : "- air and sun", h.dry_w, fit_source));
        rows.push_back(row("- stored, and not accounted for", h.other_w, "what the fit leaves open"));
        rows.push_back(row("= sweat evaporates", h.evaporated_w, fit_source));
        if (h.required_w - h.evaporated_w > 0.5)
            rows.push_back(
                row("(it would have to: too humid)", h.required_w, "ISO 7933:2004 (capacity of the air)"));
        rows.push_back(
            row("sweat made, dripping included", h.sweat_w, "efficiency 1 - w^2/2, ISO 7933:2004"));
    }
    rows.push_back(rate_row("the average athlete's sweat", h.sweat_w / watt_per_l_per_h * 1000,
                            swims ? "Macaluso 2011" : "675 W for 1 L/h (2.43 kJ/g, IOM 2005)"));
    rows.push_back(
        rate_row("planned with, the median", leg.sweat_ml_per_h, "own sweat test, or Barnes 2019"));
    return rows;
}

} // namespace tuck::body
