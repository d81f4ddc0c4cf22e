#include "reference/full_body.hpp"

#include "body/race_slopes.hpp"
#include "effort/levels.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::reference {

namespace {

LegEffort on_the_day(const LegEffort& leg, double log_time) {
    LegEffort out = body::at_pace(leg, -log_time);
    const double stretch = std::exp(log_time);
    for (double* t : {&out.time.p10_s, &out.time.p50_s, &out.time.p90_s})
        *t *= stretch;
    for (auto& section : out.sections) {
        section.from_s *= stretch;
        section.to_s *= stretch;
    }
    return out;
}

Weather on_the_day(Weather weather, const Drawn& drawn) {
    const auto shift = [&](double& air, std::optional<double>& humidity) {
        const body::Air warmer = body::warmer_air({air, humidity.value_or(0), 0, 0}, drawn.air_c);
        air = warmer.temperature_c;
        if (humidity)
            humidity = std::clamp(warmer.humidity_pct + drawn.humidity_pct, 0.0, 100.0);
    };
    shift(weather.temperature_c, weather.humidity_pct);
    for (auto& hour : weather.hourly)
        shift(hour.temperature_c, hour.humidity_pct);
    return weather;
}

} // namespace

Day full_body_day(const Race& race, const outlook::RaceGrid& grid, std::uint32_t day) {
    const Drawn drawn = drawn_for(grid, day);
    Event event = race.event;
    event.weather = on_the_day(event.weather, drawn);
    Effort effort = race.effort;
    double usual_s = 0, total_s = 0;
    for (std::size_t i = 0; i < effort.legs.size(); ++i) {
        usual_s += effort.legs[i].time.p50_s;
        effort.legs[i] = on_the_day(effort.legs[i], drawn.log_time[i]);
        total_s += effort.legs[i].time.p50_s;
    }
    for (auto& leg : effort.legs) // what the effort stage says for a race of that length
        if (!is_transition(leg.kind))
            leg.intensity += effort::race_intensity(total_s / 3600, race.athlete.level) -
                             effort::race_intensity(usual_s / 3600, race.athlete.level);
    const Body body = describe_body(race.athlete, event, effort);

    Schedule schedule = race.schedule;
    for (auto& feed : schedule.feeds) {
        std::size_t leg = 0;
        while (effort.legs[leg].leg_index != feed.leg_index)
            ++leg;
        feed.at_s *= std::exp(drawn.log_time[leg]);
        const auto served = std::count_if(feed.items.begin(), feed.items.end(),
                                          [](const FeedItem& item) { return item.from == "station"; });
        if (feed.leg != LegKind::bike)
            continue;
        const double more = std::min(std::exp(drawn.log_time[leg]), double{grid.legs[leg].longest});
        if (served == 0)
            feed.fluid_ml *= more;
        if (served == 0 || served < std::ssize(feed.items)) {
            for (Grams* amount : {&feed.carb_g, &feed.glucose_g, &feed.fructose_g})
                *amount *= more;
            feed.sodium_mg *= more;
        }
    }
    auto own = outlook::race_grid(race.athlete, event, effort, body, schedule, outlook::Drinking::as_lived);
    for (std::size_t i = 0; i < own.legs.size(); ++i) { // what is known of the athlete is what it was
        own.legs[i].sweat_sd_down = grid.legs[i].sweat_sd_down;
        own.legs[i].sweat_sd_up = grid.legs[i].sweat_sd_up;
    }
    return simulate_day(own, day, {true, true});
}

} // namespace tuck::reference
