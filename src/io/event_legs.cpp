#include "io/event_legs.hpp"

#include "io/athlete_file.hpp"
#include "io/event_fields.hpp"
#include "io/field_reader.hpp"
#include "io/gpx.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::io {

namespace {

/// A sport leg as written, and the time of the transition after it.
struct WrittenLeg {
    Leg leg;
    std::string place;
    std::optional<double> transition_s;
    std::string transition_place;
};

/// "swim 0.75 km, bike 20 km, run 5 km".
std::string in_words(const std::vector<Leg>& legs) {
    std::vector<std::string> parts;
    for (const auto& leg : legs)
        if (!is_transition(leg.kind))
            parts.push_back(leg.distance_m > 0
                                ? fmt::format("{} {:g} km", to_string(leg.kind), leg.distance_m / 1000)
                                : to_string(leg.kind));
    return fmt::format("{}", fmt::join(parts, ", "));
}

/// A fault of something inside the leg.
void fault_at(Node& leg, const std::string& place, const std::string& text) {
    leg.faults().push_back({leg.file(), leg.pointer() + "/" + place, text});
}

/// The stations of a leg, lap after lap, in the order of the road.
std::vector<Station> stations_of(const std::vector<WrittenStation>& written, Node& leg, double distance_m) {
    std::vector<Station> stations;
    double last_km = -1;
    for (std::size_t i = 0; i < written.size(); ++i) {
        const auto& [station, laps_given, lap_km_given] = written[i];
        const auto fault = [&](const char* key, const std::string& text) {
            fault_at(leg, fmt::format("stations/{}/{}", i, key), text);
        };
        const int laps = laps_given.value_or(1);
        const double lap_km = lap_km_given.value_or(0);
        if (laps_given.has_value() != lap_km_given.has_value())
            fault(laps_given ? "lap_km" : "laps", "is missing");
        if (station.km <= last_km)
            fault("km", fmt::format("{:g} does not come after {:g}; stations stand in the order of the road",
                                    station.km, last_km));
        last_km = station.km;
        const double end_km = station.km + (laps - 1) * lap_km;
        if (distance_m > 0 && end_km > distance_m / 1000)
            fault("km", fmt::format("{:g} km is beyond the end of the leg; allowed up to {:g} km", end_km,
                                    distance_m / 1000));
        for (int lap = 0; lap < laps; ++lap) {
            stations.push_back(station);
            stations.back().km += lap * lap_km;
        }
    }
    std::stable_sort(stations.begin(), stations.end(),
                     [](const Station& a, const Station& b) { return a.km < b.km; });
    for (size_t i = 1; i < stations.size(); ++i)
        if (stations[i].km - stations[i - 1].km < 0.001)
            leg.fault("stations", fmt::format("two stations stand at {:g} km", stations[i].km));
    return stations;
}

/// The own bag of a bike leg (bottles) or a run (gels).
std::optional<SpecialNeeds> special_needs_of(const WrittenCourse& written, Node& node, double distance_m) {
    if (!written.bike_bag && !written.run_bag)
        return std::nullopt;
    SpecialNeeds needs;
    needs.km = written.bike_bag ? written.bike_bag->km : written.run_bag->km;
    if (written.bike_bag)
        needs.bottles_ml = written.bike_bag->bottles_ml.value_or(std::vector<double>{});
    else
        needs.gels = written.run_bag->gels;
    if (distance_m > 0 && needs.km >= distance_m / 1000)
        fault_at(
            node, "special_needs/km",
            fmt::format("{:g} km is not on the leg; allowed below {:g} km", needs.km, distance_m / 1000));
    return needs;
}

/// A course and the distance that is said of it may differ by this factor; beyond it laps are missing or the
/// file is the wrong one. Our choice: real courses stray by 10 %.
constexpr double course_may_differ = 1.25;

bool fits(double course_m, double distance_m) {
    return course_m <= distance_m * course_may_differ && course_m >= distance_m / course_may_differ;
}

/// The course file that an event names, as handed over, or from the disk.
Track named_course(const EventDocument& document, const std::string& name) {
    if (!document.files)
        return read_gpx((std::filesystem::path(document.file).parent_path() / name).string());
    const auto given = document.files->courses.find(name);
    if (given == document.files->courses.end())
        throw InputError(name, "", "was not given; open that file too");
    return given->second;
}

/// The track of a course file. The leg then is as long as its track.
void read_track(const WrittenCourse& written, Node& node, const EventDocument& document, Leg& leg) {
    leg.laps = written.course_laps.value_or(1);
    if (written.course_laps && !node.has("course_gpx"))
        node.missing("course_gpx");
    if (written.course_gpx.empty()) {
        if (node.has("course_gpx"))
            node.fault("course_gpx", "must be the name of a GPX file");
        return;
    }
    try {
        leg.track = named_course(document, written.course_gpx);
    } catch (const InputError& error) {
        return node.fault("course_gpx", line_of(error.faults.front()));
    }
    const double course_m = leg.track->length_m * leg.laps;
    const double longest_m = longest_leg_m(sport_of(leg.kind));
    if (leg.distance_m > 0 && !fits(course_m, leg.distance_m))
        node.fault("course_gpx",
                   fmt::format("is a course of {:.1f} km{} for a leg of {:g} km; give the laps in "
                               "\"course_laps\" (--{}-laps), or the course of this leg",
                               course_m / 1000, leg.laps > 1 ? fmt::format(" in {} laps", leg.laps) : "",
                               leg.distance_m / 1000, to_string(leg.kind)));
    else if (course_m > longest_m)
        node.fault("course_laps", fmt::format("make a leg of {:.0f} km; allowed up to {:g} km",
                                              course_m / 1000, longest_m / 1000));
    leg.distance_m = course_m;
}

void read_course(Node& node, const EventDocument& document, Leg& leg) {
    WrittenCourse written;
    written.leg = leg.kind;
    FieldReader reader(node);
    visit_fields(written, reader);
    leg.time_s = written.time_s;
    leg.cutoff_s = written.cutoff_s;
    if (is_transition(leg.kind) || leg.kind == LegKind::swim)
        return;
    read_track(written, node, document, leg);
    leg.ascent_m = written.ascent_m;
    leg.wind_m_s = written.wind_m_s;
    leg.wind_from_deg = written.wind_from_deg;
    leg.stations = stations_of(written.stations, node, leg.distance_m);
    leg.special_needs = special_needs_of(written, node, leg.distance_m);
}

void read_transition(Node& node, std::vector<WrittenLeg>& legs) {
    node.flag("transition");
    const auto time = time_in(node, "time", longest_transition_s);
    node.finish();
    if (legs.empty() || !legs.back().transition_place.empty()) {
        node.fault("", "a transition stands between two legs");
        return;
    }
    legs.back().transition_s = time;
    legs.back().transition_place = node.pointer();
}

WrittenLeg read_sport_leg(Node& node, const EventDocument& document, bool distance_known) {
    WrittenLeg written;
    written.place = node.pointer();
    node.flag("transition");
    const auto sport = node.choice<Sport>("sport", sport_words());
    if (!node.has("sport"))
        node.fault("sport", "is missing; allowed: swim, bike, run (or \"transition\": true)");
    written.leg.kind = to_leg_kind(sport.value_or(Sport::run));
    const double longest = longest_leg_m(sport.value_or(Sport::bike));
    written.leg.distance_m = node.number("distance_m", shortest_leg_m, longest, "m").value_or(0);
    read_course(node, document, written.leg);
    node.finish();
    if (!distance_known && !node.has("distance_m") && !node.has("time") && !node.has("course_gpx"))
        node.fault("", "give \"distance_m\" or \"time\"");
    return written;
}

std::vector<WrittenLeg> read_written(Node& root, std::vector<Node>& nodes, const EventDocument& document,
                                     bool distance_known) {
    std::vector<WrittenLeg> legs;
    for (auto& node : nodes) {
        if (node.has("transition") && node.flag("transition").value_or(false))
            read_transition(node, legs);
        else
            legs.push_back(read_sport_leg(node, document, distance_known));
    }
    if (!legs.empty() && !legs.back().transition_place.empty())
        root.fault("legs", "ends with a transition; a transition stands between two legs");
    return legs;
}

std::vector<Leg> joined(const std::vector<WrittenLeg>& written, std::vector<std::string>& places) {
    std::vector<Leg> sport_legs;
    for (const auto& one : written)
        sport_legs.push_back(one.leg);
    auto legs = with_transitions(sport_legs);
    places.clear();
    size_t next = 0;
    for (auto& leg : legs) {
        if (is_transition(leg.kind)) {
            leg.time_s = written[next - 1].transition_s;
            places.push_back(written[next - 1].transition_place);
        } else {
            places.push_back(written[next++].place);
        }
    }
    return legs;
}

/// Takes the distances of the named event over; false where the legs are other ones.
bool agree(std::vector<Leg>& legs, const std::vector<Leg>& preset) {
    if (legs.size() != preset.size())
        return false;
    for (size_t i = 0; i < legs.size(); ++i) {
        if (legs[i].kind != preset[i].kind)
            return false;
        if (legs[i].track && fits(legs[i].distance_m, preset[i].distance_m))
            continue;
        if (legs[i].distance_m > 0 && std::abs(legs[i].distance_m - preset[i].distance_m) > 1)
            return false;
        legs[i].distance_m = preset[i].distance_m;
    }
    return true;
}

void read_course_of_preset(Node& course, const EventDocument& document, std::vector<Leg>& legs,
                           std::vector<std::string>& places) {
    for (const auto kind : {LegKind::swim, LegKind::t1, LegKind::bike, LegKind::t2, LegKind::run}) {
        auto node = course.object(to_string(kind));
        if (!node)
            continue;
        std::vector<size_t> found;
        for (size_t i = 0; i < legs.size(); ++i)
            if (legs[i].kind == kind)
                found.push_back(i);
        if (found.size() != 1) {
            course.fault(to_string(kind),
                         found.empty()
                             ? "the event has no such leg"
                             : "the event has more than one such leg; describe them under \"legs\"");
            continue;
        }
        read_course(*node, document, legs[found[0]]);
        places[found[0]] = node->pointer();
        node->finish();
    }
    course.finish();
}

/// One bag a sport: its bottles are named after those on the bike, once.
void check_bags(Node& root, const Event& event) {
    for (const LegKind kind : {LegKind::bike, LegKind::run})
        if (std::count_if(event.legs.begin(), event.legs.end(),
                          [kind](const Leg& leg) { return leg.kind == kind && leg.special_needs; }) > 1)
            root.fault("legs", fmt::format("give more than one {} leg \"special_needs\"; allowed: one",
                                           to_string(kind)));
}

} // namespace

