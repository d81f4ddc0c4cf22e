#include "io/option_rows.hpp"

#include "io/input_options.hpp"
#include "io/line_places.hpp"
#include "io/units.hpp"

#include <filesystem>
#include <fmt/format.h>
#include <stdexcept>

namespace tuck::io {

namespace {

/// False for a distance; what is neither is told as a distance, unless it looks like a time.
bool is_duration(const std::string& amount) {
    try {
        duration_s(amount);
        return true;
    } catch (const std::invalid_argument&) {
        if (amount.find(':') != std::string::npos || amount.ends_with("min") || amount.ends_with("h") ||
            amount.ends_with("s"))
            throw;
        return false;
    }
}

/// "yes", "no", or an amount, which is a yes.
bool wants_caffeine(const std::string& text) {
    if (text != "yes" && text != "no" && !text.ends_with("mg"))
        throw std::invalid_argument(
            fmt::format("\"{}\" is not known; allowed: yes, no, or an amount: 150mg", text));
    return text != "no";
}

Json main_sweat(const std::string& text) {
    const auto said = said_sweat(text);
    return said.bare ? *said.bare : said.bike ? *said.bike : said.run.value();
}

/// "swim:750m,bike:90min".
Json as_legs(const std::string& text) {
    Json legs = Json::array();
    for (const auto& part : comma_list(text)) {
        const auto colon = part.find(':');
        if (colon == std::string::npos)
            throw std::invalid_argument(fmt::format(
                "\"{}\" is not a leg; allowed: sport:distance or sport:time, such as swim:750m", part));
        const auto amount = part.substr(colon + 1);
        Json leg = {{"sport", part.substr(0, colon)}};
        if (is_duration(amount))
            leg["time"] = amount;
        else
            leg["distance_m"] = distance_m(amount);
        legs.push_back(leg);
    }
    return legs;
}

/// The rows of what a field is described for.
void add_fields(const std::vector<InputOption>& fields, std::vector<Row>& rows) {
    for (const auto& field : fields)
        rows.push_back({{field.option.c_str(), field.help.c_str(), field.kind.c_str(), field.adds_up},
                        field.pointer.c_str(),
                        field.read});
}

/// An event file names courses beside itself, an option from where the user stands.
std::string as_course(const std::string& text) {
    if (text.empty())
        throw std::invalid_argument("must be the name of a GPX file");
    return std::filesystem::absolute(text).string();
}

} // namespace

SaidSweat said_sweat(const std::string& text) {
    SaidSweat out;
    for (const auto& part : comma_list(text)) {
        const auto equals = part.find('=');
        const auto sport = part.substr(0, equals == std::string::npos ? 0 : equals);
        if (equals != std::string::npos && sport != "bike" && sport != "run")
            throw std::invalid_argument(fmt::format(
                "\"{}\" is not known; allowed: bike=1.2L/h, run=1.5L/h, or both with a comma", part));
        auto& rate = equals == std::string::npos ? out.bare : sport == "bike" ? out.bike : out.run;
        rate = rate_ml_per_h(equals == std::string::npos ? part : part.substr(equals + 1));
    }
    return out;
}

const std::vector<Row>& athlete_rows() {
    static const auto rows = [] {
        std::vector<Row> all{{{athlete_file_option, "athlete file (JSON)", "FILE.json"}, "", nullptr}};
        add_fields(athlete_field_options(), all);
        for (auto& row : all)
            if (row.option.name == std::string_view(caffeine_option)) {
                row.option.help = "yes, no (the default), or how much: 150mg";
                row.read = as<wants_caffeine>;
            } else if (row.option.name == std::string_view(sweat_rate_option)) {
                row.option.help = "measured, with its sport: bike=1.2L/h, run=1.5L/h, or both";
                row.read = main_sweat;
            }
        return all;
    }();
    return rows;
}

const std::vector<Row>& event_rows() {
    static const auto rows = [] {
        std::vector<Row> all{
            {{"--distance", "sprint, standard, middle, long ...", "WORD"}, "/distance", as<as_is>},
            {{"--legs", "swim:750m,bike:20km,run:5km or bike:2h", "LEGS"}, "/legs", as_legs},
            {{"--training", "a training session, not a race", ""}, "/session", as<as_is>},
            {{"--bike-course", "the road: lake.gpx", "FILE.gpx"}, "bike/course_gpx", as<as_course>},
            {{"--bike-laps", "of that course (1)", "NUMBER"}, "bike/course_laps", as<whole_number>},
            {{"--run-course", "the road: shore.gpx", "FILE.gpx"}, "run/course_gpx", as<as_course>},
            {{"--run-laps", "of that course (1)", "NUMBER"}, "run/course_laps", as<whole_number>},
            {{"--bike-stations", "22km,64km=iso+bottle, or 4x20km: four, 20 km apart", "STATIONS", true},
             "bike/stations",
             stations_on_line},
            {{"--run-stations", "2.5km,5km=water+cola, or 4x2km: four, 2 km apart", "STATIONS", true},
             "run/stations",
             stations_on_line},
            {{"--bike-bag", "special-needs bag: 92km=2x750ml", "BAG"},
             "bike/special_needs",
             bike_bag_on_line},
            {{"--run-bag", "special-needs bag, gels: 21.5km=3", "BAG"}, "run/special_needs", run_bag_on_line},
            {{hourly_option, "the air by the clock: 7=16C,10=22C/60%,13:30=27C (needs --start)", "HOURS"},
             "/weather/hourly",
             hours_on_line},
            {{"--fill", "plan the legs for which you gave no line", ""}, "/fill", yes},
            {{set_option, "any key of an event file: weather.humidity_pct=80", "KEY=VALUE", true},
             "",
             nullptr},
        };
        add_fields(event_field_options(), all);
        return all;
    }();
    return rows;
}

} // namespace tuck::io
