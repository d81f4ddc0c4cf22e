#include "text/course_text.hpp"

#include "base/rounded.hpp"
#include "say/plan_words.hpp"
#include "say/units.hpp"
#include "text/layout.hpp"
#include "text/plan_text.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace tuck::faces {

namespace {

constexpr std::size_t page_columns = 80;
constexpr double least_range_m = 60; // a flat course looks flat

/// Mean height of the road over each column.
std::vector<double> column_heights(const Course& course, int columns) {
    std::vector<double> sum(static_cast<std::size_t>(columns)), weight(sum.size());
    double at_m = 0;
    for (const auto& step : course.steps) {
        const double middle = at_m + step.length_m / 2;
        const auto column =
            std::min(sum.size() - 1, static_cast<std::size_t>(middle / course.length_m * columns));
        sum[column] += step.height_m * step.length_m;
        weight[column] += step.length_m;
        at_m += step.length_m;
    }
    double last = course.steps.empty() ? 0 : course.steps.front().height_m;
    for (std::size_t i = 0; i < sum.size(); ++i)
        last = sum[i] = weight[i] > 0 ? sum[i] / weight[i] : last;
    return sum;
}

/// A cell filled to this share, 0..1.
std::string cell(double share, bool blocks) {
    static const char* const eighths[] = {" ",      "\u2581", "\u2582", "\u2583", "\u2584",
                                          "\u2585", "\u2586", "\u2587", "\u2588"};
    const double filled = std::clamp(share, 0.0, 1.0);
    if (blocks)
        return eighths[static_cast<int>(std::lround(filled * 8))];
    return filled >= 0.75 ? "#" : filled >= 0.25 ? "." : " ";
}

/// A round distance such that a handful of marks fit.
double mark_every_km(double length_km) {
    const double wish = length_km / 6;
    const double power = std::pow(10, std::floor(std::log10(wish)));
    for (const double step : {1.0, 2.0, 5.0})
        if (wish <= step * power)
            return step * power;
    return 10 * power;
}

std::string scale_line(double length_km, int columns, std::size_t margin, const char* unit) {
    const double every = mark_every_km(length_km);
    std::string line(margin, ' ');
    for (double km = 0; km <= length_km; km += every) {
        const auto column = margin + static_cast<std::size_t>(km / length_km * columns);
        const auto text = fmt::format("{:g}", km);
        if (line.size() > column || column + text.size() > margin + static_cast<std::size_t>(columns) - 2)
            continue;
        line.resize(column, ' ');
        line += text;
    }
    return line + " " + unit;
}

std::string road_range(double from_km, double to_km, Units units) {
    return fmt::format("{} {:.1f} - {:.1f}", units == Units::metric ? "km" : "mile",
                       say::road_in(from_km, units), say::road_in(to_km, units));
}

void add(std::string& out, const std::string& text, const std::string& first = "") {
    for (const auto& row : wrap(text, page_columns, first))
        out += row + "\n";
}

void add_stretches(std::string& out, const std::vector<Stretch>& stretches, Units units, bool why) {
    for (const auto& s : stretches)
        add(out,
            (padded(road_range(s.from_km, s.to_km, units), 19) +
             padded(time_text(s.from_s) + " - ", 11, true) + padded(time_text(s.to_s), 8) +
             (why ? "  " + s.why : fmt::format("  {:.0f} min", (s.to_s - s.from_s) / 60))),
            "  ");
}

void add_head(std::string& out, const CourseSheet& sheet) {
    const auto& course = sheet.course;
    add(out, sheet.title);
    const auto units = sheet.units;
    add(out,
        fmt::format("{:.1f} {}", say::road_in(course.length_m / 1000, units),
                    units == Units::metric ? "km" : "miles"),
        "  Length   ");
    if (course.heights_known) {
        add(out,
            fmt::format("{} up, {} down; steepest {}: {:.0f} % up, {:.0f} % down",
                        say::height(course.climb.up_m, units), say::height(course.climb.down_m, units),
                        say::height(100, units), course.steepest_up * 100, course.steepest_down * 100),
            "  Climb    ");
        add(out,
            fmt::format("{}. The sum of every rise in the file is {}: ascent hangs on its method.",
                        course.climb.method, say::height(course.climb.raw_up_m, units)),
            "  Method   ");
    }
    for (const auto& note : course.notes)
        add(out, note, "  Note     ");
}

const char* speed_unit(Units units) {
    return units == Units::metric ? "km/h" : "mph";
}
const char* pace_unit(Units units) {
    return units == Units::metric ? "per km" : "per mile";
}

std::string pace(double m_per_s, Units units) {
    return time_text(3600 / say::speed_in(m_per_s, units));
}

void add_sections(std::string& out, const CourseSheet& sheet) {
    const auto units = sheet.units;
    out += fmt::format("\n  {}{}{}{}{}\n", padded("", 19), padded("clock", 9, true), padded("grade", 9, true),
                       padded(sheet.bike ? speed_unit(units) : pace_unit(units), 9, true),
                       sheet.bike ? padded("W", 7, true) : "");
    for (const auto& s : sheet.ride.sections)
        out += fmt::format("  {}{}{}{}{}\n", padded(road_range(s.from_km, s.to_km, units), 19),
                           padded(time_text(s.to_s), 9, true),
                           padded(fmt::format("{:+.1f} %", s.grade * 100), 9, true),
                           padded(sheet.bike ? fmt::format("{:.1f}", say::speed_in(s.speed_m_s, units))
                                             : pace(s.speed_m_s, units),
                                  9, true),
                           sheet.bike ? padded(fmt::format("{:.0f}", s.power_w), 7, true) : "");
}

} // namespace

