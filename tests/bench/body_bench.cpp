// Cost of one minute of the race path on land, beside a bare loop of the same transcendental functions.
// Aims: at most 250 ns, at most 1.5 times the bare loop. Best of many rounds; build as Release.
#include "body/race.hpp"
#include "body/race_drive.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <fmt/format.h>
#include <vector>

using namespace tuck;

namespace {

constexpr std::size_t minutes = 1024; // a race of 17 h
constexpr int rounds = 2000;

template <typename Round>
double best_ns_per_minute(const Round& round) {
    double best = 1e99;
    for (int i = 0; i < rounds; ++i) {
        const auto start = std::chrono::steady_clock::now();
        round();
        const std::chrono::duration<double, std::nano> took = std::chrono::steady_clock::now() - start;
        best = std::min(best, took.count() / minutes);
    }
    return best;
}

std::vector<body::Air> warming_day() {
    std::vector<body::Air> air(minutes);
    for (std::size_t i = 0; i < minutes; ++i) {
        const double share = static_cast<double>(i) / minutes;
        air[i] = {12 + 20 * share, 80 - 40 * share, 1 + 4 * share, 800 * share, 45};
    }
    return air;
}

body::LegDrive ride() {
    LegEffort leg;
    leg.kind = LegKind::bike;
    leg.speed_m_s = 9.5;
    leg.power_w = 200;
    leg.intensity = 0.7;
    auto drive = body::leg_drive({}, {}, leg);
    drive.sodium_mg_per_ml = 0.92;
    return drive;
}

} // namespace

int main() {
    // One exponential (vapour pressure of the air) and one power (convection) a minute; the carbohydrate
    // share and the athlete's factors are worked out once a leg.
    constexpr int exp_calls = 1, pow_calls = 1;
    const auto air = warming_day();
    const auto drive = ride();
    BodyMinutes rows;
    body::resize(rows, minutes);
    std::fill(rows.length_s.begin(), rows.length_s.end(), 60.0);
    std::vector<double> bare(minutes), own_speed_m_s(minutes, drive.speed_m_s);

    const double step_ns = best_ns_per_minute([&] {
        body::Stores stores{470, 0, 0, 470, {}};
        body::SunOnBody sun(LegKind::bike);
        for (std::size_t i = 0; i < minutes; ++i) {
            rows.air_c[i] = air[i].temperature_c;
            rows.humidity_pct[i] = air[i].humidity_pct;
            rows.wind_m_s[i] = air[i].wind_m_s;
            rows.sun_w_m2[i] = air[i].sun_w_m2;
            rows.solar_w_per_m2[i] = sun.w_per_m2(air[i]);
        }
        body::step_minutes(drive, own_speed_m_s.data(), 0, minutes, stores, rows);
    });
    const double bare_ns = best_ns_per_minute([&] {
        for (std::size_t i = 0; i < minutes; ++i)
            bare[i] = std::exp(17.27 * air[i].temperature_c / (air[i].temperature_c + 237.3)) +
                      std::pow(9.5 + air[i].wind_m_s, 0.6);
    });
    double check = 0; // keeps both loops alive
    for (std::size_t i = 0; i < minutes; ++i)
        check += rows.sweat_ml_per_h[i] + bare[i];

    fmt::print("one minute of the body: {:.1f} ns (aim: at most 250)\n", step_ns);
    fmt::print("bare loop, {} exp and {} pow: {:.1f} ns; ratio {:.2f} (aim: at most 1.5)\n", exp_calls,
               pow_calls, bare_ns, step_ns / bare_ns);
    fmt::print("mean sweat {:.0f} ml/h\n", (check - 0) / minutes);
    return 0;
}
