#include "schedule/slots.hpp"

#include "base/conditions.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace tuck::schedule {

namespace {

// Common practice, no source: moments on the bike at which hands and gut are not ready.
constexpr double after_mount_s = 60 * figure("feed.after_mount_min"),
                 before_dismount_s = 60 * figure("feed.before_dismount_min"),
                 solids_after_swim_s = 60 * figure("feed.solids_after_swim_min"),
                 solids_before_run_s = 60 * figure("feed.solids_before_run_min");
constexpr double cold_air_c = figure("feed.cold_air_c"), cold_water_c = figure("feed.cold_water_c"),
                 cold_hands_s = 60 * figure("feed.cold_hands_min");
constexpr double no_food_before_finish_s = 60 * figure("feed.none_before_finish_min");
constexpr double waited_out_s = figure("feed.waited_out_s"), busy_edge_s = figure("feed.busy_edge_s");
constexpr double clear_of_busy_s = figure("feed.clear_of_busy_s"), apart_s = 60 * figure("feed.apart_min");

bool follows(const Effort& effort, size_t leg, LegKind kind) {
    for (size_t i = leg + 1; i < effort.legs.size(); ++i)
        if (!is_transition(effort.legs[i].kind))
            return effort.legs[i].kind == kind;
    return false;
}

bool came_before(const Effort& effort, size_t leg, LegKind kind) {
    for (size_t i = 0; i < leg; ++i)
        if (effort.legs[i].kind == kind)
            return true;
    return false;
}

bool off_the_swim(const Effort& effort, size_t leg) {
    while (leg > 0 && is_transition(effort.legs[leg - 1].kind))
        --leg;
    return leg > 0 && effort.legs[leg - 1].kind == LegKind::swim;
}

bool is_last(const Effort& effort, size_t leg) {
    return leg + 1 == effort.legs.size();
}

/// What the moments of a bike leg ask of hands and gut.
struct BikeRules {
    double item_from_s = 0, solid_from_s = 0, solid_to_s = 0;
};

BikeRules bike_rules(const Setting& now, size_t leg) {
    const bool swam = came_before(now.effort, leg, LegKind::swim);
    const bool cold = now.event.weather.temperature_c < cold_air_c ||
                      (swam && water_temperature_c(now.event.weather) < cold_water_c);
    BikeRules out;
    out.item_from_s = cold ? cold_hands_s : 0;
    out.solid_from_s = std::max(out.item_from_s, swam ? solids_after_swim_s : 0);
    out.solid_to_s = now.effort.legs[leg].time.p50_s -
                     (follows(now.effort, leg, LegKind::run) ? solids_before_run_s : before_dismount_s);
    return out;
}

class BikeClock {
public:
    BikeClock(const Setting& now, size_t leg, double every_s, const FoodBits& foods)
        : effort_(now.effort.legs[leg]), start_(start_of(now.effort, leg)),
          length_(length_of(now.effort, leg)), rules_(bike_rules(now, leg)), every_s_(every_s),
          foods_(foods) {}

    Grid grid() {
        Grid out;
        out.every_s = every_s_;
        double at_s = every_s_;
        for (; at_s <= length_[likely] - before_dismount_s; at_s += every_s_)
            out.slots.push_back(regular(at_s, out.slots.empty() ? 0 : out.slots.back().at_s));
        out.regular = out.slots.size();
        for (; at_s <= length_[slow] - before_dismount_s; at_s += every_s_) {
            Slot slot;
            slot.at_s = at_s;
            slot.extra = true;
            slot.clock_s[slow] = start_[slow] + at_s;
            slot.drink_ok = !busy_on_a_slow_day(at_s);
            slot.foods = slot.drink_ok ? foods_.soft : 0;
            out.slots.push_back(slot);
        }
        return out;
    }

    std::string why_not(double at_s, bool solid) const {
        if (at_s < after_mount_s)
            return "nothing in the first 5 min of the bike";
        if (at_s > length_[likely] - before_dismount_s)
            return "nothing in the last 5 min of the bike";
        if (at_s < rules_.item_from_s)
            return "nothing to unwrap with cold hands in the first 30 min";
        if (const Stretch* busy = busy_at(at_s))
            return fmt::format("hands stay on the bar: {} at km {:.0f}", busy->why, busy->from_km);
        if (solid && at_s < rules_.solid_from_s)
            return "solid food waits 15 min after the swim";
        return solid && at_s > rules_.solid_to_s ? "solid food ends 30 min before the run" : "";
    }

private:
    double scale(size_t day) const { return length_[day] / length_[likely]; }

