// A 180 km course at 25 m steps: Newton from the neighbour's speed against plain bisection at every step. One
// core; best of several runs; the ratio is what counts.
#include "effort/power.hpp"
#include "effort/road.hpp"
#include "io/gpx.hpp"
#include "tuck/effort.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <string>

using namespace tuck;
using namespace tuck::effort;

namespace {

constexpr int steps = 7200;

Road rolling_road() {
    Road road;
    for (int i = 0; i < steps; ++i) {
        const double s = i * 25.0;
        const double grade = 0.035 * std::sin(s / 900) + 0.02 * std::sin(s / 210);
        road.push_back({25, grade, 4 * std::cos(s / 14000), 0, 0});
    }
    return road;
}

std::vector<Resistance> resistances_of(const Road& road) {
    std::vector<Resistance> out;
    for (const auto& step : road) {
        Ride ride;
        ride.mass_kg = 84;
        ride.grade = step.grade;
        ride.wind_m_s = step.headwind_m_s;
        out.push_back(resistance_of(ride));
    }
    return out;
}

double watts_at(double grade) {
    return 200 * pace_share(grade);
}

double newton_s(const Road& road, const std::vector<Resistance>& resistances) {
    double time_s = 0, speed = 8;
    for (std::size_t i = 0; i < road.size(); ++i) {
        speed = speed_m_s(resistances[i], watts_at(road[i].grade), speed);
        time_s += road[i].length_m / speed;
    }
    return time_s;
}

double bisection_s(const Road& road, const std::vector<Resistance>& resistances) {
    double time_s = 0;
    for (std::size_t i = 0; i < road.size(); ++i) {
        double low = 0, high = 40;
        while (high - low > 1e-9) {
            const double middle = 0.5 * (low + high);
            (resistances[i].power_w(middle) < watts_at(road[i].grade) ? low : high) = middle;
        }
        time_s += road[i].length_m / (0.5 * (low + high));
    }
    return time_s;
}

template <typename Work>
double best_ms(int runs, Work work) {
    double best = 1e9;
    for (int i = 0; i < runs; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        best = std::min(
            best,
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    }
    return best;
}

std::string long_gpx(int points) {
    std::string text = "<gpx version=\"1.1\" creator=\"bench\"><trk><trkseg>\n";
    for (int i = 0; i < points; ++i)
        text += fmt::format("<trkpt lat=\"{:.7f}\" lon=\"{:.7f}\"><ele>{:.1f}</ele><time>2027-06-13T07:00:00Z"
                            "</time></trkpt>\n",
                            46 + 0.3 * std::sin(i * 2e-5), 9 + 0.3 * std::cos(i * 2e-5),
                            500 + 80 * std::sin(i / 900.0));
    return text + "</trkseg></trk></gpx>\n";
}

} // namespace

int main() {
    const Road road = rolling_road();
    const auto resistances = resistances_of(road);
    double newton = 0, bisection = 0;
    const double newton_ms = best_ms(50, [&] { newton = newton_s(road, resistances); });
    const double bisection_ms = best_ms(20, [&] { bisection = bisection_s(road, resistances); });
    fmt::print("180 km, {} steps of 25 m\n", steps);
    fmt::print("  bisection on [0, 40] m/s to 1e-9   {:8.3f} ms   total {:.6f} s\n", bisection_ms, bisection);
    fmt::print("  Newton from the neighbour's speed  {:8.3f} ms   total {:.6f} s\n", newton_ms, newton);
    fmt::print("  ratio {:.1f}   totals differ by {:.9f} s\n", bisection_ms / newton_ms,
               std::abs(newton - bisection));
    Ride rider;
    rider.mass_kg = 84;
    fmt::print("  whole ride, paced                  {:8.3f} ms\n",
               best_ms(20, [&] { ride(road, rider, 200); }));
    fmt::print("  effort for a given time            {:8.3f} ms\n",
               best_ms(10, [&] { ride_effort_for_w(road, rider, newton); }));
    const auto text = long_gpx(500000);
    Track track;
    fmt::print("GPX of 500,000 points, {:.0f} MB: read {:.0f} ms", static_cast<double>(text.size()) / 1e6,
               best_ms(3, [&] { track = io::parse_gpx(text, "bench.gpx"); }));
    fmt::print(", to a course of {:.0f} km {:.0f} ms\n", track.length_m / 1000,
               best_ms(3, [&] { course_of(track, Sport::bike); }));
    const bool good = bisection_ms >= 5 * newton_ms && std::abs(newton - bisection) < 1e-3 && newton_ms < 20;
    fmt::print("{}\n",
               good ? "holds: 5 times faster, same total to 1 ms, under 20 ms" : "FAILS its own figure");
    return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
