// Rules for the moments at which hands, gut and road are ready. Figures: common practice, no source.
#include "base/conditions.hpp"
#include "schedule/judge_rules.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace tuck::schedule::judging {

namespace {

constexpr double after_mount_s = 5 * 60, before_dismount_s = 5 * 60;
constexpr double solids_after_swim_s = 15 * 60, solids_before_run_s = 30 * 60;
constexpr double cold_air_c = 12, cold_water_c = 16, cold_hands_s = 30 * 60;
constexpr double no_food_before_finish_s = 10 * 60;
constexpr double waited_out_s = figure("feed.waited_out_s");
constexpr double apart_s = 60; // two feeds nearer than this are one, and hold one thing to eat
constexpr double tick_s = 1;

bool eats(const Sitting& sitting) {
    return std::any_of(sitting.bites.begin(), sitting.bites.end(), [](const Bite& b) { return !b.drink; });
}

bool eats_solid(const Sitting& sitting) {
    return std::any_of(sitting.bites.begin(), sitting.bites.end(), is_solid);
}

const LegEffort& leg_of(const Judged& judged, const Sitting& sitting) {
    return judged.asked.effort.legs[static_cast<size_t>(sitting.leg_index)];
}

/// The sport before or after a leg, transitions left out; a transition where there is none.
LegKind neighbour(const Judged& judged, int leg, int step) {
    const auto& legs = judged.asked.effort.legs;
    for (int i = leg + step; i >= 0 && i < static_cast<int>(legs.size()); i += step)
        if (!is_transition(legs[static_cast<size_t>(i)].kind))
            return legs[static_cast<size_t>(i)].kind;
    return LegKind::t1;
}

bool swam_before(const Judged& judged, int leg) {
    for (int i = 0; i < leg; ++i)
        if (judged.asked.effort.legs[static_cast<size_t>(i)].kind == LegKind::swim)
            return true;
    return false;
}

/// Every feed of the likely day for which `wrong` holds.
template <typename Wrong>
void each(const Judged& judged, Findings& findings, const char* text, const Wrong& wrong) {
    for (const auto& sitting : judged.likely().sittings)
        if (wrong(sitting))
            findings.add(sitting, 0, 0, "", fmt::format("{}: {}", moment_text(sitting), text));
}

} // namespace

void inside_leg(const Judged& judged, Findings& findings) {
    const auto& legs = judged.asked.effort.legs;
    for (const auto& feed : judged.asked.schedule.feeds) {
        const auto leg = static_cast<size_t>(feed.leg_index);
        const bool inside = leg < legs.size() && legs[leg].kind == feed.leg && feed.leg != LegKind::swim &&
                            feed.at_s >= 0 && feed.at_s <= legs[leg].time.p50_s + tick_s;
        if (!inside)
            findings.add(feed.leg_index, feed.at_s, 0, "s",
                         fmt::format("a feed after {:.0f} s of the {} lies outside its leg, or in a swim",
                                     feed.at_s, to_string(feed.leg)));
    }
}

void mount(const Judged& judged, Findings& findings) {
    each(judged, findings, "nothing in the first 5 min of the bike",
         [](const Sitting& s) { return s.leg == LegKind::bike && s.at_s < after_mount_s - tick_s; });
}

void dismount(const Judged& judged, Findings& findings) {
    each(judged, findings, "nothing in the last 5 min of the bike", [&](const Sitting& s) {
        return s.leg == LegKind::bike && s.at_s > leg_of(judged, s).time.p50_s - before_dismount_s + tick_s;
    });
}

void busy(const Judged& judged, Findings& findings) {
    each(judged, findings, "hands stay on the bar: a steep climb, a fast descent or a bend",
         [&](const Sitting& s) {
             const auto& stretches = leg_of(judged, s).busy;
             return s.leg == LegKind::bike &&
                    std::any_of(stretches.begin(), stretches.end(), [&s](const Stretch& b) {
                        return b.to_s - b.from_s >= waited_out_s && s.at_s > b.from_s + tick_s &&
                               s.at_s < b.to_s - tick_s;
                    });
         });
}

void solids_early(const Judged& judged, Findings& findings) {
    each(judged, findings, "solid food waits 15 min after the swim", [&](const Sitting& s) {
        const bool first = s.leg == LegKind::bike ? swam_before(judged, s.leg_index)
                                                  : neighbour(judged, s.leg_index, -1) == LegKind::swim;
        return !is_transition(s.leg) && first && eats_solid(s) && s.at_s < solids_after_swim_s - tick_s;
    });
}

void solids_late(const Judged& judged, Findings& findings) {
    each(judged, findings, "solid food ends 30 min before the run", [&](const Sitting& s) {
        return s.leg == LegKind::bike && neighbour(judged, s.leg_index, 1) == LegKind::run && eats_solid(s) &&
               s.at_s > leg_of(judged, s).time.p50_s - solids_before_run_s + tick_s;
    });
}

void solids_short_bike(const Judged& judged, Findings& findings) {
    each(judged, findings, "no solid food on a ride this short", [&](const Sitting& s) {
        return s.leg == LegKind::bike && !judged.asked.need.limits.solids && eats_solid(s);
    });
}

void solids_run(const Judged& judged, Findings& findings) {
    each(judged, findings, "solid food on the run has not been rehearsed", [&](const Sitting& s) {
        return s.leg == LegKind::run && !judged.asked.need.limits.solids_on_run && eats_solid(s);
    });
}

void cold_hands(const Judged& judged, Findings& findings) {
    const auto& weather = judged.asked.event.weather;
    each(judged, findings, "nothing to unwrap with cold hands in the first 30 min", [&](const Sitting& s) {
        const bool cold = weather.temperature_c < cold_air_c ||
                          (swam_before(judged, s.leg_index) && water_temperature_c(weather) < cold_water_c);
        return s.leg == LegKind::bike && cold && eats(s) && s.at_s < cold_hands_s - tick_s;
    });
}

void before_finish(const Judged& judged, Findings& findings) {
    each(judged, findings, "nothing to eat in the last 10 min before the finish", [&](const Sitting& s) {
        const bool last = static_cast<size_t>(s.leg_index) + 1 == judged.asked.effort.legs.size();
        return s.leg == LegKind::run && last && eats(s) &&
               s.at_s > leg_of(judged, s).time.p50_s - no_food_before_finish_s + tick_s;
    });
}

void hands(const Judged& judged, Findings& findings) {
    const Hands may = hands_of(judged.asked.athlete);
    each(judged, findings, "hands stay on the bar", [&](const Sitting& s) {
        const auto& lines = judged.asked.schedule.lines;
        const bool standing = std::any_of(lines.begin(), lines.end(), [&s](const Line& line) {
            return line.stop && line.leg_index == s.leg_index &&
                   std::any_of(line.at.begin(), line.at.end(),
                               [&s](const LegMoment& at) { return std::abs(at.at_s - s.at_s) < 1; });
        });
        return s.leg == LegKind::bike && !standing &&
               (may == Hands::none || (may == Hands::bottle && eats(s)));
    });
}

void apart(const Judged& judged, Findings& findings) {
    const Sitting* last = nullptr;
    for (const auto& sitting : judged.likely().sittings) {
        if (!eats(sitting))
            continue;
        if (last && sitting.clock_s - last->clock_s < apart_s - tick_s)
            findings.add(sitting, sitting.clock_s - last->clock_s, apart_s, "s",
                         fmt::format("{:.0f} s between two things to eat at {}",
                                     sitting.clock_s - last->clock_s, moment_text(sitting)));
        last = &sitting;
    }
}

} // namespace tuck::schedule::judging