std::vector<std::string> read_legs(Node& root, const EventDocument& document, Event& event) {
    std::vector<std::pair<std::string, std::string>> names;
    for (const auto& name : preset_names())
        names.emplace_back(name, name);
    event.preset = root.choice<std::string>("distance", names).value_or("");
    const auto faults_before = root.faults().size();
    auto nodes = root.objects("legs", most_legs);
    if (root.has("legs") && nodes.empty() && root.faults().size() == faults_before)
        root.fault("legs", "holds no leg; allowed: at least one swim, bike or run");
    auto course = root.object("course");
    std::vector<std::string> places;
    if (!root.has("distance") && !root.has("legs")) {
        root.fault("distance", "is missing; give a \"distance\" or \"legs\"");
        return places;
    }
    const auto preset = preset_legs(event.preset);
    if (!root.has("legs")) {
        event.legs = preset;
        places.assign(event.legs.size(), "");
        if (course)
            read_course_of_preset(*course, document, event.legs, places);
        return places;
    }
    event.legs = joined(read_written(root, nodes, document, !preset.empty()), places);
    check_bags(root, event);
    const std::string written = in_words(event.legs);
    if (!preset.empty() && !event.legs.empty() && !agree(event.legs, preset))
        root.fault("legs",
                   fmt::format("({}) do not agree with {} \"{}\" ({}); leave one of the two out", written,
                               document.place_of("/distance"), event.preset, in_words(preset)));
    if (course)
        root.fault("course", "belongs to a named distance; here, describe the course under \"legs\"");
    return places;
}

} // namespace tuck::io
