#include "schedule/own_moments.hpp"

#include "schedule/slots.hpp"
#include "tuck/error.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::schedule {

namespace {

constexpr double before_dismount_s = 5 * 60, before_finish_s = 10 * 60; // where a rhythm ends by itself
constexpr double station_near_km = 0.06; // kilometres are printed to one decimal

/// A kilometre, or the station that stands there.
LegMoment at_km(const Setting& now, const OwnLine& line, size_t leg, double km) {
    const auto& way = now.effort.legs[leg];
    if (km * 1000 > way.distance_m)
        fail_own_line(line.said,
                      fmt::format("the {} has {:.1f} km", to_string(way.kind), way.distance_m / 1000));
    for (const auto& station : stations_of(now.event, now.effort, leg))
        if (std::abs(station.km - km) < station_near_km)
            km = station.km;
    return {time_at_s(way, km), km};
}

void set_window(const OwnLine& line, const std::vector<LegMoment>& at, Line& out) {
    if (at.empty())
        return;
    if (line.from_s || line.from_km)
        out.window.from = at.front();
    if (line.to_s || line.to_km)
        out.window.to = at.back();
}

void move_nearest(double to_s, const LegEffort& way, std::vector<LegMoment>& at, Line& out) {
    const auto nearest =
        std::min_element(at.begin(), at.end(), [to_s](const LegMoment& a, const LegMoment& b) {
            return std::abs(a.at_s - to_s) < std::abs(b.at_s - to_s);
        });
    if (nearest == at.end())
        return;
    const bool ahead = to_s < nearest->at_s;
    *nearest = {to_s, km_at(way, to_s)};
    out.beside.push_back(
        {ahead ? Beside::Kind::before : Beside::Kind::after, to_s, "busy stretch", nearest->km});
}

std::vector<Station> way_stations(const Setting& now, size_t leg) {
    return now.effort.legs[leg].kind == LegKind::run ? stops(now, leg)
                                                     : stations_of(now.event, now.effort, leg);
}

std::vector<LegMoment> at_stations(const Setting& now, const OwnLine& line, size_t leg, Line& out) {
    const auto stations = way_stations(now, leg);
    if (stations.empty())
        fail_own_line(line.said, "this leg has no stations; name them in the event, or ask for typical ones");
    out.rhythm = {Rhythm::Kind::stations, 0, line.step};
    out.by_km = true;
    size_t first = static_cast<size_t>(line.step) - 1;
    if (line.from_km || line.from_s) {
        const double from = line.from_km ? *line.from_km : km_at(now.effort.legs[leg], *line.from_s);
        for (first = 0; first < stations.size() && stations[first].km < from - station_near_km;)
            ++first;
    }
    const double to = line.to_km  ? *line.to_km
                      : line.to_s ? km_at(now.effort.legs[leg], *line.to_s)
                                  : stations.back().km;
    std::vector<LegMoment> at;
    for (size_t i = first; i < stations.size() && stations[i].km <= to + station_near_km;
         i += static_cast<size_t>(line.step))
        at.push_back({time_at_s(now.effort.legs[leg], stations[i].km), stations[i].km});
    set_window(line, at, out);
    return at;
}

std::vector<LegMoment> on_beats(const Setting& now, const OwnLine& line, size_t leg, Line& out) {
    const auto& way = now.effort.legs[leg];
    out.rhythm = {Rhythm::Kind::every, line.every_s, 1};
    const bool last = leg + 1 == now.effort.legs.size();
    const double end = way.time.p50_s - (way.kind == LegKind::bike ? before_dismount_s
                                         : last                    ? before_finish_s
                                                                   : 0);
    const double from = line.from_s    ? *line.from_s
                        : line.from_km ? time_at_s(way, *line.from_km)
                                       : line.every_s.count();
    const double to = line.to_s ? *line.to_s : line.to_km ? time_at_s(way, *line.to_km) : end;
    std::vector<LegMoment> at;
    const double rounding_s = line.to_s || line.to_km ? 30 : 0; // moments are typed in whole minutes
    double s = from;
    for (; s <= to + rounding_s && s <= way.time.p50_s; s += line.every_s) {
        const auto skips = [&](double skipped) { return std::abs(skipped - s) < 30; };
        if (std::none_of(line.left_out_s.begin(), line.left_out_s.end(), skips))
            at.push_back({s, km_at(way, s)});
        else
            out.beside.push_back({Beside::Kind::left_out, s, "", 0});
    }
    for (const double moved : line.moved_s)
        move_nearest(moved, way, at, out);
    set_window(line, at, out);
    out.goes_on_every_s = line.to_s || line.to_km || way.kind != LegKind::bike ? 0 : line.every_s.count();
    out.goes_on_from_s = out.goes_on_every_s > 0 ? s : 0;
    return at;
}

} // namespace

void fail_own_line(const std::string& said, const std::string& what) {
    throw Error("own lines", "", fmt::format("\"{}\": {}", said, what));
}

std::vector<LegMoment> own_moments(const Setting& now, const OwnLine& line, size_t leg, Line& out) {
    const auto& way = now.effort.legs[leg];
    std::vector<LegMoment> at;
    if (is_transition(way.kind))
        at.push_back({way.time.p50_s / 2, 0});
    else if (line.when == OwnLine::When::stations)
        at = at_stations(now, line, leg, out);
    else if (line.when == OwnLine::When::every)
        at = on_beats(now, line, leg, out);
    else {
        for (const double s : line.at_s)
            at.push_back({s, km_at(way, s)});
        for (const double km : line.at_km)
            at.push_back(at_km(now, line, leg, km));
        out.by_km = !line.at_km.empty();
    }
    if (at.empty())
        fail_own_line(line.said, "never comes on this leg");
    for (const auto& moment : at)
        if (moment.at_s < 0 || moment.at_s > way.time.p50_s)
            fail_own_line(line.said, fmt::format("the {} is over before", to_string(way.kind)));
    return at;
}

} // namespace tuck::schedule
