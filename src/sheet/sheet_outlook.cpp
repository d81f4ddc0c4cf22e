// How the day may go: the simulated days, sweat and weather.
#include "sheet/sheet_content.hpp"

#include "say/plan_words.hpp"
#include "say/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tuck::faces {
namespace {

SheetSection at_the_finish(const Plan& plan) {
    const PlanOutlook& o = plan.outlook;
    SheetSection section{fmt::format("The day, simulated {} times", o.days),
                         {},
                         SheetPlace::left,
                         false,
                         SheetWeight::outlook};
    section.items.emplace_back(SheetParagraph{"", o.sentence});
    SheetTable table{{"At the finish", "1 day in 20 below", "middle", "1 in 20 above"},
                     {},
                     {2.2, 1.5, 1, 1.2},
                     {false, true, true, true}};
    const auto row = [&](const char* what, const Percentiles& p, int decimals) {
        const auto text = [&](double value) {
            const double scale = std::pow(10, decimals);
            return fmt::format("{:.{}f}", std::round(value * scale) / scale + 0.0, decimals);
        };
        table.rows.push_back({what, text(p.p05), text(p.p50), text(p.p95)});
    };
    if (!plan.mass_hidden)
        row("body mass, %", o.mass_change_pct, 1);
    row("glycogen left, g", o.glycogen_left_g, 0);
    section.items.emplace_back(table);
    return section;
}

SheetSection bands(const Plan& plan) {
    SheetBands all;
    all.note = "Line: the middle day. Grey: 18 days of 20. Dashed: a leg begins.";
    for (const LegEffort& leg : plan.durations)
        all.legs_start_s.push_back(leg.starts_s);
    const auto add = [&](const std::string& title, Percentiles OutlookBand::*value, int decimals,
                         double each = 1) {
        SheetBands::Panel panel{title, {}, decimals};
        for (const OutlookBand& at : plan.outlook.bands)
            panel.points.push_back(
                {at.at_s, each * (at.*value).p05, each * (at.*value).p50, each * (at.*value).p95});
        all.panels.push_back(std::move(panel));
    };
    if (!plan.mass_hidden)
        add("Body mass, % of the start", &OutlookBand::mass_change_pct, 1);
    add("Glycogen in the body, g", &OutlookBand::glycogen_g, 0);
    add("Fluid in the gut, " + say::volume_unit(plan.units), &OutlookBand::gut_fluid_ml, 0,
        say::volume_in(1, plan.units));
    return {"Through the day", {all}, SheetPlace::whole, false, SheetWeight::bands};
}

SheetSection chances(const Plan& plan) {
    const PlanOutlook& o = plan.outlook;
    SheetBars bars{"What may happen", "days in 100", 100, {}};
    const auto add = [&](const char* what, double chance) { bars.bars.emplace_back(what, 100 * chance); };
    add("much more drunk than sweated", o.water_gain_over_1pct);
    add("blood sodium low by drinking", o.low_sodium_by_drinking);
    add("blood sodium low", o.low_sodium);
    if (!plan.mass_hidden) {
        add("water loss over 2 % of mass", o.water_loss_over_2pct);
        add("water loss over 4 % of mass", o.water_loss_over_4pct);
    }
    add("stores empty before the finish", o.glycogen_gone);
    add("stomach overfull", o.stomach_full);
    return {"How often", {bars}, SheetPlace::right, false, SheetWeight::outlook};
}

SheetTable weather_by_the_hour(const Weather& weather, Units units) {
    SheetTable table{{"Hour", "air", "humidity", "wind"}, {}, {1, 1, 1.2, 1}, {false, true, true, true}};
    const auto text = [&](const std::optional<double>& value, const char* unit) {
        return value ? say::in_units(fmt::format("{:g} {}", *value, unit), units) : std::string("as above");
    };
    for (const HourlyWeather& hour : weather.hourly)
        table.rows.push_back({fmt::format("{:g}:00", hour.hour),
                              text(std::round(hour.temperature_c * 10) / 10, "°C"),
                              text(hour.humidity_pct, "%"), text(hour.wind_m_s, "m/s")});
    return table;
}

SheetSection sweat(const Plan& plan) {
    SheetBars bars{"Likely sweat by leg", say::volume_unit(plan.units) + " an hour", 0, {}};
    for (const LegNeed& need : plan.needs)
        if (!is_transition(need.kind))
            bars.bars.emplace_back(leg_name(need.kind), say::volume_in(need.sweat_ml_per_h, plan.units));
    SheetSection section{"Sweat and weather", {}, SheetPlace::left, false, SheetWeight::outlook};
    section.items.emplace_back(
        SheetParagraph{"", "At " + weather_text(plan.weather, plan.units) +
                               (plan.weather.hourly.empty() ? ", the same all day." : ".")});
    if (!plan.weather.hourly.empty())
        section.items.emplace_back(weather_by_the_hour(plan.weather, plan.units));
    section.items.emplace_back(bars);
    return section;
}

} // namespace

std::vector<SheetSection> sheet_outlook(const Plan& plan) {
    std::vector<SheetSection> out{at_the_finish(plan), sweat(plan), chances(plan)};
    if (!plan.outlook.bands.empty())
        out.push_back(bands(plan));
    return out;
}

std::string weather_text(const Weather& weather, Units units) {
    std::string text = "air " + degrees_text(weather.temperature_c) + " °C";
    if (weather.humidity_pct)
        text += fmt::format(", humidity {:g} %", *weather.humidity_pct);
    if (weather.wind_m_s)
        text += fmt::format(", wind {:g} m/s", *weather.wind_m_s);
    if (weather.water_temperature_c)
        text += ", water " + degrees_text(*weather.water_temperature_c) + " °C";
    return say::in_units(text, units);
}

std::string bar_value(double value) {
    return value > 0 && value < 0.5 ? "under 1" : fmt::format("{:.0f}", value);
}

SheetTable as_table(const SheetBands& bands) {
    SheetTable table{{"At"}, {}, {1}, {false}};
    for (const SheetBands::Panel& panel : bands.panels) {
        table.heads.push_back(panel.title);
        table.shares.push_back(3);
        table.numbers.push_back(true);
    }
    const auto& points = bands.panels.at(0).points;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const bool last = i + 1 == points.size();
        const bool begins =
            std::any_of(bands.legs_start_s.begin(), bands.legs_start_s.end(), [&](double start) {
                return start >= points[i].at_s && (last || start < points[i + 1].at_s);
            });
        if (!begins && !last)
            continue;
        std::vector<std::string> row{time_text(points[i].at_s)};
        for (const SheetBands::Panel& panel : bands.panels) {
            const SheetBands::Point& at = panel.points[i];
            const auto text = [&](double value) {
                return fmt::format("{:.{}f}", value + 0.0, panel.decimals);
            };
            row.push_back(fmt::format("{} ({} to {})", text(at.middle), text(at.low), text(at.high)));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

SheetTable as_table(const SheetBars& bars) {
    SheetTable table{{bars.title, bars.unit}, {}, {3, 1}, {false, true}};
    for (const auto& [name, value] : bars.bars)
        table.rows.push_back({name, bar_value(value)});
    return table;
}

} // namespace tuck::faces
