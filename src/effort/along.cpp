// Where a leg is at a time, and when at a place.
#include "tuck/effort.hpp"

#include <algorithm>

namespace tuck {

namespace {

/// On the straight line from (x0, y0) to (x1, y1), held at both ends.
double on_line(double x, double x0, double x1, double y0, double y1) {
    const double share = x1 > x0 ? std::clamp((x - x0) / (x1 - x0), 0.0, 1.0) : 1.0;
    return y0 + share * (y1 - y0);
}

Section whole(const LegEffort& leg) {
    Section out;
    out.to_s = leg.time.p50_s;
    out.to_km = leg.speed_m_s * leg.time.p50_s / 1000;
    return out;
}

/// The first section that ends at or after `value`, else the last.
Section section_at(const LegEffort& leg, double Section::*end, double value) {
    const auto found = std::find_if(leg.sections.begin(), leg.sections.end(),
                                    [&](const Section& section) { return section.*end >= value; });
    return leg.sections.empty() ? whole(leg) : found == leg.sections.end() ? leg.sections.back() : *found;
}

} // namespace

double km_at(const LegEffort& leg, double at_s) {
    const auto s = section_at(leg, &Section::to_s, at_s);
    return on_line(at_s, s.from_s, s.to_s, s.from_km, s.to_km);
}

double time_at_s(const LegEffort& leg, double km) {
    const auto s = section_at(leg, &Section::to_km, km);
    return on_line(km, s.from_km, s.to_km, s.from_s, s.to_s);
}

} // namespace tuck
