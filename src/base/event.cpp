#include "tuck/event.hpp"

namespace tuck {

namespace {

struct Part {
    Sport sport;
    double distance_m;
};

struct Preset {
    const char* name;
    std::vector<Part> parts;
};

/// Sprint, standard and every duathlon and aquathlon: the international federation's distances as a national
/// federation lists them (triathlonindia.com/conduct-event). Where a list gives a range (super-sprint 250-500
/// m, 6.5-13 km, 1.7-3.5 km; duathlon-standard 5-10, 30-40, 5 km) we take a usual course inside it. Middle
/// and long: usual courses, common practice, no source.
const std::vector<Preset>& presets() {
    using enum Sport;
    static const std::vector<Preset> all = {
        {"super-sprint", {{swim, 400}, {bike, 10000}, {run, 2500}}},
        {"sprint", {{swim, 750}, {bike, 20000}, {run, 5000}}},
        {"standard", {{swim, 1500}, {bike, 40000}, {run, 10000}}},
        {"middle", {{swim, 1900}, {bike, 90000}, {run, 21097.5}}},
        {"long", {{swim, 3800}, {bike, 180000}, {run, 42195}}},
        {"duathlon-sprint", {{run, 5000}, {bike, 20000}, {run, 2500}}},
        {"duathlon-standard", {{run, 10000}, {bike, 40000}, {run, 5000}}},
        {"aquathlon-sprint", {{run, 2500}, {swim, 750}, {run, 1500}}},
        {"aquathlon-standard", {{run, 2500}, {swim, 1000}, {run, 2500}}},
    };
    return all;
}

} // namespace

const char* to_string(LegKind kind) {
    switch (kind) {
    case LegKind::swim:
        return "swim";
    case LegKind::t1:
        return "t1";
    case LegKind::bike:
        return "bike";
    case LegKind::t2:
        return "t2";
    case LegKind::run:
        break;
    }
    return "run";
}

const char* to_string(Sport sport) {
    return to_string(to_leg_kind(sport));
}

bool is_transition(LegKind kind) {
    return kind == LegKind::t1 || kind == LegKind::t2;
}

LegKind to_leg_kind(Sport sport) {
    return sport == Sport::swim ? LegKind::swim : sport == Sport::bike ? LegKind::bike : LegKind::run;
}

std::vector<Leg> preset_legs(const std::string& name) {
    std::vector<Leg> legs;
    for (const auto& preset : presets()) {
        if (preset.name != name)
            continue;
        for (const auto& part : preset.parts) {
            Leg leg;
            leg.kind = to_leg_kind(part.sport);
            leg.distance_m = part.distance_m;
            legs.push_back(leg);
        }
    }
    return with_transitions(std::move(legs));
}

std::vector<std::string> preset_names() {
    std::vector<std::string> names;
    for (const auto& preset : presets())
        names.emplace_back(preset.name);
    return names;
}

std::vector<Leg> with_transitions(std::vector<Leg> sport_legs) {
    std::vector<Leg> legs;
    bool had_t1 = false;
    for (auto& next : sport_legs) {
        // The second transition is the one off the bike; in a race without a bike, the one after the first.
        if (!legs.empty() && !is_transition(legs.back().kind) && !is_transition(next.kind)) {
            const bool off_the_bike = legs.back().kind == LegKind::bike;
            const bool second = had_t1 && next.kind == LegKind::run;
            Leg transition;
            transition.kind = off_the_bike || second ? LegKind::t2 : LegKind::t1;
            had_t1 = had_t1 || transition.kind == LegKind::t1;
            legs.push_back(transition);
        }
        had_t1 = had_t1 || next.kind == LegKind::t1;
        legs.push_back(std::move(next));
    }
    return legs;
}

std::optional<double> own_start_min(const Event& event) {
    if (!event.start_min)
        return std::nullopt;
    return *event.start_min + event.wave_offset_min + event.delay_min;
}

} // namespace tuck
