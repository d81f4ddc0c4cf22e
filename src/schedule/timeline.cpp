#include "schedule/timeline.hpp"

#include <algorithm>

namespace tuck::schedule {

namespace {

constexpr double hour_s = 3600;

} // namespace

FluidCurves::FluidCurves(const Effort& effort, const Need& need, std::size_t day) {
    double start = 0;
    for (size_t i = 0; i < effort.legs.size(); ++i) {
        const Spread& time = effort.legs[i].time;
        const double end = start + (day == 0 ? time.p10_s : day == 1 ? time.p50_s : time.p90_s);
        // Who runs faster sweats faster: the same drink by the same kilometre.
        const double faster = day == 0 && effort.legs[i].kind == LegKind::run ? time.p50_s / time.p10_s : 1;
        legs_.push_back(
            {start, end, faster * need.legs[i].fluid_ml_per_h, faster * need.legs[i].sweat_ml_per_h});
        start = end;
    }
}

void FluidCurves::lift() {
    constexpr double none = 1e5;
    for (auto& leg : legs_)
        leg.ceiling_ml_per_h = leg.sweat_ml_per_h = none;
}

double FluidCurves::ceiling_ml(double from_s) const {
    const double to_s = from_s + hour_s;
    double sum = 0;
    for (size_t i = 0; i < legs_.size(); ++i) {
        const double end = i + 1 == legs_.size() ? std::max(legs_[i].end_s, to_s) : legs_[i].end_s;
        const double inside = std::min(end, to_s) - std::max(legs_[i].start_s, from_s);
        if (inside > 0)
            sum += inside / hour_s * legs_[i].ceiling_ml_per_h;
    }
    return sum;
}

double FluidCurves::sweat_ml(double at_s) const {
    double sum = 0;
    for (const auto& leg : legs_) {
        const double inside = std::min(leg.end_s, at_s) - leg.start_s;
        if (inside > 0)
            sum += inside / hour_s * leg.sweat_ml_per_h;
    }
    return sum;
}

} // namespace tuck::schedule
