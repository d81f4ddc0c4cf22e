// The estimate of one leg and what it rests on.
#pragma once

#include "effort/road.hpp"
#include "tuck/effort.hpp"
#include "tuck/figures.hpp"

#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

namespace tuck::effort {

// One SD of a log duration, by what the estimate rests on (judgement on published errors).
inline constexpr double sd_given = 0.05, sd_open_water = 0.06, sd_run_near = 0.03, sd_run_far = 0.07;
inline constexpr double sd_after_bike = 0.04, sd_bike_model = 0.04, sd_threshold_test = 0.03;
inline constexpr double sd_drag = 0.035, sd_transition = 0.40;
inline constexpr double sd_swim_results = 0.185, sd_bike_results = 0.142, sd_run_results = 0.204;
inline constexpr double sd_sex = 0.03; // elites differ by 9-14 % (Rust 2013), others by 12-18 % (Lepers 2019)
inline constexpr double stated_level = figure("pace.stated_level");
inline constexpr double open_water_factor = figure("pace.open_water");
inline constexpr double standard_swim_m = 1500, standard_bike_m = 40e3, standard_run_m = 10e3;

/// A median and how sure it is.
struct Estimate {
    double time_s = 0;
    double log_sd = 0;
    std::vector<Reason> because;
    bool of_field = false;   // scaled from race results, which hold ordinary weather and wetsuits already
    double shown_ride_s = 0; // a ride that was timed, as a man's over 40 km: it tells how low the rider sits
};

struct Situation {
    const Athlete& athlete;
    const Event& event;
    Weather weather;                // of the hours in which the leg lies
    double wbgt_c = 0;              // of the same hours, sun included
    double bike_before_m = 0;       // bike metres behind the runner
    double ride_over = 1;           // power of that ride over what the distance sustains, at least 1
    const Course* course = nullptr; // of this leg, where it has a track
};

double root_sum(std::initializer_list<double> parts);
std::string km_text(double metres);

/// Bicycle and rider in this air at this height above the sea. Where neither position nor level is known, a
/// ride that was timed (Estimate::shown_ride_s, 0: none) tells how low the rider sits.
Ride ride_of(const Athlete& athlete, const Weather& weather, bool draft_legal, double altitude_m,
             double shown_ride_s = 0);
/// A ride's time over 40 km, s, for a man of the same place.
double shown_ride_s(const Athlete& athlete, double distance_m, double time_s);
/// The wind of a leg, m/s: its own, else the weather's, else none.
double wind_of(const Situation& now, const Leg& leg);
/// Climbing of a leg, m: along its track, as given, or that of an ordinary road; a run's is flat.
double ascent_of(const Situation& now, const Leg& leg, double distance_m);
/// Effort of a ride in this time over what the athlete's threshold or results sustain over its length, the
/// same rider on the same road; empty where there are none.
std::optional<double> ride_over_sustained(const Situation& now, const Leg& leg, double distance_m,
                                          double time_s);

/// The road of a leg over this distance (its own course knows better).
Road road_for(const Situation& now, const Leg& leg, double distance_m);
/// Where the leg lies, m; 0 where its course does not say.
double altitude_of(const Situation& now);

Estimate swim_estimate(const Situation& now, const Leg& leg);
Estimate bike_estimate(const Situation& now, const Leg& leg);
Estimate run_estimate(const Situation& now, const Leg& leg);
Estimate transition_estimate(const Situation& now, LegKind kind);

} // namespace tuck::effort
