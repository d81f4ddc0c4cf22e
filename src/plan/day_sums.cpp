// Sums over the median day: what is eaten, drunk, needed and sweated by each moment.
#include "plan/stages.hpp"

#include <algorithm>

namespace tuck::plan {

namespace {

const LegNeed* need_of(const Plan& plan, int leg_index) {
    for (const auto& need : plan.needs)
        if (need.leg_index == leg_index)
            return &need;
    return nullptr;
}

/// The point `seconds` later in a leg with this need.
DayPoint later(DayPoint point, double seconds, const LegNeed* need) {
    point.at_s += seconds;
    if (need) {
        const double hours = seconds / 3600;
        point.carb_need_g += need->carb_g_per_h * hours;
        point.fluid_up_to_ml += need->fluid_ml_per_h * hours;
        point.sweat_ml += need->sweat_ml_per_h * hours;
    }
    return point;
}

} // namespace

void add_day_sums(Plan& plan) {
    DayPoint now;
    plan.day_sums = {now};
    for (const auto& leg : plan.durations) {
        const double ends_s = now.at_s + leg.time.p50_s;
        const auto* need = need_of(plan, leg.leg_index);
        std::vector<const PlanFeed*> feeds;
        for (const auto& feed : plan.feeds)
            if (feed.leg_index == leg.leg_index)
                feeds.push_back(&feed);
        std::stable_sort(feeds.begin(), feeds.end(),
                         [](const PlanFeed* a, const PlanFeed* b) { return a->at_s < b->at_s; });
        for (const auto* feed : feeds) {
            const double at_s = std::clamp<double>(leg.starts_s + feed->at_s, now.at_s, ends_s);
            now = later(now, at_s - now.at_s, need);
            plan.day_sums.push_back(now);
            now.carb_g += feed->carb_g;
            now.fluid_ml += feed->fluid_ml;
            plan.day_sums.push_back(now);
        }
        now = later(now, ends_s - now.at_s, need);
        plan.day_sums.push_back(now);
    }
}

} // namespace tuck::plan
