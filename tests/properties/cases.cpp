#include "properties/cases.hpp"

#include "io/event_legs.hpp"

#include <algorithm>
#include <set>

namespace tuck::properties {

namespace {

using Json = io::Json;

/// Three invented roads: flat, rolling, and one with ramps of 11 %.
std::shared_ptr<const NamedFiles> roads() {
    static const auto made = [] {
        auto files = std::make_shared<NamedFiles>();
        for (const auto& [name, length_m, height_m] :
             {std::tuple{"flat.gpx", 10e3, 0.0}, {"rolling.gpx", 20e3, 40.0}, {"alpine.gpx", 30e3, 350.0}}) {
            Track track;
            track.name = name;
            track.length_m = length_m;
            track.pieces.emplace_back();
            for (double m = 0; m <= length_m; m += 40) {
                const double turn = m / length_m * 6.283185307;
                const double radius_deg = length_m / 6.283185307 / 111195;
                track.pieces[0].push_back({radius_deg * std::sin(turn), radius_deg * (1 - std::cos(turn)), m,
                                           500 - height_m * std::cos(turn * (height_m > 100 ? 1 : 4)) +
                                               height_m / 10 * std::sin(turn * 17)});
            }
            files->courses[name] = track;
        }
        return files;
    }();
    return made;
}

class Dealer {
public:
    Dealer(Draw& draw, Kind kind, const Pantry& pantry) : draw_(draw), kind_(kind), pantry_(pantry) {}

    Json event() {
        Json out = Drawer(draw_, kind_, pantry_).drawn(Event{});
        out["schema"] = "tuck.event/1";
        out["athlete"] = Drawer(draw_, kind_, pantry_).drawn(io::AthleteInput{});
        if (draw_.chance(0.6))
            put_preset(out);
        else
            out["legs"] = own_legs();
        mend(out);
        return out;
    }

    Edits edits(bool rides) {
        Edits out;
        const auto food = [this] {
            auto at = pantry_.foods.begin();
            std::advance(at, static_cast<std::ptrdiff_t>(draw_.below(pantry_.foods.size())));
            return *at;
        };
        if (draw_.chance(0.1))
            out.without = {draw_.chance(0.5) ? food().first : food().second.group};
        if (draw_.chance(0.08))
            for (auto n = 1 + draw_.below(4); n > 0; --n)
                out.only.push_back(draw_.chance(0.5) ? food().first : food().second.group);
        if (draw_.chance(0.08))
            out.bike_rhythm = draw_.pick(std::vector<std::string>{"10min", "15min", "20min"});
        if (draw_.chance(0.05))
            out.swim = "cancelled";
        if (draw_.chance(0.05))
            out.delay = fmt::format("{}min", draw_.whole(1, 360));
        if (draw_.chance(0.1))
            for (auto n = 1 + draw_.below(3); n > 0; --n)
                out.pins.push_back(rides && draw_.chance(0.6)
                                       ? fmt::format("{}:{:02}={}", draw_.below(5), draw_.below(60), eaten())
                                       : fmt::format("{}km={}", draw_.whole(1, 42), eaten()));
        return out;
    }

private:
    std::string eaten() {
        std::vector<std::string> ids;
        for (const auto& [id, food] : pantry_.foods)
            if (food.form == Form::gel || food.form == Form::bar || food.form == Form::chew ||
                food.form == Form::solid)
                ids.push_back(id);
        return draw_.pick(ids);
    }

    void put_preset(Json& out) {
        const auto name = draw_.pick(preset_names());
        out["distance"] = name;
        const auto legs = preset_legs(name);
        Json course = Json::object();
        for (const auto& leg : legs)
            if (draw_.chance(0.5) && std::count_if(legs.begin(), legs.end(), [&leg](const Leg& other) {
                                         return other.kind == leg.kind;
                                     }) == 1)
                course[to_string(leg.kind)] = course_of_leg(leg.kind, leg.distance_m);
        if (!course.empty())
            out["course"] = course;
    }

    Json own_legs() {
        static const std::vector<std::vector<LegKind>> shapes{
            {LegKind::bike},
            {LegKind::run},
            {LegKind::swim},
            {LegKind::bike, LegKind::run},
            {LegKind::swim, LegKind::run},
            {LegKind::swim, LegKind::bike},
            {LegKind::run, LegKind::bike, LegKind::run},
            {LegKind::swim, LegKind::bike, LegKind::run},
            {LegKind::swim, LegKind::bike, LegKind::run, LegKind::bike, LegKind::run}};
        auto shape = draw_.pick(shapes);
        if (kind_ == Kind::extreme && draw_.chance(0.3))
            for (shape.clear(); shape.size() < (draw_.chance(0.2) ? io::most_legs : 6) && draw_.chance(0.85);)
                shape.push_back(draw_.pick(std::vector{LegKind::swim, LegKind::bike, LegKind::run}));
        if (shape.empty())
            shape = {LegKind::bike};
        Json out = Json::array();
        std::set<LegKind> bags;
        for (const auto kind : shape) {
            if (!out.empty() && draw_.chance(0.1) && out.size() + 1 < io::most_legs)
                out.push_back({{"transition", true}, {"time", Drawer::text_of(draw_.scaled(1, 900))}});
            out.push_back(own_leg(kind));
            if (out.back().contains("special_needs") && !bags.insert(kind).second)
                out.back().erase("special_needs"); // one bag a sport
        }
        return out;
    }

