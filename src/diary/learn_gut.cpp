// Gut tolerance by the step rules of common practice: up after two good sessions at race effort with the run,
// hold at 4-5, down at 6 or more. Bike and run each by their own symptoms.
#include "base/conditions.hpp"
#include "base/utf8.hpp"
#include "diary/learning.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace tuck::diary {

namespace {

// Common practice, no source.
constexpr int worst_of_good = static_cast<int>(figure("ladder.worst_of_good")),
              worst_of_hold = static_cast<int>(figure("ladder.worst_of_hold")),
              worst_of_bad = static_cast<int>(figure("ladder.worst_of_bad")),
              easy_worst = static_cast<int>(figure("ladder.easy_worst"));
constexpr double taken_of_good = figure("ladder.taken_of_good"),
                 planned_of_asked = figure("ladder.planned_of_asked");
constexpr int good_before_step = static_cast<int>(figure("ladder.good_before_step")),
              holds_before_down = static_cast<int>(figure("ladder.holds_before_down"));
constexpr double small_step_g = figure("ladder.small_step_g_per_h"),
                 large_step_g = figure("ladder.large_step_g_per_h"),
                 severe_step_g = figure("ladder.severe_step_g_per_h"), same_rate_g = 2.5;
constexpr double least_rate_g = figure("ladder.least_g_per_h"),
                 most_untrained_g = figure("ladder.most_untrained_g_per_h"),
                 most_trained_g = figure("ladder.most_trained_g_per_h");
constexpr double least_minutes = 10; // a shorter part shows no tolerance

struct Session {
    FedLeg leg;
    double rate = 0;       // that counts, g/h
    int worst = 0;         // of this part
    int worst_on_foot = 0; // of the run behind a ride
    double taken = 1;      // of what was planned
    bool with_run = false; // or a session of one sport alone, for the run itself
    bool stop = false;
    bool strong_drink = false, solids_on_run = false;
};

/// What was asked, where the plan of the session came near it: the rest is whole units. Never more than was
/// asked: one gel in a run of 20 min is no 75 g/h.
double rate_of(const FedLeg& leg) {
    const double planned = leg.minutes > 0 ? leg.planned_carb_g.count() * 60 / leg.minutes : 0;
    if (planned <= 0)
        return leg.carb_g_per_h();
    const double asked = leg.asked_carb_g_per_h;
    return asked > 0 && planned >= planned_of_asked * asked ? asked : planned;
}

template <class Record>
Session session_of(const Record& record, Sport sport, double feeds_taken) {
    const bool bike = sport == Sport::bike;
    Session s;
    s.leg = bike ? record.bike : record.run;
    s.rate = rate_of(s.leg);
    s.worst = s.leg.worst();
    s.worst_on_foot = bike ? record.run.worst() : 0;
    s.taken = s.leg.planned_carb_g > 0 ? s.leg.carb_g / s.leg.planned_carb_g : feeds_taken;
    s.with_run = record.run.minutes > 0;
    s.stop = record.vomited || record.blood;
    return s;
}

std::vector<Session> sessions_of(const std::vector<DiaryEntry>& entries, Sport sport) {
    std::vector<Session> out;
    for (const auto& entry : entries) {
        Session s;
        if (const auto* r = std::get_if<RehearsalRecord>(&entry.what)) {
            if (!r->race_effort)
                continue;
            s = session_of(*r, sport, r->taken_share());
            s.strong_drink = r->strong_drink;
            s.solids_on_run = r->solids_on_run;
        } else if (const auto* race = std::get_if<RaceRecord>(&entry.what)) {
            s = session_of(*race, sport, 1);
        } else {
            continue;
        }
        if ((s.leg.minutes >= least_minutes && s.rate > 0) || s.stop)
            out.push_back(s);
    }
    return out;
}

/// A rate to ask for; never more than it came from.
double down_to_5(double g) {
    return 5 * std::floor(g / 5 + 1e-9);
}

/// The ladder of one sport, session by session.
class Ladder {
public:
    Ladder(const Athlete& athlete, bool bike) : athlete_(athlete), bike_(bike) {
        gut_.why = bike ? "No session at race effort yet: start with the plan's own rate."
                        : "Nothing was eaten on a run at race effort yet.";
    }

    void climb(const Session& s) {
        gut_.stop = s.stop;
        gut_.next_carb_g_per_h = 0;
        if (s.stop)
            stop(s);
        else if (s.worst > worst_of_hold)
            go_down(s);
        else if (s.worst > worst_of_good)
            hold_bad(s);
        else if (!s.with_run)
            hold(s, "a rehearsal counts when the run is part of it");
        else if (s.taken < taken_of_good)
            hold(s, fmt::format("{:.0f} % of what was planned was taken, and a step counts from 90 %",
                                100 * s.taken));
        else
            count_good(s);
        const double shown = gut_.carb_g_per_h > 0 ? gut_.carb_g_per_h : gut_.next_carb_g_per_h;
        gut_.at_most_g_per_h = bad_at_ < std::numeric_limits<double>::infinity() ? shown : 0;
    }

