// What the plan and the athlete are told about the diary.
#include "tuck/diary.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

constexpr double worth_saying = 0.03; // of a planned time, our choice

bool taught_a_pace(Sport sport, const Learned& before, const Learned& after) {
    const auto count = [sport](const Learned& learned) {
        return std::count_if(learned.paces.begin(), learned.paces.end(),
                             [sport](const RecentResult& pace) { return pace.sport == sport; });
    };
    return count(after) > count(before);
}

void say_paces(const RaceRecord& race, const Learned& before, const Learned& after,
               std::vector<std::string>& out) {
    for (const auto& leg : race.legs) {
        if (leg.time_s <= 0 || leg.planned_s <= 0)
            continue;
        const double late = leg.time_s / leg.planned_s - 1;
        if (std::abs(late) < worth_saying)
            continue;
        out.push_back(fmt::format("The {} took {:.0f} % {} than planned. {}", to_string(leg.sport),
                                  100 * std::abs(late), late > 0 ? "longer" : "less",
                                  taught_a_pace(leg.sport, before, after)
                                      ? "Plans with this diary take its pace from now on."
                                      : "Hills or heat were part of it, so it is not taken as your pace."));
    }
}

void say_intake(const RaceRecord& race, std::vector<std::string>& out) {
    const double carb = race.bike.carb_g + race.run.carb_g, fluid = race.bike.fluid_ml + race.run.fluid_ml;
    if (race.planned_carb_g > 0 && carb < 0.9 * race.planned_carb_g)
        out.push_back(fmt::format("{:.0f} % of the planned food was taken. A plan that is not eaten is too "
                                  "much or too awkward: rehearse it, or plan less.",
                                  100 * carb / race.planned_carb_g));
    if (race.planned_fluid_ml > 0 && fluid > 1.05 * race.planned_fluid_ml)
        out.push_back("More was drunk than the plan's ceiling. Next time drink to thirst, and no more than "
                      "the plan.");
}

void say_weather(const RaceRecord& race, std::vector<std::string>& out) {
    if (race.planned_temperature_c && std::abs(race.temperature_c - *race.planned_temperature_c) >= 4)
        out.push_back(
            fmt::format("The air was {:.0f} C, not {:.0f} C: part of the difference is the weather. "
                        "Plan again on the eve, with the forecast.",
                        race.temperature_c, *race.planned_temperature_c));
}

void say_gut(const char* name, const GutTolerance& before, const GutTolerance& after,
             std::vector<std::string>& out) {
    if (std::abs(after.carb_g_per_h - before.carb_g_per_h) >= 0.5)
        out.push_back(fmt::format("What has gone well on the {}: {:.0f} g/h, before {:.0f}.", name,
                                  after.carb_g_per_h, before.carb_g_per_h));
    if (after.why != before.why && !after.why.empty())
        out.push_back(after.why);
}

} // namespace

std::vector<std::string> own_numbers(const Learned& learned) {
    std::vector<std::string> out;
    const auto& sweat = learned.sweat_factor;
    if (sweat.tests > 0)
        out.push_back(fmt::format(
            "From the diary: your sweat is {:.0f} % of the model's mean (90 % sure: {:.0f} "
            "to {:.0f} %), by {} sweat test{}.",
            100 * sweat.median, 100 * sweat.low, 100 * sweat.high, sweat.tests, sweat.tests == 1 ? "" : "s"));
    const auto& sodium = learned.sodium_mmol_per_l;
    if (sodium.tests > 0)
        out.push_back(fmt::format("From the diary: your sweat sodium is {:.0f} mmol/L (90 % sure: {:.0f} to "
                                  "{:.0f}).",
                                  sodium.median, sodium.low, sodium.high));
    const auto& gut = learned.bike.carb_g_per_h > 0 ? learned.bike : learned.run;
    if (gut.carb_g_per_h > 0)
        out.push_back(fmt::format("From the diary: {:.0f} g/h and {:.0f} ml/h went well for you.",
                                  gut.carb_g_per_h, gut.fluid_ml_per_h));
    if (!learned.paces.empty())
        out.push_back("From the diary: your own race times.");
    return out;
}

std::vector<std::string> changes_after(const RaceRecord& race, const Learned& before, const Learned& after) {
    std::vector<std::string> out;
    say_paces(race, before, after, out);
    say_intake(race, out);
    say_weather(race, out);
    say_gut("bike", before.bike, after.bike, out);
    say_gut("run", before.run, after.run, out);
    if (out.empty())
        out.push_back("Nothing: the day went as planned, and the next plan is a little surer.");
    return out;
}

} // namespace tuck
