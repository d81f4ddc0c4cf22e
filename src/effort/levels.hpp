// Plain-word levels, anchored on open results of the standard distance.
#pragma once

#include "tuck/effort.hpp"

namespace tuck::effort {

/// Median times of a level over 1.5 / 40 / 10 km, s.
struct StandardTimes {
    double swim_s, t1_s, bike_s, t2_s, run_s;
    double total_s() const { return swim_s + t1_s + bike_s + t2_s + run_s; }
};

/// Whole profiles of 2,952 men in open standard-distance results (snapshot 2026): the mean profile of the
/// 45-55 % band of total time and of the 70-80 % band; every level lies on the line through the two at the
/// total of its percentile: beginner 90, steady 50, keen 25, fast 10.
StandardTimes standard_times(Level level);

/// A woman's time against a man's at the same place of the field: 1.06, 1.08 and 1.09 over the standard
/// distance and below, 1.12, 1.15 and 1.18 over the long one (Lepers 2019, non-elite), straight in the
/// logarithm of the distance between. The short ones lie half way between open results of ordinary women
/// (medians of a sprint of 2024 and a standard race of 2023 and 2024, one country, 88
/// women: 1.03, 1.05, 1.04; the same race in 2025, held out, 39 women: 1.03, 1.07, 1.03) and elites (Rust
/// 2013: 9.1, 9.5 and 14.3 %): a time that is too fast would raise the ceiling on drink (our choice).
/// `alone`: a run that follows no ride, 1.13 at any distance (all finishers of 784 marathons of 2014-2017:
/// 4:47:15 and 4:15:14; four years of one country held out: 1.133-1.135).
double womens_time_factor(Sport sport, double distance_m, bool alone = false);

/// Percentile of total time (men, open results) that a level stands for.
double percentile_of(Level level);

/// Run after a bike leg against the same run alone (judgement between Suriano 2010, Hausswirth 1997 and
/// coaching practice): 1.04 fast to 1.12 beginner.
double run_off_bike_factor(Level level, double bike_m);

/// Share of 60-minute power held over a bike leg (judgement; duration bands only bracketed by evidence).
double bike_intensity_factor(Level level, double bike_m);

/// Drag area, m2, of a rider of 74.4 kg in a position; unspecified: the usual one of the level. Other masses
/// by mass^0.594, the scaling of the frontal area of rider and bicycle (Heil 2002: 21 competitive men).
double drag_area_m2(Position position, Level level, double mass_kg = 74.4);

/// The same of a rider of whom only a time is known, s over 40 km: who rides faster sits lower. Straight
/// between the levels' own times and areas, and on to 0.23 m2 in an hour (our choice; bars of 0.25 are the
/// usual low end).
double drag_area_of_time_m2(double standard_ride_s, double mass_kg);

/// Speed on a descent at which riders of a level brake, m/s: 12 beginner to 16.5 fast (common practice, no
/// source).
double fastest_descent_m_s(Level level);

/// Slowing of a run per degree of WBGT above 15 C, by how fast it would be over 10 km alone, s: 0.0018 at the
/// pace of winners of large marathons (28:20), 0.0036 at that of the hundredth place (35:50, some 2:45),
/// 0.0064 from that of the back (51:40, some 4 h) on. Ely 2007 as told in a secondary source (0.9, 1.8
/// and 3.2 % per 5 C; the paces of its places from memory); Mantzios 2022 says 0.003-0.004 for athletes of
/// championships.
double heat_slope(double run_10k_s);

/// What riding harder than the distance sustains costs the run after it: 0.45 of what was too much of the
/// power. Suriano 2010: 5 km after cycling at 81-90 % of a solo time trial's power as alone, at 91-95 % 2.4 %
/// and at 96-100 % 4.5 % slower; beyond that along the same line (our choice).
inline constexpr double run_slower_per_ride = 0.45;
/// From here on it is said: 5 %, what a test of threshold power is sure to (our choice).
inline constexpr double ride_too_hard = 1.05;

inline constexpr char results_source[] =
    "open triathlon results, 2,952 men over the standard distance, 8 races 2022-2025 (percentiles "
    "computed for this project)";

} // namespace tuck::effort
