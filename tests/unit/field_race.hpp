// A race of given times in given weather, drunk at a steady rate: what field studies print.
#pragma once

#include "outlook_days.hpp"
#include "stage_examples.hpp"

#include <cmath>
#include <vector>

namespace tuck::example {

struct LegTime {
    LegKind kind;
    double hours, km;
};

/// A race of given times, drunk at a steady rate on land; every 15 min.
struct FieldRace {
    Athlete person;
    Event event;
    Effort effort;
    Body body;
    Schedule schedule;

    FieldRace(double mass_kg, double air_c, double humidity_pct, const std::vector<LegTime>& legs)
        : person(athlete(mass_kg, Level::keen)), event(race("", air_c)) {
        event.weather.humidity_pct = humidity_pct;
        event.weather.water_temperature_c = 20;
        event.days = 4000;
        event.legs.clear();
        for (const auto& given : legs) {
            Leg leg;
            leg.kind = given.kind;
            leg.time_s = 3600 * given.hours;
            leg.distance_m = 1000 * given.km;
            event.legs.push_back(leg);
        }
        effort = estimate_effort(person, event);
        body = describe_body(person, event, effort);
    }
    FieldRace& drink(double ml_per_h, double sodium_mg_per_l, double carb_g_per_h) {
        schedule.feeds.clear();
        for (const auto& leg : effort.legs)
            for (double at = 900; leg.kind != LegKind::swim && at < leg.time.p50_s; at += 900) {
                PlanFeed feed;
                feed.leg_index = leg.leg_index;
                feed.leg = leg.kind;
                feed.at_s = at;
                feed.km = leg.distance_m / 1000 * at / leg.time.p50_s;
                feed.fluid_ml = ml_per_h / 4;
                feed.sodium_mg = feed.fluid_ml.count() / 1000 * sodium_mg_per_l;
                feed.carb_g = carb_g_per_h / 4;
                feed.glucose_g = feed.carb_g * 2 / 3;
                feed.fructose_g = feed.carb_g / 3;
                schedule.feeds.push_back(feed);
            }
        return *this;
    }
    PlanOutlook outlook() const { return look_ahead(person, event, effort, body, schedule); }
    outlook::DayColumns days(outlook::Drinking drinking) const {
        return simulated(outlook::race_grid(person, event, effort, body, schedule, drinking),
                         static_cast<std::size_t>(event.days));
    }
};

inline double correlation(const outlook::DayColumns& days, outlook::Column a, outlook::Column b) {
    double sa = 0, sb = 0, aa = 0, bb = 0, ab = 0;
    const auto n = static_cast<double>(days.days());
    for (std::size_t i = 0; i < days.days(); ++i) {
        const double x = static_cast<double>(days[a][i]), y = static_cast<double>(days[b][i]);
        sa += x;
        sb += y;
        aa += x * x;
        bb += y * y;
        ab += x * y;
    }
    return (ab - sa * sb / n) / std::sqrt((aa - sa * sa / n) * (bb - sb * sb / n));
}

} // namespace tuck::example
