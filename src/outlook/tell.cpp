#include "outlook/tell.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::outlook {

namespace {

constexpr double longest_without_urine_h = 12; // our choice

std::string clock_of(double seconds) {
    const long minutes = std::lround(seconds / 60);
    return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

std::string mass_text(const Percentiles& p) {
    const auto change = [](double pct) {
        return std::abs(pct) < 0.05
                   ? std::string("as heavy as at the start")
                   : fmt::format("{:.1f} % {}", std::abs(pct), pct < 0 ? "lighter" : "heavier");
    };
    const std::string range = p.p95 <= 0 ? fmt::format("{:.1f} to {:.1f} %", std::abs(p.p95), -p.p05)
                                         : change(p.p05) + " to " + change(p.p95);
    return fmt::format("{} at the finish ({})", change(p.p50), range);
}

} // namespace

std::string sentence_of(const PlanOutlook& o, bool hidden) {
    const auto& sodium = o.serum_sodium_mmol_per_l;
    std::string text = "Probably ";
    if (!hidden)
        text += mass_text(o.mass_change_pct) + ", ";
    text += fmt::format("blood sodium near {:.0f} mmol/L ({:.0f} to {:.0f}) and {:.0f} g of glycogen left",
                        sodium.p50, sodium.p05, sodium.p95, o.glycogen_left_g.p50);
    text += fmt::format("; most telling after {}: {}.", clock_of(o.worst.at_s), o.worst.cause);
    return text;
}

std::vector<std::string> assumptions_of(const Event& event, double hours) {
    std::vector<std::string> out{
        "Simulated days: water that is not food is drunk between to thirst and as planned; some stations are "
        "missed, some feeds missed or late; who is very dry finds water anywhere (our choice)."};
    if (event.station_policy != StationPolicy::typical &&
        std::none_of(event.legs.begin(), event.legs.end(),
                     [](const Leg& leg) { return !leg.stations.empty(); }))
        out.push_back(
            "Simulated days: no stations known, so thirst alone finds no more than what is carried.");
    if (hours > longest_without_urine_h)
        out.push_back(
            fmt::format("Simulated days know no urine: beyond some {:.0f} h blood sodium and water are rough "
                        "(our choice).",
                        longest_without_urine_h));
    return out;
}

} // namespace tuck::outlook
