#include "need/heat.hpp"

#include "base/day_air.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace tuck::need {

namespace {

constexpr double every_s = 900;

double wbgt_at(const BodyMinutes& m, std::size_t i) {
    return wbgt_c({m.air_c[i], m.humidity_pct[i], m.wind_m_s[i], m.sun_w_m2[i], m.sun_height_deg[i]});
}

bool on_land(const Effort& effort, int leg_index) {
    return std::any_of(effort.legs.begin(), effort.legs.end(), [leg_index](const LegEffort& leg) {
        return leg.leg_index == leg_index && (leg.kind == LegKind::bike || leg.kind == LegKind::run);
    });
}

} // namespace

const std::vector<HeatCategory>& heat_categories() {
    static const std::vector<HeatCategory> categories{
        {figure("heat.high_wbgt_c"), "heat_high", Severity::caution,
         "High risk: who is not used to heat, or was ever ill with it, should not start; everybody else "
         "starts slower, cools with water on head and arms, and stops at the first sign of heat illness. "
         "The organiser decides.",
         "ACSM 2007, as quoted in a secondary source"},
        {figure("heat.extreme_wbgt_c"), "heat_extreme", Severity::danger,
         "Races are cancelled or left to everybody's choice in this heat. The organiser decides; ask before "
         "you travel. No plan for food and drink makes it safe: who is not used to such heat stays out.",
         "ACSM 2007, as quoted in a secondary source"},
        {figure("heat.uncompensable_wbgt_c"), "heat_uncompensable", Severity::danger,
         "No body keeps its temperature at race effort here: exercise is cancelled for everybody. Do not "
         "race in this, whatever this page says about food and drink; the organiser decides.",
         "ACSM 2007, as reprinted by NATA 2015 (table 3)"},
    };
    return categories;
}

std::optional<double> hottest_wbgt_c(const Effort& effort, const Body& body) {
    std::optional<double> hottest;
    double next_s = 0;
    const auto& m = body.minutes;
    for (std::size_t i = 0; i < m.size(); ++i) {
        if (m.at_s[i] < next_s || !on_land(effort, m.leg_index[i]))
            continue;
        next_s = m.at_s[i] + every_s;
        hottest = std::max(hottest.value_or(-1e3), wbgt_at(m, i));
    }
    return hottest;
}

std::vector<Warning> heat_warnings(const Effort& effort, const Body& body) {
    const auto wbgt = hottest_wbgt_c(effort, body);
    const HeatCategory* reached = nullptr;
    for (const auto& category : heat_categories())
        if (wbgt && *wbgt >= category.from_wbgt_c)
            reached = &category;
    if (!reached)
        return {};
    return {{reached->code, reached->severity,
             fmt::format("Heat: WBGT near {:.0f} C ({:.0f} C or more; {}). {}", *wbgt, reached->from_wbgt_c,
                         reached->source, reached->text)}};
}

} // namespace tuck::need