std::vector<std::string> profile_lines(const Course& course, int columns, int rows, bool blocks,
                                       Units units) {
    const auto heights = column_heights(course, columns);
    const auto [low_at, high_at] = std::minmax_element(heights.begin(), heights.end());
    const double low = *low_at, range = std::max(least_range_m, *high_at - low);
    constexpr std::size_t label = 7;
    const int filled = std::clamp(static_cast<int>(std::ceil((*high_at - low) / range * rows)), 2, rows);
    std::vector<std::string> lines;
    for (int row = filled - 1; row >= 0; --row) {
        const double top = low + range * (row + 1) / rows;
        const bool named = row == filled - 1 || row == 0;
        std::string line = padded(named ? say::height(row == 0 ? low : top, units) : "", label, true) + " ";
        for (const double height : heights) // the lowest place still shows a line of ground
            line += cell(std::max((height - low) / range * rows - row, row == 0 ? 0.25 : 0.0), blocks);
        while (line.ends_with(' '))
            line.pop_back();
        lines.push_back(line);
    }
    lines.push_back(scale_line(say::road_in(course.length_m / 1000, units), columns, label + 1,
                               units == Units::metric ? "km" : "mi"));
    return lines;
}

std::string course_text(const CourseSheet& sheet, bool blocks) {
    std::string out;
    add_head(out, sheet);
    if (sheet.course.heights_known) {
        out += "\n";
        for (const auto& line : profile_lines(sheet.course, 70, 8, blocks, sheet.units))
            out += line + "\n";
    }
    out += "\n";
    const auto units = sheet.units;
    const auto how_fast =
        sheet.bike ? fmt::format("{:.1f} {}, {:.0f} W on average", say::speed_in(sheet.ride.speed_m_s, units),
                                 speed_unit(units), sheet.ride.power_w)
                   : pace(sheet.ride.speed_m_s, units) + " " + pace_unit(units);
    add(out, fmt::format("{}: {}, {}.", say::in_units(sheet.passage, units), time_text(sheet.ride.time_s),
                         how_fast));
    for (const auto& text : sheet.assumptions)
        add(out, say::in_units(text, units), "  ");
    add_sections(out, sheet);
    if (sheet.bike && !sheet.ride.busy.empty()) {
        out += "\nHANDS ON THE BAR: nothing to eat or drink here\n";
        add_stretches(out, sheet.ride.busy, units, true);
    }
    if (sheet.bike) {
        out += "\nROOM TO EAT AND DRINK: a minute and more, on calm road\n";
        add_stretches(out, sheet.ride.clear, units, false);
        if (sheet.ride.clear.empty())
            add(out, "None.", "  ");
        add(out,
            "The first and the last 5 minutes of a race ride are not for eating. Traffic, bad road and the "
            "event's rules come first.");
    }
    return out;
}

namespace {

using Json = nlohmann::ordered_json;

Json stretches_json(const std::vector<Stretch>& stretches) {
    Json out = Json::array();
    for (const auto& s : stretches) {
        out.push_back({{"from_km", rounded(s.from_km, 3)},
                       {"to_km", rounded(s.to_km, 3)},
                       {"from_s", rounded(s.from_s, 0)},
                       {"to_s", rounded(s.to_s, 0)}});
        if (!s.why.empty())
            out.back()["why"] = s.why;
    }
    return out;
}

} // namespace

std::string course_json(const CourseSheet& sheet) {
    const auto& course = sheet.course;
    Json out{{"schema", "tuck.course/1"},
             {"course", sheet.title},
             {"sport", sheet.bike ? "bike" : "run"},
             {"length_m", rounded(course.length_m, 0)},
             {"heights_known", course.heights_known}};
    if (course.heights_known) {
        out["up_m"] = rounded(course.climb.up_m, 0);
        out["down_m"] = rounded(course.climb.down_m, 0);
        out["method"] = course.climb.method;
        out["sum_of_every_rise_m"] = rounded(course.climb.raw_up_m, 0);
        out["steepest_up_pct"] = rounded(100 * course.steepest_up, 1);
        out["steepest_down_pct"] = rounded(100 * course.steepest_down, 1);
    }
    out["notes"] = course.notes;
    out["passage"] = sheet.passage;
    out["assumptions"] = sheet.assumptions;
    out["time_s"] = rounded(sheet.ride.time_s, 0);
    out["speed_m_s"] = rounded(sheet.ride.speed_m_s, 3);
    if (sheet.bike)
        out["power_w"] = rounded(sheet.ride.power_w, 1);
    out["sections"] = Json::array();
    for (const auto& s : sheet.ride.sections) {
        out["sections"].push_back({{"from_km", rounded(s.from_km, 3)},
                                   {"to_km", rounded(s.to_km, 3)},
                                   {"from_s", rounded(s.from_s, 0)},
                                   {"to_s", rounded(s.to_s, 0)},
                                   {"grade_pct", rounded(100 * s.grade, 2)},
                                   {"speed_m_s", rounded(s.speed_m_s, 3)}});
        if (sheet.bike)
            out["sections"].back()["power_w"] = rounded(s.power_w, 1);
    }
    out["hands_on_the_bar"] = stretches_json(sheet.ride.busy);
    out["room_to_eat"] = stretches_json(sheet.ride.clear);
    return out.dump(2) + "\n";
}

} // namespace tuck::faces
