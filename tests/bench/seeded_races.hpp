// Made-up athletes and race days, drawn from a seed: the same on every machine.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/event.hpp"

#include <cstdint>
#include <string>

namespace seeded {

struct Race {
    tuck::Athlete athlete;
    tuck::Event event;
};

/// Minimal standard generator of Park and Miller (1988): enough to draw a dozen races.
class Draw {
public:
    explicit Draw(int seed) : state_(static_cast<std::uint64_t>(seed) * 7919 + 17) {
        for (int i = 0; i < 5; ++i)
            next();
    }
    double between(double low, double high) { return low + (high - low) * next(); }
    int pick(int count) { return static_cast<int>(next() * count); }
    bool one_in(int count) { return pick(count) == 0; }

private:
    double next() {
        state_ = state_ * 16807 % 2147483647;
        return static_cast<double>(state_) / 2147483647;
    }
    std::uint64_t state_;
};

inline Race race(const std::string& distance, int seed) {
    using namespace tuck;
    Draw draw(seed + 1000 * static_cast<int>(distance.size()));
    Race out;
    out.athlete.mass_kg = draw.between(50, 95);
    out.athlete.level = static_cast<Level>(1 + draw.pick(4));
    out.athlete.hands = draw.one_in(4) ? Hands::bottle : Hands::bottle_and_food;
    if (draw.one_in(2))
        out.athlete.sweat = MeasuredSweat{draw.between(500, 1600), Sport::bike, draw.between(12, 30), {}};
    out.athlete.rehearsed.carb_g_per_h = draw.one_in(3) ? 0 : draw.between(40, 90);
    out.athlete.rehearsed.solids_on_run = draw.one_in(6);
    if (draw.one_in(5))
        out.athlete.avoid = {"bars"};
    out.event.preset = distance;
    out.event.legs = preset_legs(distance);
    out.event.weather.temperature_c = draw.between(8, 33);
    if (!draw.one_in(3))
        out.event.station_policy = StationPolicy::typical;
    if (draw.one_in(3))
        out.event.kit.run_gels = 2 + draw.pick(5);
    return out;
}

} // namespace seeded
