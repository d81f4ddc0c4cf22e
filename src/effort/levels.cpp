#include "effort/levels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

namespace tuck::effort {

namespace {

constexpr StandardTimes middle_band{1985, 276, 4859, 161, 3311}; // 45-55 %: total 2:56:32
constexpr StandardTimes upper_band{2193, 348, 5237, 198, 3811};  // 70-80 %: total 3:16:27

struct LevelRow {
    double percentile, total_s;
    double run_off_bike, intensity_less, drag_area;
};

// Totals: percentiles 90, 50, 25 and 10 of the men's total in the same results.
constexpr LevelRow row_of(Level level) {
    switch (level) {
    case Level::beginner:
        return {90, 12975, 1.12, 0.06, 0.40};
    case Level::keen:
        return {25, 9541, 1.05, 0.00, 0.31};
    case Level::fast:
        return {10, 8686, 1.04, 0.00, 0.27};
    case Level::steady:
    case Level::unknown:
        break;
    }
    return {50, 10592, 1.07, 0.03, 0.35};
}

struct Point {
    double x, y;
};

template <size_t N>
double interpolate(const std::array<Point, N>& points, double x) {
    if (x <= points.front().x)
        return points.front().y;
    for (size_t i = 1; i < N; ++i)
        if (x <= points[i].x)
            return points[i - 1].y +
                   (points[i].y - points[i - 1].y) * (x - points[i - 1].x) / (points[i].x - points[i - 1].x);
    return points.back().y;
}

} // namespace

StandardTimes standard_times(Level level) {
    const double along =
        (row_of(level).total_s - middle_band.total_s()) / (upper_band.total_s() - middle_band.total_s());
    const auto on_line = [along](double middle, double upper) { return middle + along * (upper - middle); };
    return {on_line(middle_band.swim_s, upper_band.swim_s), on_line(middle_band.t1_s, upper_band.t1_s),
            on_line(middle_band.bike_s, upper_band.bike_s), on_line(middle_band.t2_s, upper_band.t2_s),
            on_line(middle_band.run_s, upper_band.run_s)};
}

double womens_time_factor(Sport sport, double distance_m, bool alone) {
    constexpr double run_alone = 1.13;
    if (alone && sport == Sport::run)
        return run_alone;
    const double way = std::log(std::max(1.0, distance_m));
    const auto between = [way](double from_m, double from, double to_m, double to) {
        return interpolate(std::array<Point, 2>{{{std::log(from_m), from}, {std::log(to_m), to}}}, way);
    };
    return sport == Sport::swim   ? between(1500, 1.06, 3800, 1.12)
           : sport == Sport::bike ? between(40e3, 1.08, 180e3, 1.15)
                                  : between(10e3, 1.09, 42195, 1.18);
}

double percentile_of(Level level) {
    return row_of(level).percentile;
}

double run_off_bike_factor(Level level, double bike_m) {
    constexpr std::array<Point, 3> longer{{{40e3, 0}, {90e3, 0.03}, {180e3, 0.09}}};
    return row_of(level).run_off_bike + interpolate(longer, bike_m);
}

double bike_intensity_factor(Level level, double bike_m) {
    constexpr std::array<Point, 5> held{
        {{10e3, 0.95}, {20e3, 0.90}, {40e3, 0.85}, {90e3, 0.78}, {180e3, 0.68}}};
    return interpolate(held, bike_m) - row_of(level).intensity_less;
}

namespace {

double frontal_share(double mass_kg) {
    constexpr double riders_kg = 74.4, exponent = 0.594; // Heil 2002
    return std::pow(mass_kg / riders_kg, exponent);
}

double usual_drag_area_m2(Position position, Level level) {
    switch (position) {
    case Position::upright:
        return 0.40;
    case Position::hoods:
        return 0.35;
    case Position::drops:
        return 0.31;
    case Position::aero:
        return 0.25;
    case Position::unspecified:
        break;
    }
    return row_of(level).drag_area;
}

} // namespace

double drag_area_m2(Position position, Level level, double mass_kg) {
    return usual_drag_area_m2(position, level) * frontal_share(mass_kg);
}

double drag_area_of_time_m2(double standard_ride_s, double mass_kg) {
    const auto of = [](Level level) { return Point{standard_times(level).bike_s, row_of(level).drag_area}; };
    const std::array<Point, 5> seen{
        {{3600, 0.23}, of(Level::fast), of(Level::keen), of(Level::steady), of(Level::beginner)}};
    return interpolate(seen, standard_ride_s) * frontal_share(mass_kg);
}

double fastest_descent_m_s(Level level) {
    return level == Level::beginner ? 12 : level == Level::fast ? 16.5 : 15;
}

double heat_slope(double run_10k_s) {
    constexpr std::array<Point, 3> ely{{{1700, 0.0018}, {2150, 0.0036}, {3100, 0.0064}}};
    return interpolate(ely, run_10k_s);
}

double race_intensity(double total_h, Level level) {
    constexpr std::array<Point, 8> held{{{0.5, 0.90},
                                         {1.0, 0.87},
                                         {2.0, 0.83},
                                         {3.0, 0.79},
                                         {4.5, 0.73},
                                         {6.0, 0.69},
                                         {9.0, 0.63},
                                         {14.0, 0.56}}};
    return interpolate(held, total_h) - (level == Level::beginner ? 0.03 : 0.0);
}

} // namespace tuck::effort
