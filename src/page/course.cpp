#include "page/course.hpp"

#include "say/units.hpp"
#include "tuck/effort.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

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

/// Where the document speaks of a leg: one of its own list, or the only one of its sport.
std::string place_of(const Event& event, std::size_t index, const nlohmann::json& document) {
    if (!document.contains("legs"))
        return std::string("/course/") + to_string(event.legs[index].kind);
    std::size_t before = 0; // legs of the event that are no transitions
    for (std::size_t i = 0; i < index; ++i)
        before += !is_transition(event.legs[i].kind);
    const auto& legs = document.at("legs");
    for (std::size_t i = 0; i < legs.size(); ++i)
        if (!legs[i].value("transition", false) && before-- == 0)
            return fmt::format("/legs/{}", i);
    return "";
}

/// One pass of a written station.
struct Pass {
    double km = 0, offset_km = 0;
    std::size_t of = 0; // place in the document's list
    int laps = 1;
};

/// Of every station that the document holds, in the order of the road, as the reader of events lays them out.
std::vector<Pass> passes_of(const nlohmann::json& document, const std::string& place) {
    const nlohmann::json::json_pointer at(place + "/stations");
    std::vector<Pass> out;
    if (place.empty() || !document.contains(at))
        return out;
    const auto& written = document.at(at);
    for (std::size_t i = 0; i < written.size(); ++i) {
        const int laps = written[i].value("laps", 1);
        for (int lap = 0; lap < laps; ++lap) {
            const double offset_km = lap * written[i].value("lap_km", 0.0);
            out.push_back({written[i].value("km", 0.0) + offset_km, offset_km, i, laps});
        }
    }
    std::stable_sort(out.begin(), out.end(), [](const Pass& a, const Pass& b) { return a.km < b.km; });
    return out;
}

Json stations_json(const Leg& leg, const std::vector<Pass>& passes, const Reader& reader) {
    Json out = Json::array();
    for (std::size_t i = 0; i < leg.stations.size(); ++i) {
        const auto& station = leg.stations[i];
        out.push_back({{"km", station.km},
                       {"serves", station.serves},
                       {"form", station.form == ServedIn::cup ? "cup" : "bottle"},
                       {"text", reader.road_mark(station.km)}});
        if (passes.size() == leg.stations.size())
            out.back().update(
                {{"of", passes[i].of}, {"offset_km", passes[i].offset_km}, {"laps", passes[i].laps}});
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

Json roads(const Event& event, const nlohmann::json& document, const Reader& reader) {
    Json out = Json::array();
    for (std::size_t i = 0; i < event.legs.size(); ++i) {
        const auto& leg = event.legs[i];
        if (leg.kind != LegKind::bike && leg.kind != LegKind::run)
            continue;
        const auto place = place_of(event, i, document);
        Json road{{"leg_index", i},
                  {"leg", to_string(leg.kind)},
                  {"at", place},
                  {"length_km", leg.distance_m / 1000},
                  {"laps", leg.laps},
                  {"profile", Json::array()},
                  {"stations", stations_json(leg, passes_of(document, place), reader)}};
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
