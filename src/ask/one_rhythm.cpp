#include "ask/one_rhythm.hpp"

#include "tuck/compose.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::ask {

namespace {

constexpr double usual_s = 15 * 60, brief_s = 10 * 60, brief_ride_m = 25e3; // common practice, no source
constexpr double least_share = 0.95;

/// The same for everybody in the event.
double rhythm_of(const Plan& plan) {
    double ride_m = 0;
    for (const LegEffort& leg : plan.durations)
        ride_m = leg.kind == LegKind::bike ? std::max(ride_m, leg.distance_m) : ride_m;
    return ride_m <= brief_ride_m ? brief_s : usual_s;
}

/// Whether every moment of the bike that no road moved stands on the squad's beat.
bool on_the_beat(const Plan& plan, double rhythm_s) {
    return std::all_of(plan.lines.begin(), plan.lines.end(), [rhythm_s](const Line& line) {
        const auto on_beat = [&line, rhythm_s](const LegMoment& at) {
            const bool moved = std::any_of(line.beside.begin(), line.beside.end(), [&at](const Beside& one) {
                return std::abs(one.at_s - at.at_s) < 1;
            });
            return moved || std::abs(std::remainder(at.at_s, rhythm_s)) < 1;
        };
        return line.leg != LegKind::bike || line.stop || std::all_of(line.at.begin(), line.at.end(), on_beat);
    });
}

} // namespace

Plan on_one_rhythm(const Athlete& athlete, const Event& event, const Pantry& pantry) {
    Plan own = compose_plan(athlete, event, pantry);
    const double rhythm_s = rhythm_of(own);
    if (event.bike_rhythm_s || own.own || on_the_beat(own, rhythm_s))
        return own;
    Event shared = event;
    shared.bike_rhythm_s = static_cast<int>(rhythm_s);
    Plan together = compose_plan(athlete, shared, pantry);
    return !together.refused && together.totals.carb_g >= least_share * own.totals.carb_g ? together : own;
}

} // namespace tuck::ask
