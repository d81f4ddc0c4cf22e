#include "page/course.hpp"

#include "say/units.hpp"
#include "tuck/effort.hpp"

#include <cmath>

namespace tuck::page {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t most_points = 400; // wider than any screen draws, our choice

Json profile_of(const Course& course) {
    Json out = Json::array();
    const std::size_t every = course.steps.size() / most_points + 1;
    double along_m = 0;
    for (std::size_t i = 0; i < course.steps.size(); ++i) {
        along_m += course.steps[i].length_m;
        if (i % every == 0 || i + 1 == course.steps.size())
            out.push_back({std::round(along_m) / 1000, std::round(course.steps[i].height_m * 10) / 10});
    }
    return out;
}

} // namespace

Json course_json(const Track& track) {
    const auto course = course_of(track, Sport::bike);
    return {{"name", track.name},
            {"length_m", std::round(track.length_m)},
            {"length", say::distance(track.length_m, Units::metric)},
            {"up_m", std::round(course.climb.up_m)},
            {"profile", course.heights_known ? profile_of(course) : Json::array()},
            {"notes", track.notes}};
}

Json roads(const Event& event, Units units) {
    Json out = Json::array();
    for (std::size_t i = 0; i < event.legs.size(); ++i) {
        const auto& leg = event.legs[i];
        if (leg.kind != LegKind::bike && leg.kind != LegKind::run)
            continue;
        Json stations = Json::array();
        for (const auto& station : leg.stations)
            stations.push_back({{"km", station.km},
                                {"serves", station.serves},
                                {"form", station.form == ServedIn::cup ? "cup" : "bottle"},
                                {"text", say::road_mark(station.km, units)}});
        Json road{{"leg_index", i},   {"leg", to_string(leg.kind)}, {"length_km", leg.distance_m / 1000},
                  {"laps", leg.laps}, {"profile", Json::array()},   {"stations", stations}};
        if (leg.track) {
            const auto course = course_of(*leg.track, leg.kind == LegKind::bike ? Sport::bike : Sport::run);
            if (course.heights_known)
                road["profile"] = profile_of(course);
        }
        out.push_back(road);
    }
    return out;
}

} // namespace tuck::page