    const GutTolerance& gut() const { return gut_; }

private:
    const char* part() const { return bike_ ? "on the bike" : "on the run"; }

    void stop(const Session& s) {
        went_badly(s, s.rate - severe_step_g);
        gut_.why = "There was vomiting or blood in the last session: see a doctor before the next one.";
    }

    void went_badly(const Session& s, double then) {
        bad_at_ = s.rate > 0 ? std::min(bad_at_, s.rate) : bad_at_;
        gut_.carb_g_per_h = std::min(gut_.carb_g_per_h, std::max(0.0, down_to_5(then)));
        gut_.good_at_this_rate = holds_ = 0;
    }

    void go_down(const Session& s) {
        const double then = down_to_5(s.rate - (s.worst > worst_of_bad ? severe_step_g : large_step_g));
        went_badly(s, then);
        gut_.next_carb_g_per_h = std::min(down_to_5(s.rate), std::max(least_rate_g, then));
        gut_.why =
            gut_.next_carb_g_per_h < s.rate - same_rate_g
                ? fmt::format("The worst symptom {} was {} of 10 at {:.0f} g/h: down to {:.0f} g/h.", part(),
                              s.worst, s.rate, gut_.next_carb_g_per_h)
                : fmt::format("The worst symptom {} was {} of 10: no more than {:.0f} g/h, in smaller doses.",
                              part(), s.worst, gut_.next_carb_g_per_h);
    }

    void hold_bad(const Session& s) {
        gut_.good_at_this_rate = 0;
        if (++holds_ < holds_before_down) {
            gut_.next_carb_g_per_h = down_to_5(s.rate);
            gut_.why = fmt::format("The worst symptom {} was {} of 10: hold {:.0f} g/h.", part(), s.worst,
                                   gut_.next_carb_g_per_h);
            return;
        }
        bad_at_ = std::min(bad_at_, s.rate);
        holds_ = 0;
        const double then = down_to_5(s.rate - small_step_g);
        gut_.carb_g_per_h = std::min(gut_.carb_g_per_h, then);
        gut_.next_carb_g_per_h = std::min(down_to_5(s.rate), std::max(least_rate_g, then));
        gut_.why = fmt::format("The worst symptom {} was {} of 10, and above 3 the time before: {:.0f} g/h.",
                               part(), s.worst, gut_.next_carb_g_per_h);
    }

    void hold(const Session& s, const std::string& why) {
        gut_.next_carb_g_per_h = std::max(down_to_5(s.rate), std::min(down_to_5(gut_.carb_g_per_h), s.rate));
        gut_.why = fmt::format("Hold {:.0f} g/h: {}.", gut_.next_carb_g_per_h, why);
    }

    void count_good(const Session& s) {
        holds_ = 0;
        const bool same = std::abs(s.rate - gut_.carb_g_per_h) <= same_rate_g;
        if (same || s.rate > gut_.carb_g_per_h)
            gut_.good_at_this_rate = same ? gut_.good_at_this_rate + 1 : 1;
        gut_.carb_g_per_h = std::max(gut_.carb_g_per_h, s.rate);
        gut_.fluid_ml_per_h = std::max(gut_.fluid_ml_per_h, s.leg.fluid_ml_per_h());
        gut_.strong_drink = gut_.strong_drink || s.strong_drink;
        gut_.solids_on_run = gut_.solids_on_run || s.solids_on_run;
        if (gut_.carb_g_per_h >= bad_at_ - same_rate_g)
            bad_at_ = std::numeric_limits<double>::infinity();
        step_up(s);
    }

    void step_up(const Session& s) {
        const double rate = gut_.carb_g_per_h;
        gut_.next_carb_g_per_h = down_to_5(rate + same_rate_g);
        const double most = athlete_.rehearsed.gut_trained ? most_trained_g : most_untrained_g;
        if (gut_.good_at_this_rate < good_before_step) {
            gut_.why = fmt::format("{:.0f} g/h went well once {}: once more before a step up.", rate, part());
        } else if (s.worst_on_foot > worst_of_good) {
            gut_.why = fmt::format(
                "{:.0f} g/h went well on the bike, but the worst symptom of the run after it was {} "
                "of 10: hold.",
                rate, s.worst_on_foot);
        } else if (rate >= most - same_rate_g) {
            gut_.next_carb_g_per_h = most;
            gut_.why = fmt::format("{:.0f} g/h went well {}: the most that is planned{}.", rate, part(),
                                   athlete_.rehearsed.gut_trained ? "" : " without declared gut training");
        } else {
            const bool near_bad = rate + large_step_g > bad_at_ - same_rate_g;
            const double step = s.worst <= easy_worst && !near_bad ? large_step_g : small_step_g;
            gut_.next_carb_g_per_h = std::min(most, down_to_5(rate + same_rate_g) + step);
            gut_.why = fmt::format(
                "Two good sessions at {:.0f} g/h {}: next {:.0f} g/h, but no new step in the last "
                "10 days before a race.",
                rate, part(), gut_.next_carb_g_per_h);
        }
    }