    /// Whether a rider is in the stretch at this time of the bike clock, and cannot wait it out.
    bool meets(const Stretch& stretch, size_t day, double at_s) const {
        return stretch.to_s - stretch.from_s >= waited_out_s &&
               at_s / scale(day) > stretch.from_s - busy_edge_s &&
               at_s / scale(day) < stretch.to_s + busy_edge_s;
    }

    /// The first busy stretch that the rider may be in, on any of the three days.
    const Stretch* busy_at(double at_s) const {
        for (const auto& stretch : effort_.busy)
            for (size_t day = 0; day < days; ++day)
                if (meets(stretch, day, at_s))
                    return &stretch;
        return nullptr;
    }

    bool busy_on_a_slow_day(double at_s) const {
        return std::any_of(effort_.busy.begin(), effort_.busy.end(),
                           [&](const Stretch& stretch) { return meets(stretch, slow, at_s); });
    }

    /// Whether this point of the road, by its likely time, is clear.
    bool clear_point(double likely_s) const {
        return std::none_of(effort_.busy.begin(), effort_.busy.end(), [likely_s](const Stretch& s) {
            return s.to_s - s.from_s >= waited_out_s && likely_s > s.from_s - busy_edge_s &&
                   likely_s < s.to_s + busy_edge_s;
        });
    }

    Slot regular(double at_s, double last_s) const {
        Slot slot;
        slot.at_s = at_s;
        for (size_t day = 0; day < days; ++day)
            if (at_s <= length_[day] - before_dismount_s)
                slot.clock_s[day] = start_[day] + at_s;
        if (const Stretch* busy = busy_at(at_s)) {
            if (!move(slot, *busy, at_s, last_s))
                slot.drink_ok = false;
            slot.skip_item = true;
        }
        slot.km = km_at(effort_, slot.at_s);
        if (slot.drink_ok && slot.at_s >= rules_.item_from_s)
            slot.foods = foods_.soft;
        if (slot.drink_ok && slot.at_s >= rules_.solid_from_s && slot.at_s <= rules_.solid_to_s)
            slot.foods |= foods_.solid;
        return slot;
    }

    /// To the clear road before the stretch, or after it: that place has its own time on each day.
    bool move(Slot& slot, const Stretch& busy, double at_s, double last_s) const {
        const double before = busy.from_s - clear_of_busy_s, after = busy.to_s + clear_of_busy_s;
        const bool before_first = std::abs(before - at_s) <= std::abs(after - at_s);
        for (const bool ahead : {before_first, !before_first}) {
            const double to = ahead ? before : after;
            const bool near = std::abs(to - at_s) < every_s_ - apart_s && to >= last_s + apart_s &&
                              to >= apart_s && to <= length_[likely] - before_dismount_s;
            if (!near || !clear_point(to))
                continue;
            slot.at_s = to;
            slot.beside = Beside{ahead ? Beside::Kind::before : Beside::Kind::after, to, busy.why,
                                 ahead ? busy.from_km : busy.to_km};
            for (size_t day = 0; day < days; ++day) {
                const double there = to * scale(day);
                slot.clock_s[day] = there <= length_[day] - before_dismount_s ? start_[day] + there : never;
            }
            return true;
        }
        return false;
    }

    const LegEffort& effort_;
    DayTimes start_, length_;
    BikeRules rules_;
    double every_s_;
    FoodBits foods_;
};

/// A place of the run: held by its kilometre, so its time stretches with the day.
Slot place_on_the_run(const Setting& now, size_t leg, double at_s, double km) {
    const auto start = start_of(now.effort, leg), length = length_of(now.effort, leg);
    Slot slot;
    slot.at_s = at_s;
    slot.km = km;
    for (size_t day = 0; day < days; ++day)
        slot.clock_s[day] = start[day] + at_s * length[day] / length[likely];
    return slot;
}

std::uint32_t foods_on_the_run(const Setting& now, size_t leg, double at_s, const FoodBits& foods) {
    const auto& effort = now.effort.legs[leg];
    const bool food = !is_last(now.effort, leg) || at_s <= effort.time.p50_s - no_food_before_finish_s;
    const bool solid = food && (!off_the_swim(now.effort, leg) || at_s >= solids_after_swim_s);
    return (food ? foods.soft : 0) | (solid ? foods.solid : 0);
}

} // namespace

