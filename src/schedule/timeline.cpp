#include "schedule/timeline.hpp"
#include "tuck/figures.hpp"

#include <algorithm>

namespace tuck::schedule {

namespace {

constexpr double hour_s = 3600;
constexpr double gel_water_within_s = 60 * figure("gel.water_within_min");
constexpr double slack = 1e-6; // of sums of exact amounts

struct Sums {
    double carb = 0, glucose = 0, fructose = 0, fluid = 0, caffeine = 0;
};

Sums sums_from(const std::vector<Dose>& doses, size_t first) {
    Sums sums;
    const double start = doses[first].at_s;
    for (size_t j = first; j < doses.size() && doses[j].at_s < start + hour_s; ++j) {
        sums.carb += doses[j].carb_g;
        sums.glucose += doses[j].glucose_g;
        sums.fructose += doses[j].fructose_g;
        sums.fluid += doses[j].fluid_ml;
        sums.caffeine += doses[j].caffeine_mg;
    }
    return sums;
}

/// Whether the gels from `first` on have their water. Gels less than 15 minutes apart share what is drunk,
/// and a swallow serves one gel only.
bool gels_watered(const std::vector<Dose>& doses, size_t first) {
    double wanted = 0, drunk = 0, last_gel_s = doses[first].at_s;
    size_t next = first;
    for (size_t j = first; j < doses.size() && doses[j].at_s <= last_gel_s + gel_water_within_s; ++j) {
        if (doses[j].gel_water_ml <= 0)
            continue;
        last_gel_s = doses[j].at_s;
        wanted += doses[j].gel_water_ml;
        for (; next < doses.size() && doses[next].at_s <= last_gel_s + gel_water_within_s; ++next)
            drunk += doses[next].fluid_ml;
        if (wanted > drunk + slack)
            return false;
    }
    return true;
}

Rule broken_at(const std::vector<Dose>& doses, size_t i, const IntakeLimits& limits,
               const FluidCurves& curves) {
    const Sums sums = sums_from(doses, i);
    if (sums.carb > limits.carb_g + slack)
        return Rule::carb;
    if (sums.glucose > limits.glucose_path_g + slack)
        return Rule::glucose;
    if (sums.fructose > limits.fructose_path_g + slack)
        return Rule::fructose;
    if (sums.fluid > curves.ceiling_ml(doses[i].at_s) + slack)
        return Rule::fluid_hour;
    if (doses[i].gel_water_ml > 0 && !gels_watered(doses, i))
        return Rule::gel_water;
    if (sums.caffeine > limits.caffeine_dose_mg + slack)
        return Rule::caffeine;
    return Rule::none;
}

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

Rule broken_rule(const std::vector<Dose>& doses, size_t settled, const IntakeLimits& limits,
                 const FluidCurves& curves) {
    const double first_new_s = settled < doses.size() ? doses[settled].at_s : 0;
    double fluid = 0, caffeine = 0;
    for (size_t i = 0; i < doses.size(); ++i) {
        fluid += doses[i].fluid_ml;
        caffeine += doses[i].caffeine_mg;
        if (caffeine > limits.caffeine_day_mg + slack)
            return Rule::caffeine;
        if (i >= settled && fluid > curves.sweat_ml(doses[i].at_s) + slack)
            return Rule::fluid_sweat;
        if (i < settled && doses[i].at_s + hour_s <= first_new_s)
            continue;
        if (const Rule rule = broken_at(doses, i, limits, curves); rule != Rule::none)
            return rule;
    }
    return Rule::none;
}

} // namespace tuck::schedule
