#include "outlook/tell.hpp"

#include "base/clock.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::outlook {

namespace {

std::string days_in_100(double chance) {
    if (chance <= 0)
        return "no day";
    if (chance < 0.005)
        return "less than 1 day in 100";
    const long days = std::lround(100 * chance);
    return fmt::format("{} day{} in 100", days, days == 1 ? "" : "s");
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
    std::string text = "Probably ";
    if (!hidden)
        text += mass_text(o.mass_change_pct) + ", with ";
    text += fmt::format("{:.0f} g of glycogen left; too much drink on {}, too little on {}",
                        o.glycogen_left_g.p50, days_in_100(o.water_gain_over_1pct),
                        days_in_100(o.water_loss_over_4pct));
    if (!o.worst.cause.empty())
        text += fmt::format("; most telling after {}: {}", hours_text(o.worst.at_s), o.worst.cause);
    return text + ".";
}

std::vector<std::string> assumptions_of(const Event& event) {
    std::vector<std::string> out{
        "Simulated days: water that is not food is drunk between to thirst and as planned; some stations are "
        "missed, some feeds missed or late; who is very dry finds water anywhere (our choice)."};
    if (event.station_policy != StationPolicy::typical &&
        std::none_of(event.legs.begin(), event.legs.end(),
                     [](const Leg& leg) { return !leg.stations.empty(); }))
        out.push_back(
            "Simulated days: no stations known, so thirst alone finds no more than what is carried.");
    return out;
}

} // namespace tuck::outlook
