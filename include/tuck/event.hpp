// The event: legs, course, weather, aid stations and what the athlete carries. Plain data.
#pragma once

#include "tuck/course.hpp"
#include "tuck/own_line.hpp"
#include "tuck/quantity.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck {

enum class Sport { swim, bike, run };

/// The place of a leg in the day; `t1` and `t2` are transitions.
enum class LegKind { swim, t1, bike, t2, run };

/// "swim", "t1", "bike", "t2" or "run": the words of the plan contract.
const char* to_string(LegKind kind);
const char* to_string(Sport sport);
bool is_transition(LegKind kind);
LegKind to_leg_kind(Sport sport);

enum class ServedIn { cup, bottle };

/// One aid station, at `km` from the start of its leg. `serves` holds food ids; empty means water.
struct Station {
    double km = 0;
    std::vector<std::string> serves;
    ServedIn form = ServedIn::cup;
    std::optional<double> miss_chance; // 0..1; absent: the usual figure for the leg
};

/// A bag of the athlete's own that lies ready at one point of a leg. It may be lost: never the only source.
struct SpecialNeeds {
    double km = 0;                  // from the start of the leg
    std::vector<double> bottles_ml; // of the own drink, on the bike
    int gels = 0;                   // into the belt, on the run
};

struct Leg {
    LegKind kind = LegKind::bike;
    double distance_m = 0;          // 0: unknown (a session given by time), or a transition
    std::optional<double> time_s;   // a given time outranks every estimate
    std::optional<double> ascent_m; // total climbing; a track knows better; absent: an ordinary road's
    std::vector<Station> stations;
    std::optional<SpecialNeeds> special_needs;
    std::optional<Track> track;          // of one lap
    int laps = 1;                        // of the track
    std::optional<double> wind_m_s;      // on this leg; absent: the weather's
    std::optional<double> wind_from_deg; // clockwise from north
    std::optional<double> cutoff_s;      // since the start: the leg must be over by then
};

/// The weather at one hour of the day, for the body's heat. What is absent: as given for the whole day.
struct HourlyWeather {
    double hour = 0; // local clock, 0..48 (past midnight goes on counting)
    double temperature_c = 20;
    std::optional<double> humidity_pct;
    std::optional<double> wind_m_s;
    std::optional<double> sun_w_m2;
};

/// Air and water on the day. Only the air temperature is required; what is absent is assumed and said.
struct Weather {
    double temperature_c = 20;
    std::optional<double> humidity_pct;
    std::optional<double> wind_m_s;
    std::optional<double> water_temperature_c;
    std::optional<double> wind_from_deg; // where it comes from, clockwise from north
    std::optional<double> sun_w_m2;      // global radiation on level ground, 0..1300
    std::optional<double> sun_share;     // of a clear sky, 0..1; absent like the next: half, said and spread
    std::optional<double> cloud_pct;     // cover, 0..100; the sun itself outranks it
    std::vector<HourlyWeather> hourly;   // rising hours; empty: the day stays as above
};

/// What can carry food and drink. Absent: the usual kit for the distance, said as an assumption.
struct Kit {
    std::optional<std::vector<double>> bike_bottles_ml;
    std::optional<Millilitres> run_flask_ml;
    std::optional<int> run_gels; // gels a belt or pocket holds on the run
};

/// A feed that is wanted whatever the plan would choose: at a time of its leg's clock, or at its kilometre.
struct Pin {
    LegKind leg = LegKind::bike; // the first of its kind that is long enough
    std::optional<Seconds> at_s;
    std::optional<double> km;
    std::string food; // id
    std::string said; // as it was asked for
};

/// Where typical stations are asked for ("typical") or none are known ("none").
enum class StationPolicy { as_given, typical };

struct Event {
    std::string name;
    std::string preset;    // "sprint", "standard" ...; empty for free distances
    bool race = true;      // false: a training session
    std::vector<Leg> legs; // transitions included
    Weather weather;
    Kit kit;
    StationPolicy station_policy = StationPolicy::as_given;
    std::optional<std::string> date;          // ISO 8601, "2027-06-13"
    std::optional<int> start_min;             // local start, minutes after midnight
    std::optional<double> latitude_deg;       // -90..90; with date and start: the sun's height along the day
    std::optional<double> longitude_deg;      // -180..180, east above 0; counts only with the next
    std::optional<double> utc_offset_h;       // of the local clock; absent: the sun is highest at 13:00
    std::optional<int> transition_closes_min; // minutes after midnight
    std::optional<double> cutoff_s;           // whole race, since the athlete's own start
    double wave_offset_min = 0;
    double pen_wait_min = 0;
    double delay_min = 0; // the start is put off by this much, after breakfast
    std::string wave;
    bool salt_water = false;
    bool draft_legal = false;
    bool next_session_within_24_h = false;
    /// A rehearsal takes this rate on the bike (or the run without one), whatever its own length asks for.
    std::optional<double> rehearses_carb_g_per_h;
    /// Lines that a card can hold, if that is less than the usual 6 on the bike and 4 on the run.
    std::optional<int> max_lines_bike, max_lines_run;
    std::vector<Pin> pins;
    std::vector<OwnLine> own_lines; // taken as they stand; empty: the plan is ours
    std::vector<OwnBottle> own_bottles;
    bool fill = false;                         // legs without an own line are planned
    std::optional<double> wanted_carb_g_per_h; // kept within the caps
    std::optional<double>
        caffeine_mg; // of the whole course; absent: one dose where caffeine is wanted at all
    std::optional<Seconds> caffeine_at_s; // on the bike's clock, or the run's where nobody rides
    std::optional<int> bike_rhythm_s;     // 600, 900 or 1200; absent: the best of them
    unsigned long long seed = 1;          // of the simulated race days
    int days = 10000;                     // simulated race days
};

/// Minutes after midnight at which this athlete starts: wave and delay included. Empty: start not known.
std::optional<double> own_start_min(const Event& event);

/// Legs of a named event with its transitions ("super-sprint", "sprint", "standard", "middle", "long",
/// "duathlon-sprint", "duathlon-standard", "aquathlon-sprint", "aquathlon-standard").
/// Distances: World Triathlon competition rules as listed by a national federation (see
/// effort/distances.cpp). Unknown name: empty.
std::vector<Leg> preset_legs(const std::string& name);
std::vector<std::string> preset_names();

/// Puts t1, t2 between consecutive sport legs that have none.
std::vector<Leg> with_transitions(std::vector<Leg> sport_legs);

} // namespace tuck
