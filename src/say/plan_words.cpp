#include "say/plan_words.hpp"

#include "base/clock.hpp"
#include "say/units.hpp"

#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::faces {

std::string leg_name(LegKind leg) {
    switch (leg) {
    case LegKind::swim:
        return "Swim";
    case LegKind::t1:
        return "T1";
    case LegKind::bike:
        return "Bike";
    case LegKind::t2:
        return "T2";
    case LegKind::run:
        return "Run";
    }
    return "";
}

std::string distance_text(const LegEffort& leg, Units units) {
    return is_transition(leg.kind) ? "" : say::distance(leg.distance_m, units);
}

std::string degrees_text(double celsius) {
    return fmt::format("{:g}", std::round(celsius * 10) / 10 + 0.0);
}

std::string plan_title(const Plan& plan) {
    return !plan.event_name.empty() ? plan.event_name : plan.race ? "Race plan" : "Session plan";
}

std::string time_text(double seconds) {
    return duration_text(seconds);
}

std::string number_text(const TraceValue& value) {
    const auto one = [&value](double number) {
        return value.unit == "s" ? time_text(number) : fmt::format("{:.0f}", number);
    };
    if (value.unit == "bool")
        return value.number != 0 ? "true" : "false";
    return one(value.number) +
           (value.low ? fmt::format(" ({} - {})", one(*value.low), one(*value.high)) : "");
}

std::string values_text(const std::vector<TraceValue>& values, Units units) {
    std::string out;
    for (const TraceValue& value : values) {
        const bool drink = value.unit.starts_with("ml"), bare = value.unit == "s" || value.unit == "bool";
        out += out.empty() ? "" : ", ";
        out += drink  ? (value.up_to ? say::ceiling : say::volume)(value.number, units) + value.unit.substr(2)
               : bare ? number_text(value)
                      : number_text(value) + " " + value.unit;
        out += value.of.empty() ? "" : " " + value.of;
    }
    return out;
}

std::string unmet_text(const Unmet& unmet) {
    // A ceiling is no target: of drink only thirst may ask for more.
    const bool drink = std::string(unmet.unit) == "ml/h";
    std::string text = fmt::format("{:.0f} {} less than {}. What binds: {}.", unmet.cost_g_per_h, unmet.unit,
                                   drink ? "thirst may ask for" : "aimed for", unmet.rule);
    if (unmet.lift_gives > 0)
        text +=
            fmt::format(" What would help: {} ({:.0f} {} more).", unmet.lift, unmet.lift_gives, unmet.unit);
    return text;
}

std::vector<std::string> unmet_texts(const Plan& plan) {
    std::vector<std::string> out, others;
    for (const Unmet& unmet : plan.unmet)
        if (unmet.lift_gives > 0 || std::string(unmet.unit) == "g/h")
            out.push_back(unmet.need + ": " + unmet_text(unmet));
        else
            others.push_back(fmt::format("{} ({:.0f} {})", unmet.need, unmet.cost_g_per_h, unmet.unit));
    if (!others.empty())
        out.push_back(
            fmt::format("Also short, and nothing that was tried helps: {}.", fmt::join(others, ", ")));
    return out;
}

SortedWarnings sorted_warnings(const Plan& plan) {
    constexpr std::size_t most = 3; // more are not read
    SortedWarnings out;
    for (const Warning& warning : plan.warnings)
        if (warning.severity == Severity::danger)
            out.first.push_back(&warning);
    for (const Warning& warning : plan.warnings) {
        if (warning.severity == Severity::danger)
            continue;
        const bool room = warning.severity == Severity::caution && out.first.size() < most;
        (warning.code == "over_drinking" ? out.always : room ? out.first : out.also).push_back(&warning);
    }
    return out;
}

} // namespace tuck::faces