    const Athlete& athlete_;
    bool bike_;
    GutTolerance gut_;
    int holds_ = 0;
    double bad_at_ = std::numeric_limits<double>::infinity();
};

bool steps_are_ours(const Athlete& athlete) {
    const auto& health = athlete.health;
    return !health.glucose_lowering_medicine && !health.recent_gut_illness &&
           !health.pregnant_or_breastfeeding && !is_minor(athlete);
}

/// What the last session shows beside the gut: each with what to do about it.
void read_signs(const RehearsalRecord& r, std::vector<std::string>& out) {
    if (r.slump)
        out.push_back(
            "A slump in the last session: start easier, or eat earlier; more only by the steps above.");
    const double planned = r.bike.planned_fluid_ml + r.run.planned_fluid_ml;
    const double left = planned - r.bike.fluid_ml - r.run.fluid_ml;
    const bool much_left = planned > 0 && left > 0.2 * planned; // a fifth: our choice
    if (much_left && r.thirst.value_or(0) >= 6)
        out.push_back(
            fmt::format("{:.0f} ml of the planned drink were left, with a thirst of {} of 10: the bottle was "
                        "there and was not used. A reminder helps.",
                        left, *r.thirst));
    else if (much_left)
        out.push_back(
            fmt::format("{:.0f} ml of the planned drink were left{}: less is fine.", left,
                        r.thirst ? fmt::format(", with a thirst of {} of 10", *r.thirst) : std::string()));
    else if (r.thirst.value_or(0) >= 7)
        out.push_back(fmt::format(
            "Thirst was {} of 10 though the planned drink was taken: look at the ceiling of the plan, there "
            "may be room below it.",
            *r.thirst));
    if (r.stops > 0)
        out.push_back(fmt::format(
            "{} stop{} for the gut: look at fibre, fat and coffee of the meal before, not only at "
            "the rate.",
            r.stops, r.stops == 1 ? "" : "s"));
}

void learn_foods(const std::vector<DiaryEntry>& entries, Learned& learned) {
    const auto add = [&learned](const std::string& commas) {
        std::size_t at = 0;
        while (at < commas.size()) {
            const auto end = std::min(commas.find(',', at), commas.size());
            const auto food = trimmed(commas.substr(at, end - at));
            if (!food.empty() &&
                std::find(learned.foods.begin(), learned.foods.end(), food) == learned.foods.end())
                learned.foods.push_back(food);
            at = end + 1;
        }
    };
    for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) {
        if (const auto* r = std::get_if<RehearsalRecord>(&entry->what);
            r && r->worst() <= worst_of_good && !r->vomited && !r->blood)
            add(r->foods);
        if (const auto* r = std::get_if<RaceRecord>(&entry->what);
            r && std::max(r->bike.worst(), r->run.worst()) <= worst_of_good && !r->vomited && !r->blood)
            add(r->foods);
    }
}

} // namespace

void learn_gut(const std::vector<DiaryEntry>& entries, const Athlete& athlete, Learned& learned) {
    for (auto* gut : {&learned.bike, &learned.run}) {
        const bool bike = gut == &learned.bike;
        Ladder ladder(athlete, bike);
        for (const auto& session : sessions_of(entries, bike ? Sport::bike : Sport::run))
            ladder.climb(session);
        *gut = ladder.gut();
        if (gut->stop)
            learned.warnings.push_back({"see_doctor", Severity::danger, gut->why});
        if (!steps_are_ours(athlete)) {
            gut->next_carb_g_per_h = 0;
            gut->why = "No steps of gut training for this athlete: a doctor or dietitian sets the rate.";
        }
    }
    if (learned.bike.stop && learned.run.stop)
        learned.warnings.pop_back(); // said once
    learn_foods(entries, learned);
    for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry)
        if (const auto* r = std::get_if<RehearsalRecord>(&entry->what)) {
            read_signs(*r, learned.signs);
            break;
        }
}

} // namespace tuck::diary
