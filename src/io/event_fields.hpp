// The fields of an event but for its legs: those stand in event_legs, where sport and place decide.
#pragma once

#include "io/athlete_file.hpp"
#include "io/fields.hpp"
#include "io/units.hpp"
#include "tuck/event.hpp"

namespace tuck::io {

inline const Words<ServedIn>& served_words() {
    static const Words<ServedIn> words{{"cup", ServedIn::cup}, {"bottle", ServedIn::bottle}};
    return words;
}

template <class V>
void visit_fields(HourlyWeather& at, V& v) {
    v.number({"hour", nullptr, "local clock; past midnight goes on counting"}, at.hour, nullptr, {0, 48, "h"},
             Need::required);
    v.number({"temperature_c", nullptr, "of the air"}, at.temperature_c, temperature_c, any_air_c,
             Need::required);
    v.number({"humidity_pct", nullptr, "absent: the day's vapour pressure is kept"}, at.humidity_pct,
             humidity_pct, any_percent);
    v.number({"wind_m_s", nullptr, "absent: the day's"}, at.wind_m_s, wind_m_s, any_wind_m_s);
    v.number({"sun_w_m2", nullptr, "absent: the day's"}, at.sun_w_m2, nullptr, any_sun_w_m2);
}

template <class V>
void visit_fields(Weather& w, V& v) {
    v.number({"temperature_c", "--temperature", "of the air", "22C, 75F", "TEMPERATURE"}, w.temperature_c,
             temperature_c, any_air_c, Need::required);
    v.number({"humidity_pct", "--humidity", "of the air", "60%", "PERCENT"}, w.humidity_pct, humidity_pct,
             any_percent);
    v.number({"wind_m_s", "--wind", "mean of the wind", "3m/s, 12km/h, 8mph", "SPEED"}, w.wind_m_s, wind_m_s,
             any_wind_m_s);
    v.number({"wind_from_deg", "--wind-from", "where the wind comes from, clockwise from north", "240deg, SW",
              "DIRECTION"},
             w.wind_from_deg, direction_deg, any_direction_deg);
    v.number({"water_temperature_c", "--water", "temperature of the water", "18C, 64F", "TEMPERATURE"},
             w.water_temperature_c, temperature_c, any_water_c);
    v.number(
        {"sun_w_m2", nullptr,
         "global radiation on level ground; absent: what sun or cloud_pct say, else half of a clear sky's"},
        w.sun_w_m2, nullptr, any_sun_w_m2);
    v.number({"cloud_pct", nullptr, "cloud cover; the sun itself outranks it"}, w.cloud_pct, nullptr,
             any_percent);
    v.sun(
        {"sun", "--sun",
         "none, hazy, half or full (0, 0.25, 0.5 or 1 of a clear sky's sun), or radiation; outranks sun_w_m2",
         "half, 600W/m2", "SUN"},
        w);
    v.objects(
        {"hourly", nullptr,
         "the air by the clock, for the body's heat; hours rise, the first and the last are held beyond; "
         "needs start_local"},
        w.hourly, 49);
}

template <class V>
void visit_fields(Kit& kit, V& v) {
    v.volumes({"bike_bottles_ml", "--bottles", "bottles on the bike", "2x750ml or 750ml,500ml", "VOLUMES"},
              kit.bike_bottles_ml, {100, 2000, "ml"}, 6);
    v.number({"run_flask_ml", nullptr, "a flask on the run; 0: none"}, kit.run_flask_ml, volume_ml,
             {0, 2000, "ml"});
    v.whole({"run_gels", nullptr, "gels that a belt or pocket holds"}, kit.run_gels, {0, 20, ""});
}

/// One station as written: what laps make of it is told in event_legs.
struct WrittenStation {
    Station station;
    std::optional<int> laps;
    std::optional<double> lap_km;
};

template <class V>
void visit_fields(WrittenStation& s, V& v) {
    v.number({"km", nullptr, "from the start of the leg; inside the leg, in the order of the road"},
             s.station.km, distance_m, {0, 1000, "km"}, Need::required);
    v.list({"serves", nullptr, "food ids; absent or empty: water"}, s.station.serves, {}, 20);
    v.choice({"form", nullptr, "what it is handed out in"}, s.station.form, served_words());
    v.number({"miss_chance", nullptr, "chance of missing it; absent: the usual one"}, s.station.miss_chance,
             nullptr, {0, 1, "(a chance)"});
    v.whole({"laps", nullptr, "how often the leg passes it"}, s.laps, {1, 100, ""});
    v.number({"lap_km", nullptr, "from one pass to the next"}, s.lap_km, nullptr, {0.1, 1000, "km"});
}

/// The athlete's own special-needs bag, on the bike and on the run.
struct BikeBag {
    double km = 0;
    std::optional<std::vector<double>> bottles_ml;
};
struct RunBag {
    double km = 0;
    int gels = 0;
};
inline constexpr Field bag_km{"km", nullptr, "from the start of the leg, before its end"};
inline constexpr Range bag_range{0.1, 1000, "km"};

template <class V>
void visit_fields(BikeBag& bag, V& v) {
    v.number(bag_km, bag.km, nullptr, bag_range, Need::required);
    v.volumes({"bottles_ml", nullptr, "bottles of the athlete's own drink; B3, B4 after B1, B2 on the bike"},
              bag.bottles_ml, {100, 2000, "ml"}, 3, Need::required);
}

template <class V>
void visit_fields(RunBag& bag, V& v) {
    v.number(bag_km, bag.km, nullptr, bag_range, Need::required);
    v.whole({"gels", nullptr, "as many as it may hold; they go into the belt"}, bag.gels, {1, 20, ""},
            Need::required);
}

/// What may be said of a leg besides sport and distance. Nobody climbs or is served on a swim.
struct WrittenCourse {
    LegKind leg = LegKind::bike;
    std::optional<double> time_s, cutoff_s;
    std::string course_gpx;
    std::optional<int> course_laps;
    std::optional<double> ascent_m;
    std::optional<double> wind_m_s, wind_from_deg;
    std::vector<WrittenStation> stations;
    std::optional<BikeBag> bike_bag;
    std::optional<RunBag> run_bag;
};

template <class V>
void visit_fields(WrittenCourse& c, V& v) {
    v.time({"time", nullptr, "expected; outranks every estimate"}, c.time_s,
           is_transition(c.leg) ? longest_transition_s : longest_event_s);
    if (is_transition(c.leg))
        return;
    v.time({"cutoff", nullptr, "time since the athlete's own start by which the leg must be over"},
           c.cutoff_s, longest_event_s);
    if (c.leg == LegKind::swim)
        return;
    v.words(
        {"course_gpx", nullptr,
         "GPX 1.1 file of the course, seen from this file's folder; its length and heights take the place of "
         "distance and ascent"},
        c.course_gpx, 200);
    v.whole({"course_laps", nullptr, "how often the leg goes round the GPX course"}, c.course_laps,
            {1, 100, ""});
    v.number({"ascent_m", nullptr, "all climbing of the leg"}, c.ascent_m, distance_m, {0, 20000, "m"});
    v.number({"wind_m_s", nullptr, "on this leg; absent: the weather's"}, c.wind_m_s, wind_m_s, any_wind_m_s);
    v.number({"wind_from_deg", nullptr, "where the wind comes from, clockwise from north"}, c.wind_from_deg,
             direction_deg, any_direction_deg);
    v.objects({"stations", nullptr, "aid stations in the order of the road"}, c.stations, 200);
    const Field bag{"special_needs", nullptr,
                    "the athlete's own special-needs bag; it may be lost: the plan never counts on it alone"};
    if (c.leg == LegKind::bike)
        v.object(bag, c.bike_bag);
    else
        v.object(bag, c.run_bag);
}

template <class V>
void visit_fields(Event& e, V& v) {
    v.words({"name", "--event-name", "name on the card"}, e.name, 60);
    v.choice({"session", nullptr, "a race or a training session"}, e.race,
             {{"race", true}, {"training", false}});
    v.choice({"stations", "--stations", "typical: assume the usual aid stations where none are given", "",
              "WORD", "stations"},
             e.station_policy, {{"typical", StationPolicy::typical}});
    v.object({"weather", nullptr, "air and water on the day"}, e.weather);
    v.object({"kit", nullptr, "what can carry food and drink; absent: the usual kit for the distance"},
             e.kit);
    v.day({"date", "--date", "day of the event", "2027-06-13", "DATE"}, e.date);
    v.number({"latitude", nullptr,
              "degrees, north above 0; with date and start_local: the sun's height along the day"},
             e.latitude_deg, nullptr, {-90, 90, "degrees"});
    v.number(
        {"longitude", nullptr,
         "degrees, east above 0; counts only with utc_offset_h; without them the sun is highest at 13:00"},
        e.longitude_deg, nullptr, {-180, 180, "degrees"});
    v.number({"utc_offset_h", nullptr,
              "local clock less Universal Time, hours: 2 for Central European Summer Time"},
             e.utc_offset_h, nullptr, {-12, 14, "h"});
    v.time({"cutoff", nullptr, "time since the athlete's own start by which all must be over"}, e.cutoff_s,
           longest_event_s);
    v.clock({"start_local", "--start", "local time of the start", "07:30, 7:30am", "CLOCK"}, e.start_min);
    v.clock({"transition_closes", nullptr, "local time at which transition shuts"}, e.transition_closes_min);
    v.words({"wave", nullptr, "start wave", "", "", "wave"}, e.wave, 20);
    v.number({"wave_offset_min", nullptr, "from the first start to this wave's", "", "", "wave_offset_min"},
             e.wave_offset_min, minutes, {0, 720, "min"}, Need::optional);
    v.number({"pen_wait_min", nullptr, "wait in the start pen"}, e.pen_wait_min, minutes, {0, 240, "min"},
             Need::optional);
    v.flag({"salt_water", nullptr, "the swim is in the sea"}, e.salt_water);
    v.flag({"draft_legal", nullptr, "riding in a pack is allowed"}, e.draft_legal);
    v.flag({"next_session_within_24_h", nullptr, "another session follows within 24 h"},
           e.next_session_within_24_h);
    v.number(
        {"carb_g_per_h", "--carb", "rate of carbohydrate that is wanted, within the caps", "70g/h", "RATE"},
        e.wanted_carb_g_per_h, rate_g_per_h, {0, 120, "g/h"});
    v.number({"caffeine_mg", nullptr, "caffeine that is wanted on the course, within the caps"},
             e.caffeine_mg, nullptr, {1, 400, "mg"});
    v.moment({"caffeine_at", "--caffeine-at",
              "when the caffeine comes, on the bike's clock, or the run's where nobody rides", "2:30",
              "CLOCK"},
             e.caffeine_at_s);
    v.own_lines({"own_lines", "--take", "a line of your own, taken as it stands",
                 "\"bike every 15min: 3 swallows iso\", \"run each station: 1 cup water\", \"B1: water\"",
                 "LINE"},
                e);
    v.flag({"fill", nullptr, "plan the legs for which own_lines say nothing"}, e.fill);
    v.seed({"seed", "--seed", "of the simulated days (1)", "", "NUMBER"}, e.seed);
    v.whole({"days", "--days", "simulated race days (10000)", "", "NUMBER"}, e.days, {0, 100000, ""});
}

} // namespace tuck::io
