// Invented athletes and events for the tests of the stages.
#pragma once

#include "tuck/body.hpp"
#include "tuck/compose.hpp"
#include "tuck/effort.hpp"
#include "tuck/need.hpp"
#include "tuck/outlook.hpp"
#include "tuck/schedule.hpp"

#include "io/pantry.hpp"
#include "places.hpp"

#include <string>

namespace tuck::example {

inline Athlete athlete(double mass_kg = 70, Level level = Level::unknown) {
    Athlete out;
    out.mass_kg = mass_kg;
    out.level = level;
    return out;
}

/// A named distance at a temperature; no wind, 60 % humidity. At 12 C no stage adds for heat or for cold.
inline Event race(const std::string& name, double temperature_c = 12) {
    Event out;
    out.preset = name;
    out.legs = preset_legs(name);
    out.weather.temperature_c = temperature_c;
    out.weather.humidity_pct = 60;
    out.weather.wind_m_s = 0;
    return out;
}

/// One leg of a given time.
inline Event session(LegKind kind, double minutes, double distance_m = 0, double temperature_c = 12) {
    Event out = race("", temperature_c);
    Leg leg;
    leg.kind = kind;
    leg.time_s = minutes * 60;
    leg.distance_m = distance_m;
    out.legs = {leg};
    return out;
}

inline Leg& leg_of(Event& event, LegKind kind) {
    for (auto& leg : event.legs)
        if (leg.kind == kind)
            return leg;
    return event.legs.front();
}

template <typename Row>
const Row& of(const std::vector<Row>& rows, LegKind kind) {
    for (const auto& row : rows)
        if (row.kind == kind)
            return row;
    return rows.front();
}

inline Body body_of(const Athlete& athlete, const Event& event) {
    return describe_body(athlete, event, estimate_effort(athlete, event));
}

inline Need need_of(const Athlete& athlete, const Event& event, const Limits& limits = {}) {
    const auto effort = estimate_effort(athlete, event);
    return state_need(athlete, event, effort, describe_body(athlete, event, effort), limits);
}

inline const Pantry& pantry() {
    static const Pantry foods = io::load_pantry(places::foods());
    return foods;
}

inline Schedule schedule_of(const Athlete& athlete, const Event& event) {
    const auto effort = estimate_effort(athlete, event);
    const auto body = describe_body(athlete, event, effort);
    return make_schedule(athlete, event, effort, body, state_need(athlete, event, effort, body), pantry());
}

inline bool says(const std::vector<Warning>& warnings, const std::string& code) {
    for (const auto& warning : warnings)
        if (warning.code == code)
            return true;
    return false;
}

inline bool says(const std::vector<Reason>& reasons, const std::string& words) {
    for (const auto& reason : reasons)
        if (reason.text.find(words) != std::string::npos)
            return true;
    return false;
}

} // namespace tuck::example
