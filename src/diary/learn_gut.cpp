// Gut tolerance by the step rules of common practice: up after two good sessions at race effort with the run,
// hold at 4-5, down at 6 or more.
#include "diary/learning.hpp"

#include "base/conditions.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::diary {

namespace {

// Common practice, no source.
constexpr int worst_of_good = 3, worst_of_hold = 5, easy_worst = 1;
constexpr double taken_of_good = 0.90;
constexpr int good_before_step = 2;
constexpr double small_step_g = 5, large_step_g = 10, same_rate_g = 2.5;
constexpr double least_rate_g = 30, most_untrained_g = 90, most_trained_g = 120;
constexpr double least_minutes = 20; // a shorter part shows no tolerance

struct Session {
    FedLeg leg;
    int worst = 0;
    double taken = 1;
    bool with_run = false; // or a session of one sport alone, for the run itself
    bool stop = false;
    bool strong_drink = false, solids_on_run = false;
};

bool good(const Session& s) {
    return s.worst <= worst_of_good && s.taken >= taken_of_good && s.with_run && !s.stop;
}

std::vector<Session> sessions_of(const std::vector<DiaryEntry>& entries, Sport sport) {
    std::vector<Session> out;
    for (const auto& entry : entries) {
        Session s;
        if (const auto* r = std::get_if<RehearsalRecord>(&entry.what)) {
            if (!r->race_effort)
                continue;
            s = {sport == Sport::bike ? r->bike : r->run,
                 r->worst(),
                 r->taken_share(),
                 r->run.minutes > 0,
                 r->vomited || r->blood,
                 r->strong_drink,
                 r->solids_on_run};
        } else if (const auto* race = std::get_if<RaceRecord>(&entry.what)) {
            const bool runs = race->run.minutes > 0;
            s = {sport == Sport::bike ? race->bike : race->run,
                 std::max(race->bike.worst(), race->run.worst()),
                 1,
                 runs,
                 race->vomited || race->blood,
                 false,
                 false};
        } else {
            continue;
        }
        if (s.leg.minutes >= least_minutes || s.stop)
            out.push_back(s);
    }
    return out;
}

double round_to_5(double g) {
    return 5 * std::round(g / 5);
}

GutTolerance walk(const std::vector<Session>& sessions) {
    GutTolerance gut;
    for (const auto& s : sessions) {
        const double rate = s.leg.carb_g_per_h();
        gut.stop = s.stop;
        if (good(s)) {
            const bool same = std::abs(rate - gut.carb_g_per_h) <= same_rate_g;
            if (rate > gut.carb_g_per_h + same_rate_g || same)
                gut.good_at_this_rate = same ? gut.good_at_this_rate + 1 : 1;
            gut.carb_g_per_h = std::max(gut.carb_g_per_h, rate);
            gut.fluid_ml_per_h = std::max(gut.fluid_ml_per_h, s.leg.fluid_ml_per_h());
            gut.strong_drink = gut.strong_drink || s.strong_drink;
            gut.solids_on_run = gut.solids_on_run || s.solids_on_run;
        } else if (s.stop || s.worst > worst_of_hold) {
            gut.carb_g_per_h = std::min(gut.carb_g_per_h, std::max(0.0, rate - large_step_g));
            gut.good_at_this_rate = 0;
        } else {
            gut.good_at_this_rate = 0;
        }
    }
    return gut;
}

void choose_step(const std::vector<Session>& sessions, const Athlete& athlete, GutTolerance& gut) {
    const auto& health = athlete.health;
    if (health.glucose_lowering_medicine || health.recent_gut_illness || health.pregnant_or_breastfeeding ||
        is_minor(athlete)) {
        gut.why = "No steps of gut training for this athlete: a doctor or dietitian sets the rate.";
        return;
    }
    if (gut.stop) {
        gut.why = "There was vomiting or blood in the last session: see a doctor before the next one.";
        return;
    }
    if (sessions.empty()) {
        gut.why = "No session at race effort yet: start with the plan's own rate.";
        return;
    }
    const auto& last = sessions.back();
    const double rate = round_to_5(last.leg.carb_g_per_h());
    if (last.worst > worst_of_hold) {
        gut.next_carb_g_per_h = std::min(rate, std::max(least_rate_g, rate - large_step_g));
        gut.why =
            gut.next_carb_g_per_h < rate
                ? fmt::format("The worst symptom was {} of 10: down to {:.0f} g/h.", last.worst,
                              gut.next_carb_g_per_h)
                : fmt::format("The worst symptom was {} of 10: no more than {:.0f} g/h, in smaller doses.",
                              last.worst, rate);
    } else if (last.worst > worst_of_good) {
        gut.next_carb_g_per_h = rate;
        gut.why = fmt::format("The worst symptom was {} of 10: hold {:.0f} g/h.", last.worst, rate);
    } else if (!last.with_run) {
        gut.next_carb_g_per_h = rate;
        gut.why = fmt::format("Hold {:.0f} g/h: a rehearsal counts when the run is part of it.", rate);
    } else if (last.taken < taken_of_good) {
        gut.next_carb_g_per_h = rate;
        gut.why = fmt::format("Hold {:.0f} g/h: under 90 % of the feeds were taken.", rate);
    } else if (gut.good_at_this_rate < good_before_step) {
        gut.next_carb_g_per_h = round_to_5(gut.carb_g_per_h);
        gut.why = fmt::format("{:.0f} g/h went well once: once more before a step up.", gut.carb_g_per_h);
    } else {
        const double most = athlete.rehearsed.gut_trained ? most_trained_g : most_untrained_g;
        const double step = last.worst <= easy_worst ? large_step_g : small_step_g;
        gut.next_carb_g_per_h = std::min(most, round_to_5(gut.carb_g_per_h) + step);
        gut.why =
            fmt::format("Two good sessions at {:.0f} g/h: next {:.0f} g/h, but no new step in the last 10 "
                        "days before a race.",
                        gut.carb_g_per_h, gut.next_carb_g_per_h);
    }
}

} // namespace

void learn_gut(const std::vector<DiaryEntry>& entries, const Athlete& athlete, Learned& learned) {
    for (auto* gut : {&learned.bike, &learned.run}) {
        const auto sessions = sessions_of(entries, gut == &learned.bike ? Sport::bike : Sport::run);
        *gut = walk(sessions);
        choose_step(sessions, athlete, *gut);
        if (gut->stop)
            learned.warnings.push_back({"see_doctor", Severity::danger, gut->why});
    }
    if (learned.bike.stop && learned.run.stop)
        learned.warnings.pop_back(); // said once
}

} // namespace tuck::diary
