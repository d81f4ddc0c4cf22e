// A plan that leaves a long day half empty says so before anything else.
#include "plan/stages.hpp"

#include "base/conditions.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::plan {

namespace {

constexpr double long_h = figure("plan.long_h"), half = figure("plan.half");

/// What would bring more, by what this athlete has not got; the surest first.
std::vector<std::string> helps(const Stages& s) {
    std::vector<std::string> out;
    const auto has = [&s](LegKind kind) {
        return std::any_of(s.effort.legs.begin(), s.effort.legs.end(),
                           [kind](const LegEffort& leg) { return leg.kind == kind; });
    };
    const bool stations = s.event.station_policy == StationPolicy::typical ||
                          std::any_of(s.event.legs.begin(), s.event.legs.end(),
                                      [](const Leg& leg) { return !leg.stations.empty(); });
    if (has(LegKind::bike) && hands_of(s.athlete) != Hands::bottle_and_food)
        out.emplace_back("stopping at aid stations, or at a safe place, to eat and drink");
    if (!stations)
        out.emplace_back("the event's aid stations (name them, or ask for typical ones)");
    if (has(LegKind::run) && !s.event.kit.run_gels.value_or(0))
        out.emplace_back("a belt or pocket for gels");
    if (std::none_of(s.event.legs.begin(), s.event.legs.end(),
                     [](const Leg& leg) { return leg.special_needs.has_value(); }))
        out.emplace_back("a bag of your own on the course, where the event allows one");
    if (s.athlete.rehearsed.carb_g_per_h <= 0)
        out.emplace_back("a rehearsal");
    return out;
}

} // namespace

std::vector<Warning> not_enough_warnings(const Stages& s) {
    double aim_g = 0, hours = 0, planned_g = 0;
    for (std::size_t i = 0; i < s.need.legs.size(); ++i) {
        const double leg_h = s.effort.legs[i].time.p50_s / 3600;
        if (s.need.legs[i].carb_g_per_h <= 0)
            continue;
        hours += leg_h;
        aim_g += s.need.legs[i].carb_g_per_h * leg_h;
    }
    for (const auto& feed : s.schedule.feeds)
        planned_g += feed.carb_g;
    if (hours <= long_h || planned_g >= half * aim_g)
        return {};
    return {
        {"not_enough", Severity::danger,
         fmt::format("Not enough to finish on: {:.0f} g of carbohydrate in {:.1f} h, less than half of the "
                     "{:.0f} g aimed for. What would help: {}.",
                     planned_g, hours, aim_g, fmt::join(helps(s), "; "))}};
}

} // namespace tuck::plan
