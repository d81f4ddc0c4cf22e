#include "ask/course.hpp"

#include "io/fault.hpp"
#include "io/units.hpp"

#include <fmt/format.h>

namespace tuck::ask {

namespace {

using Text = std::optional<std::string>;

constexpr double usual_power_w = 150, usual_mass_kg = 70, usual_pace_s_per_km = 360; // our choice, and said

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

void ride_it(const CourseWords& o, const Course& course, CoursePassage& sheet) {
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
    sheet.ride = ride_course(course, athlete, weather, power_w, section_m(course.length_m));
    sheet.passage = fmt::format("At an effort of {:.0f} W, rider of {:g} kg, {}, {:g} C, {}", power_w,
                                athlete.mass_kg, position, weather.temperature_c, wind_words(weather));
    if (!o.power)
        sheet.assumptions.push_back(fmt::format("Power not given: {:g} W assumed.", usual_power_w));
    if (!o.mass)
        sheet.assumptions.push_back(fmt::format("Mass not given: {:g} kg assumed.", usual_mass_kg));
}

void run_it(const CourseWords& o, const Course& course, CoursePassage& sheet) {
    const double pace =
        number("--pace", o.pace, io::pace_s_per_km, 140, 900, "s/km").value_or(usual_pace_s_per_km);
    sheet.ride = run_course(course, pace, section_m(course.length_m));
    sheet.passage = fmt::format("At the effort of {} per km on the level", io::duration_text(pace));
    if (!o.pace)
        sheet.assumptions.push_back(
            fmt::format("Pace not given: {} per km assumed.", io::duration_text(usual_pace_s_per_km)));
}

/// What belongs to the other sport is a slip, not a wish.
void refuse_others(const CourseWords& o, bool bike) {
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

} // namespace

CoursePassage pass_course(const Course& course, const CourseWords& words) {
    const bool bike = words.sport == "bike";
    refuse_others(words, bike);
    CoursePassage out;
    bike ? ride_it(words, course, out) : run_it(words, course, out);
    return out;
}

} // namespace tuck::ask
