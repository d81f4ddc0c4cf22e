#include "effort/road.hpp"

#include "base/conditions.hpp"
#include "base/slope.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace tuck::effort {

namespace {

constexpr double usual_slope = 0.05;
constexpr double pushing_m_s = 1;
constexpr double bend_deg = 60, turn_deg = 120, fastest_bend_m_s = 8, fastest_turn_m_s = 5;
constexpr double most_share = 1.12, least_share = 0.6, share_per_grade = 4, most_of_effort = 1.15;
constexpr double most_effort_w = 2000;

double fastest_m_s(const RoadStep& step, const Ride& rider) {
    if (step.turn_deg >= turn_deg)
        return fastest_turn_m_s;
    if (step.turn_deg >= bend_deg)
        return fastest_bend_m_s;
    return step.grade < 0 ? rider.fastest_descent_m_s : std::numeric_limits<double>::infinity();
}

/// Puts a step with its wind on the road; in two halves where the wind's direction is unknown.
void add(Road& road, RoadStep step, const Wind& wind, double heading_deg) {
    if (step.length_m <= 0)
        return;
    if (wind.speed_m_s > 0 && !wind.from_deg) {
        step.length_m /= 2;
        step.headwind_m_s = wind.speed_m_s;
        road.push_back(step);
        step.headwind_m_s = -wind.speed_m_s;
    } else if (wind.speed_m_s > 0) {
        const double angle = (*wind.from_deg - heading_deg) * std::numbers::pi / 180;
        step.headwind_m_s = wind.speed_m_s * std::cos(angle);
        step.crosswind_m_s = std::abs(wind.speed_m_s * std::sin(angle));
    }
    road.push_back(step);
}

} // namespace

Road plain_road(double distance_m, double ascent_m, const Wind& wind) {
    const double slope = std::max(usual_slope, 2 * ascent_m / std::max(distance_m, 1.0));
    const double climb_m = ascent_m / slope;
    Road road;
    for (const auto& [grade, length] :
         {std::pair{0.0, distance_m - 2 * climb_m}, {slope, climb_m}, {-slope, climb_m}})
        add(road, {length, grade, 0, 0, 0}, {wind.speed_m_s, std::nullopt}, 0);
    return road;
}

Road ordinary_road(double distance_m) {
    return plain_road(distance_m, ordinary_climb * distance_m, {usual_wind_m_s, std::nullopt});
}

Road road_of(const Course& course, int laps, const Wind& wind) {
    Road road;
    for (int lap = 0; lap < laps; ++lap)
        for (const auto& step : course.steps)
            add(road, {step.length_m, step.grade, 0, 0, step.turn_deg}, wind, step.heading_deg);
    return road;
}

double length_m(const Road& road) {
    double sum = 0;
    for (const auto& step : road)
        sum += step.length_m;
    return sum;
}

double pace_share(double grade) {
    return std::clamp(1 + share_per_grade * grade, least_share, most_share);
}

Passage ride(const Road& road, const Ride& rider, double effort_w) {
    constexpr double same = 1e-7;
    constexpr int most_rounds = 8;
    std::vector<Resistance> resistances;
    for (const auto& step : road) {
        Ride here = rider;
        here.grade = step.grade;
        here.wind_m_s = step.headwind_m_s;
        resistances.push_back(resistance_of(here));
    }
    Passage out;
    out.speed_m_s.assign(road.size(), 8);
    out.power_at_w.assign(road.size(), 0);
    double level_w = effort_w; // found such that the fourth-power mean is the effort
    for (int round = 0; round < most_rounds; ++round) {
        double work_j = 0, fourth = 0, guess = 8;
        out.time_s = 0;
        for (std::size_t i = 0; i < road.size(); ++i) {
            const double wanted_w = std::min(level_w * pace_share(road[i].grade), most_of_effort * effort_w);
            // The neighbour's speed starts the first round, the last round's the others.
            const double free = speed_m_s(resistances[i], wanted_w, round == 0 ? guess : out.speed_m_s[i]);
            const double speed = std::clamp(free, pushing_m_s, fastest_m_s(road[i], rider));
            out.power_at_w[i] =
                speed == free ? wanted_w : std::clamp(resistances[i].power_w(speed), 0.0, wanted_w);
            out.speed_m_s[i] = speed;
            guess = speed;
            const double seconds = road[i].length_m / speed, squared = out.power_at_w[i] * out.power_at_w[i];
            out.time_s += seconds;
            work_j += out.power_at_w[i] * seconds;
            fourth += squared * squared * seconds;
        }
        if (work_j <= 0)
            break;
        out.power_w = work_j / out.time_s;
        const double spent_w = std::sqrt(std::sqrt(fourth / out.time_s));
        if (std::abs(spent_w - effort_w) <= same * effort_w)
            break;
        level_w *= effort_w / spent_w;
    }
    return out;
}

double ride_effort_for_w(const Road& road, const Ride& rider, double time_s) {
    // Regula falsi (Illinois) on the logarithms, where time is nearly a straight line of power.
    const auto late = [&](double log_effort) {
        return std::log(ride(road, rider, std::exp(log_effort)).time_s / time_s);
    };
    double low = std::log(60.0), high = std::log(500.0); // most riders; wider where it takes that
    double late_low = late(low), late_high = late(high);
    if (late_low <= 0) {
        low = std::log(1.0);
        late_low = late(low);
    }
    if (late_high >= 0) {
        high = std::log(most_effort_w);
        late_high = late(high);
    }
    if (late_low <= 0)
        return 0;
    if (late_high >= 0)
        return most_effort_w;
    int side = 0;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low * late_high - high * late_low) / (late_high - late_low);
        const double late_middle = late(middle);
        if (std::abs(late_middle) <= 1e-6)
            return std::exp(middle);
        if (late_middle > 0) {
            low = middle;
            late_low = late_middle;
            if (side == 1)
                late_high /= 2;
            side = 1;
        } else {
            high = middle;
            late_high = late_middle;
            if (side == -1)
                late_low /= 2;
            side = -1;
        }
    }
    return std::exp((low + high) / 2);
}

double run_slope_factor(double grade) {
    constexpr double steepest = 0.45, best_grade = 0.09, best_gain = 0.12;
    const double i = std::clamp(grade, -steepest, steepest);
    const double by_cost = run_cost_j_per_kg_m(i) / run_cost_j_per_kg_m(0);
    if (i >= 0)
        return by_cost;
    const double gain = best_gain * std::max(0.0, 1 - std::abs(-i - best_grade) / best_grade);
    return std::max(by_cost, 1 - gain);
}

Passage run(const Road& road, double level_speed_m_s) {
    Passage out;
    for (const auto& step : road) {
        out.speed_m_s.push_back(level_speed_m_s / run_slope_factor(step.grade));
        out.power_at_w.push_back(0);
        out.time_s += step.length_m / out.speed_m_s.back();
    }
    return out;
}

} // namespace tuck::effort