DayTimes start_of(const Effort& effort, size_t leg) {
    DayTimes out{0, 0, 0};
    for (size_t i = 0; i < leg; ++i) {
        const auto length = length_of(effort, i);
        for (size_t day = 0; day < days; ++day)
            out[day] += length[day];
    }
    return out;
}

DayTimes length_of(const Effort& effort, size_t leg) {
    const Spread& time = effort.legs[leg].time;
    return {time.p10_s, time.p50_s, time.p90_s};
}

DayTimes clock_of(const Setting& now, size_t leg, double at_s) {
    if (now.effort.legs[leg].kind != LegKind::bike)
        return place_on_the_run(now, leg, at_s, 0).clock_s;
    DayTimes out{never, never, never};
    const auto start = start_of(now.effort, leg), length = length_of(now.effort, leg);
    for (size_t day = 0; day < days; ++day)
        if (at_s <= length[day] - before_dismount_s)
            out[day] = start[day] + at_s;
    return out;
}

std::string why_not_at(const Setting& now, size_t leg, double at_s, bool solid) {
    const auto& effort = now.effort.legs[leg];
    if (effort.kind == LegKind::bike)
        return solid && !now.need.limits.solids ? "no solid food on a ride of less than two hours"
                                                : BikeClock(now, leg, 0, {}).why_not(at_s, solid);
    if (is_last(now.effort, leg) && at_s > effort.time.p50_s - no_food_before_finish_s)
        return "nothing in the last 10 min before the finish";
    if (solid && !now.need.limits.solids_on_run)
        return "solid food on the run has not been rehearsed";
    return solid && off_the_swim(now.effort, leg) && at_s < solids_after_swim_s
               ? "solid food waits 15 min after the swim"
               : "";
}

Grid clock_grid(const Setting& now, size_t leg, double every_s, const FoodBits& foods) {
    return BikeClock(now, leg, every_s, foods).grid();
}

Grid paced_grid(const Setting& now, size_t leg, double every_s, const FoodBits& foods) {
    const auto& effort = now.effort.legs[leg];
    const double last_s = effort.time.p50_s - (is_last(now.effort, leg) ? no_food_before_finish_s : 0);
    Grid out;
    out.every_s = every_s;
    for (double at_s = every_s; at_s <= last_s; at_s += every_s) {
        Slot slot = place_on_the_run(now, leg, at_s, km_at(effort, at_s));
        slot.foods = foods_on_the_run(now, leg, at_s, foods);
        out.slots.push_back(slot);
    }
    out.regular = out.slots.size();
    return out;
}

Grid station_grid(const Setting& now, size_t leg, const std::vector<Station>& stations, const FoodBits& foods,
                  const std::vector<FoodBits>& served) {
    Grid out;
    for (size_t i = 0; i < stations.size(); ++i) {
        const double at_s = time_at_s(now.effort.legs[leg], stations[i].km);
        Slot slot = place_on_the_run(now, leg, at_s, stations[i].km);
        slot.foods =
            foods_on_the_run(now, leg, at_s, {foods.soft | served[i].soft, foods.solid | served[i].solid});
        out.slots.push_back(slot);
    }
    out.regular = out.slots.size();
    return out;
}

Grid transition_grid(const Setting& now, size_t leg, std::uint32_t foods) {
    const auto start = start_of(now.effort, leg), length = length_of(now.effort, leg);
    Slot slot;
    slot.at_s = length[likely] / 2;
    for (size_t day = 0; day < days; ++day)
        slot.clock_s[day] = start[day] + length[day] / 2;
    slot.foods = foods;
    Grid out;
    out.slots = {slot};
    out.regular = 1;
    return out;
}

} // namespace tuck::schedule
