#include "cli/command.hpp"
#include "io/fault.hpp"
#include "io/gpx.hpp"
#include "io/units.hpp"
#include "text/course_text.hpp"
#include "tuck/effort.hpp"

#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>
#include <memory>
#include <optional>

namespace tuck::cli {

namespace {

using Text = std::optional<std::string>;

constexpr double usual_power_w = 150, usual_mass_kg = 70, usual_pace_s_per_km = 360;

struct Options {
    std::string file;
    std::string sport = "bike";
    Text power, pace, mass, position, temperature, wind, wind_from;
    bool ascii = false;
};

/// The option as a number, within the range of the event files.
template <typename Read>
std::optional<double> number(const char* option, const Text& text, Read read, double low, double high,
                             const char* unit) {
    if (!text)
        return std::nullopt;
    double value = 0;
    try {
        value = read(*text);
    } catch (const std::invalid_argument& error) {
        throw io::InputError(option, "", error.what());
    }
    if (value < low || value > high)
        throw io::InputError(
            option, "", fmt::format("{:g} is out of range; allowed {:g} to {:g} {}", value, low, high, unit));
    return value;
}

/// Does the locale promise UTF-8? POSIX: LC_ALL, then LC_CTYPE, then LANG.
bool shows_blocks() {
    for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
        const char* value = std::getenv(name);
        if (!value || !*value)
            continue;
        const std::string text = value;
        return text.find("UTF-8") != std::string::npos || text.find("utf8") != std::string::npos;
    }
    return false;
}

Position position_of(const std::string& word) {
    return word == "upright" ? Position::upright
           : word == "drops" ? Position::drops
           : word == "aero"  ? Position::aero
                             : Position::hoods;
}

/// About a dozen rows, of a round length.
double section_m(double length_m) {
    for (const double m : {250.0, 500.0, 1e3, 2e3, 5e3, 10e3, 20e3, 50e3})
        if (length_m <= 14 * m)
            return m;
    return 100e3;
}

std::string wind_words(const Weather& weather) {
    if (weather.wind_m_s.value_or(0) <= 0)
        return "no wind";
    return weather.wind_from_deg
               ? fmt::format("wind {:g} m/s from {:g} degrees", *weather.wind_m_s, *weather.wind_from_deg)
               : fmt::format("wind {:g} m/s, half against and half behind", *weather.wind_m_s);
}

void ride_it(const Options& o, faces::CourseSheet& sheet) {
    Athlete athlete;
    Weather weather;
    athlete.mass_kg = number("--mass", o.mass, io::mass_kg, 25, 250, "kg").value_or(usual_mass_kg);
    const auto position = o.position.value_or("hoods");
    athlete.position = position_of(position);
    weather.temperature_c =
        number("--temperature", o.temperature, io::temperature_c, -20, 50, "C").value_or(20);
    weather.wind_m_s = number("--wind", o.wind, io::wind_m_s, 0, 25, "m/s");
    weather.wind_from_deg = number("--wind-from", o.wind_from, io::direction_deg, 0, 360, "degrees");
    const double power_w = number("--power", o.power, io::power_w, 30, 600, "W").value_or(usual_power_w);
    sheet.ride = ride_course(sheet.course, athlete, weather, power_w, section_m(sheet.course.length_m));
    sheet.passage = fmt::format("At an effort of {:.0f} W, rider of {:g} kg, {}, {:g} C, {}", power_w,
                                athlete.mass_kg, position, weather.temperature_c, wind_words(weather));
    if (!o.power)
        sheet.assumptions.push_back(fmt::format("Power not given: {:g} W assumed.", usual_power_w));
    if (!o.mass)
        sheet.assumptions.push_back(fmt::format("Mass not given: {:g} kg assumed.", usual_mass_kg));
}

void run_it(const Options& o, faces::CourseSheet& sheet) {
    const double pace =
        number("--pace", o.pace, io::pace_s_per_km, 140, 900, "s/km").value_or(usual_pace_s_per_km);
    sheet.ride = run_course(sheet.course, pace, section_m(sheet.course.length_m));
    sheet.passage = fmt::format("At the effort of {} per km on the level", io::duration_text(pace));
    if (!o.pace)
        sheet.assumptions.push_back(
            fmt::format("Pace not given: {} per km assumed.", io::duration_text(usual_pace_s_per_km)));
}

/// What belongs to the other sport is a slip, not a wish.
void refuse_others(const Options& o, bool bike) {
    const auto refuse = [](const char* option, const Text& text, const char* sport) {
        if (text)
            throw io::InputError(option, "", fmt::format("belongs to --sport {}", sport));
    };
    if (bike)
        return refuse("--pace", o.pace, "run");
    for (const auto& [option, text] : {std::pair{"--power", &o.power},
                                       {"--mass", &o.mass},
                                       {"--wind", &o.wind},
                                       {"--wind-from", &o.wind_from},
                                       {"--temperature", &o.temperature},
                                       {"--position", &o.position}})
        refuse(option, *text, "bike");
}

int run(const Options& o) {
    refuse_others(o, o.sport == "bike");
    const auto track = io::read_gpx(o.file);
    faces::CourseSheet sheet;
    sheet.bike = o.sport == "bike";
    sheet.course = course_of(track, sheet.bike ? Sport::bike : Sport::run);
    const auto file = std::filesystem::path(o.file).filename().string();
    sheet.title = track.name.empty() ? file : fmt::format("{} ({})", track.name, file);
    sheet.bike ? ride_it(o, sheet) : run_it(o, sheet);
    fmt::print("{}", faces::course_text(sheet, !o.ascii && shows_blocks()));
    return 0;
}

} // namespace

Command course_command() {
    auto o = std::make_shared<Options>();
    return {
        .name = "course",
        .help = "a GPX course: climbing, times, where to eat",
        .footer = "Example: tuck course lake.gpx --power 200W --mass 75kg",
        .options =
            {
                {.name = "file",
                 .target = &o->file,
                 .help = "course (GPX 1.1)",
                 .kind = "FILE.gpx",
                 .required = true},
                {"--sport", &o->sport, "bike (the default), run", "SPORT", "bike, run"},
                {"--power", &o->power, "effort on an even road: 200W", "POWER"},
                {"--mass", &o->mass, "body mass: 68kg, 150lb", "MASS"},
                {"--position", &o->position, "upright, hoods (the default), drops, aero", "WORD",
                 "upright, hoods, drops, aero"},
                {"--temperature", &o->temperature, "of the air: 22C, 75F", "TEMPERATURE"},
                {"--wind", &o->wind, "3m/s, 12km/h, 8mph", "SPEED"},
                {"--wind-from", &o->wind_from, "where it comes from: 240deg, SW", "DIRECTION"},
                {"--pace", &o->pace, "run, on the level: 5:30/km", "PACE"},
                {"--ascii", &o->ascii, "draw the profile in plain ASCII"},
            },
        .run = [o] { return run(*o); },
    };
}

} // namespace tuck::cli