    Json own_leg(LegKind kind) {
        const Sport sport = io::sport_of(kind);
        const double longest_m = io::longest_leg_m(sport);
        double m = sport == Sport::swim   ? draw_.scaled(200, 4000)
                   : sport == Sport::bike ? draw_.scaled(5e3, 200e3)
                                          : draw_.scaled(1e3, 60e3);
        if (kind_ == Kind::extreme)
            m = draw_.chance(0.1)    ? io::shortest_leg_m
                : draw_.chance(0.05) ? longest_m
                                     : draw_.scaled(io::shortest_leg_m, longest_m);
        m = std::round(m);
        Json leg = course_of_leg(kind, m);
        leg["sport"] = to_string(sport);
        if (draw_.chance(0.1)) {
            leg = {{"sport", to_string(sport)},
                   {"time", Drawer::text_of(draw_.scaled(kind_ == Kind::extreme ? 1 : 900,
                                                         kind_ == Kind::extreme ? 24 * 3600 : 5 * 3600))}};
        } else if (sport != Sport::swim && draw_.chance(0.06)) {
            leg = {
                {"sport", to_string(sport)},
                {"course_gpx", draw_.pick(std::vector<std::string>{"flat.gpx", "rolling.gpx", "alpine.gpx"})},
                {"course_laps", draw_.whole(1, sport == Sport::bike ? 4 : 2)}};
        } else {
            leg["distance_m"] = m;
        }
        return leg;
    }

    Json course_of_leg(LegKind kind, double m) {
        Drawer drawer(draw_, kind_, pantry_);
        drawer.distance_m = m;
        drawer.sport = io::sport_of(kind);
        drawer.transition = is_transition(kind);
        io::WrittenCourse any;
        any.leg = kind;
        io::visit_fields(any, drawer);
        Json out = drawer.out;
        if (kind_ == Kind::plausible && out.contains("ascent_m"))
            out["ascent_m"] = std::min(out["ascent_m"].get<double>(), 0.04 * m);
        if (out.contains("special_needs")) {
            out["special_needs"]["km"] = std::max(0.1, std::floor(m * draw_.between(0.1, 0.95)) / 1000);
            if (m < 200)
                out.erase("special_needs");
        }
        if ((kind == LegKind::bike || kind == LegKind::run) && draw_.chance(0.4))
            out["stations"] = stations(kind, m / 1000);
        return out;
    }

    Json stations(LegKind kind, double leg_km) {
        const bool plain = kind_ == Kind::plausible;
        const double step_km = kind == LegKind::bike ? draw_.between(8, 30) : draw_.between(1, 5);
        Json out = Json::array();
        double km = plain ? step_km : draw_.between(0, leg_km / 2);
        for (; km <= leg_km && out.size() < 200; km += plain ? step_km : draw_.scaled(0.002, 20)) {
            Json station = Drawer(draw_, kind_, pantry_).drawn(io::WrittenStation{});
            station["km"] = std::floor(km * 1000) / 1000;
            out.push_back(station);
        }
        if (out.size() == 1 && leg_km > 2 * km + 0.2 && km > 0.2) {
            out[0]["laps"] = 2;
            out[0]["lap_km"] = std::floor(leg_km * 500) / 1000;
            if (out[0]["km"].get<double>() + out[0]["lap_km"].get<double>() > leg_km)
                out[0].erase("laps"), out[0].erase("lap_km");
        }
        return out;
    }

    /// What one field says of another.
    void mend(Json& event) {
        auto& athlete = event["athlete"];
        if (athlete.contains("like") && athlete.contains("avoid")) {
            auto& avoid = athlete["avoid"];
            for (const auto& word : athlete["like"])
                avoid.erase(std::remove(avoid.begin(), avoid.end(), word), avoid.end());
        }
        if (!event.contains("own_lines"))
            event.erase("fill");
        auto& weather = event["weather"];
        if (!weather.contains("hourly"))
            return;
        std::map<double, Json> by_hour;
        for (const auto& row : weather["hourly"])
            by_hour[row["hour"].get<double>()] = row;
        weather["hourly"] = Json::array();
        for (const auto& [hour, row] : by_hour)
            weather["hourly"].push_back(row);
        if (!event.contains("start_local"))
            event["start_local"] = "07:30";
    }

    Draw& draw_;
    Kind kind_;
    const Pantry& pantry_;
};

} // namespace

std::optional<Case> case_of(Kind kind, std::uint64_t seed, std::uint64_t number,
                            const std::shared_ptr<const Pantry>& pantry, std::string& why) {
    constexpr int most_draws = 40;
    for (int n = 0; n < most_draws; ++n) {
        Draw start((seed << 1) + (kind == Kind::extreme ? 1 : 0));
        Draw draw(start.next() ^
                  (number * most_draws + static_cast<std::uint64_t>(n)) * 0xd1342543de82ef95ULL);
        Dealer dealer(draw, kind, *pantry);
        const Json event = dealer.event();
        const auto text = event.dump();
        Ask ask;
        ask.event = Document("case.json", text);
        ask.files = roads();
        ask.known_pantry = pantry;
        ask.edits = dealer.edits(text.find("bike") != std::string::npos);
        try {
            return Case{read_ask(ask), text, ask.edits, n};
        } catch (const Error& error) {
            why = error.what();
        }
    }
    return std::nullopt;
}

} // namespace tuck::properties
