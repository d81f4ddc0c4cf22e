// A road in short steps, and a ride or a run over it.
#pragma once

#include "effort/power.hpp"
#include "tuck/course.hpp"
#include "tuck/event.hpp"

#include <optional>
#include <vector>

namespace tuck::effort {

struct RoadStep {
    double length_m = 0;
    double grade = 0;
    double headwind_m_s = 0;  // against the rider
    double crosswind_m_s = 0; // >= 0
    double turn_deg = 0;
};
using Road = std::vector<RoadStep>;

/// A wind; without its direction it blows against the rider on one half of every stretch and behind on the
/// other.
struct Wind {
    double speed_m_s = 0;
    std::optional<double> from_deg;
};

/// A road of which only length and climbing are known: climbed and descended again, on slopes of 5 % (steeper
/// where they do not fit).
Road plain_road(double distance_m, double ascent_m, const Wind& wind);
/// The road that results are taken to hold, and every leg of which nothing else is known: 5 m of climbing a
/// km and a wind of 2 m/s, half against and half behind (our choice; the open results come from courses flat
/// to hilly).
Road ordinary_road(double distance_m);
inline constexpr double ordinary_climb = 0.005; // m of climbing a m of road
inline constexpr double ordinary_stop_every_m =
    5000; // stops, turns and sharp bends, each to a halt: our choice
Road road_of(const Course& course, int laps, const Wind& wind);
double length_m(const Road& road);

/// Speed and power of every step.
struct Passage {
    double time_s = 0;
    double power_w = 0; // plain mean over time
    std::vector<double> speed_m_s, power_at_w;
};

/// Share of the power on the level that is ridden on a slope: 1.12 from 3 % up, less downhill, never below
/// 0.6 (common practice, no source).
double pace_share(double grade);

/// Rides the road at an effort, W: more uphill and less downhill, such that the fourth-power mean over time
/// is the effort (hard minutes cost more than easy ones save; common practice, no source), and never
/// above 1.15 of it. On an even road effort, power and mean are one. Descents are capped at the rider's
/// nerve, sharp bends at 8 and turns at 5 m/s; below 1 m/s the bicycle is pushed (our choices). Steady in
/// every step: no energy is carried from one to the next.
Passage ride(const Road& road, const Ride& rider, double effort_w);

/// Effort, W, with which the road takes this time, to 1e-6 of the time; 0 where it would coast even
/// faster.
double ride_effort_for_w(const Road& road, const Ride& rider, double time_s);

/// Time on a slope against level running, by the energy that a metre costs (Minetti 2002); downhill at best
/// 0.88 at -9 %, back to 1 at -18 %, where braking eats what the slope gives.
double run_slope_factor(double grade);
/// Runs the road at the effort that gives this speed on the level.
Passage run(const Road& road, double level_speed_m_s);

/// Sections of about `section_m`, and where the hands are busy, with the whole stretched to `time_s`.
CourseRide describe(const Road& road, const Passage& passage, Sport sport, double section_m, double time_s);

} // namespace tuck::effort
