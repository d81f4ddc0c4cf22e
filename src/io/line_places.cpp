#include "io/line_places.hpp"

#include "io/units.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <utility>

namespace tuck::io {

namespace {

/// The two sides of the first equals sign; the second is empty where there is none.
std::pair<std::string, std::string> sides_of(const std::string& text) {
    const auto equals = text.find('=');
    return {text.substr(0, equals), equals == std::string::npos ? "" : text.substr(equals + 1)};
}

std::vector<std::string> parts_at(const std::string& text, char sign) {
    std::vector<std::string> parts;
    for (std::size_t from = 0; from <= text.size();) {
        const auto to = std::min(text.find(sign, from), text.size());
        parts.push_back(text.substr(from, to - from));
        from = to + 1;
    }
    return parts;
}

/// What a station's table is called, as the pantry has it.
std::string food_of(const std::string& word) {
    constexpr std::pair<const char*, const char*> words[] = {{"water", "water_tap"},
                                                             {"iso", "sports_drink_rtd"},
                                                             {"cola", "cola_flat"},
                                                             {"gel", "gel_25"},
                                                             {"banana", "banana_ripe"}};
    for (const auto& [said, id] : words)
        if (word == said)
            return id;
    return word;
}

double km_of(const std::string& text) {
    return distance_m(text) / 1000;
}

/// "22km", or "4x2.5km".
Json station_at(const std::string& place) {
    const auto times = place.find('x');
    if (times == std::string::npos)
        return {{"km", km_of(place)}};
    const double apart_km = km_of(place.substr(times + 1));
    return {{"km", apart_km}, {"laps", whole_number(place.substr(0, times))}, {"lap_km", apart_km}};
}

Json bag_at(const std::string& text, const char* key, const char* example, Json (*read)(const std::string&)) {
    const auto [place, what] = sides_of(text);
    if (what.empty())
        throw std::invalid_argument(
            fmt::format("\"{}\": allowed: a place and what the bag holds, such as {}", text, example));
    return {{"km", km_of(place)}, {key, read(what)}};
}

} // namespace

Json stations_on_line(const std::string& text) {
    const auto [places, served] = sides_of(text);
    Json foods = Json::array(), form;
    for (const auto& word : parts_at(served, '+')) {
        if (word == "cup" || word == "bottle")
            form = word;
        else if (!word.empty())
            foods.push_back(food_of(word));
    }
    Json stations = Json::array();
    for (const auto& place : comma_list(places)) {
        Json station = station_at(place);
        if (!foods.empty())
            station["serves"] = foods;
        if (!form.is_null())
            station["form"] = form;
        stations.push_back(std::move(station));
    }
    return stations;
}

Json bike_bag_on_line(const std::string& text) {
    return bag_at(text, "bottles_ml", "92km=2x750ml",
                  [](const std::string& what) -> Json { return volumes_ml(what); });
}

Json run_bag_on_line(const std::string& text) {
    return bag_at(text, "gels", "21.5km=3",
                  [](const std::string& what) -> Json { return whole_number(what); });
}

Json hours_on_line(const std::string& text) {
    Json hours = Json::array();
    for (const auto& part : comma_list(text)) {
        const auto [clock, air] = sides_of(part);
        if (air.empty())
            throw std::invalid_argument(
                fmt::format("\"{}\": allowed: hour=temperature, such as 7=16C or 13:30=27C/60%", part));
        const bool bare = clock.find(':') == std::string::npos && clock.find('m') == std::string::npos;
        const double hour = bare ? whole_number(clock) : clock_min(clock) / 60.0;
        const auto slash = air.find('/');
        Json at{{"hour", hour}, {"temperature_c", temperature_c(air.substr(0, slash))}};
        if (slash != std::string::npos)
            at["humidity_pct"] = humidity_pct(air.substr(slash + 1));
        hours.push_back(std::move(at));
    }
    return hours;
}

} // namespace tuck::io
