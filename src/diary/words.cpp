// What the plan and the athlete are told about the diary.
#include "base/clock.hpp"
#include "tuck/diary.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

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
    const double planned_carb = race.bike.planned_carb_g + race.run.planned_carb_g;
    const double planned_fluid = race.bike.planned_fluid_ml + race.run.planned_fluid_ml;
    if (planned_carb > 0 && carb < 0.9 * planned_carb)
        out.push_back(fmt::format("{:.0f} % of the planned food was taken. A plan that is not eaten is too "
                                  "much or too awkward: rehearse it, or plan less.",
                                  100 * carb / planned_carb));
    if (planned_fluid > 0 && fluid > 1.05 * planned_fluid)
        out.push_back(
            fmt::format("{:.0f} ml more was drunk than planned. Next time drink to thirst, and no more than "
                        "the plan.",
                        fluid - planned_fluid));
    else if (planned_fluid > 0 && fluid < 0.8 * planned_fluid)
        out.push_back(fmt::format(
            "{:.0f} ml less was drunk than planned{}: {}", planned_fluid - fluid,
            race.thirst ? fmt::format(", with a thirst of {} of 10", *race.thirst) : std::string(),
            race.thirst.value_or(0) >= 6 ? "look at where the bottle was out of reach." : "less is fine."));
    if (race.slump)
        out.push_back(
            "A slump: eat from the first quarter of an hour on, and start easier; the rate itself rises only "
            "by the steps of rehearsals.");
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
        out.push_back(before.carb_g_per_h > 0
                          ? fmt::format("What has gone well on the {}: {:.0f} g/h, before {:.0f}.", name,
                                        after.carb_g_per_h, before.carb_g_per_h)
                          : fmt::format("{:.0f} g/h has gone well on the {} for the first time.",
                                        after.carb_g_per_h, name));
    if (after.why != before.why && !after.why.empty() && after.next_carb_g_per_h > 0)
        out.push_back(
            fmt::format("Next rehearsal, {}: {:.0f} g/h. {}", name, after.next_carb_g_per_h, after.why));
    else if (after.why != before.why && after.stop)
        out.push_back(after.why);
}

void say_sweat(const Learned& before, const Learned& after, std::vector<std::string>& out) {
    if (after.sweat_factor.tests > before.sweat_factor.tests)
        out.push_back(fmt::format(
            "The weighing tells of sweat: {:.0f} % of the model's mean (90 % sure: {:.0f} to {:.0f}), "
            "before {:.0f} % ({:.0f} to {:.0f}).",
            100 * after.sweat_factor.median, 100 * after.sweat_factor.low, 100 * after.sweat_factor.high,
            100 * before.sweat_factor.median, 100 * before.sweat_factor.low, 100 * before.sweat_factor.high));
}

std::string felt(const RaceRecord& race) {
    std::string text = fmt::format("Felt: worst symptom {} of 10 on the bike, {} on the run",
                                   race.bike.worst(), race.run.worst());
    if (race.thirst)
        text += fmt::format(", thirst {}", *race.thirst);
    text += race.slump ? ", a slump" : "";
    text += race.vomited ? ", vomiting" : "";
    return text + (race.blood ? ", blood." : ".");
}

std::string at_most_text(const Learned& learned) {
    std::string text;
    if (learned.bike.at_most_g_per_h > 0)
        text = fmt::format("{:.0f} g/h on the bike", learned.bike.at_most_g_per_h);
    if (learned.run.at_most_g_per_h > 0)
        text +=
            fmt::format("{}{:.0f} g/h on the run", text.empty() ? "" : " and ", learned.run.at_most_g_per_h);
    return text;
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
    if (learned.bike.at_most_g_per_h > 0 || learned.run.at_most_g_per_h > 0)
        out.push_back(fmt::format("From the diary: more went badly, so at most {}.", at_most_text(learned)));
    if (!learned.foods.empty())
        out.push_back(
            fmt::format("From the diary: {} went well, and come first.", fmt::join(learned.foods, ", ")));
    if (!learned.paces.empty())
        out.push_back("From the diary: your own race times.");
    return out;
}

std::vector<std::string> race_in_short(const RaceRecord& race) {
    double planned_s = 0, took_s = 0;
    bool whole = true;
    for (const auto& leg : race.legs) {
        planned_s += leg.planned_s;
        took_s += leg.time_s;
        whole = whole && leg.time_s > 0;
    }
    const double carb = race.bike.carb_g + race.run.carb_g, fluid = race.bike.fluid_ml + race.run.fluid_ml;
    const double planned_carb = race.bike.planned_carb_g + race.run.planned_carb_g;
    const double planned_fluid = race.bike.planned_fluid_ml + race.run.planned_fluid_ml;
    std::vector<std::string> out;
    std::string planned = fmt::format("Planned: {:.0f} g of carbohydrate and up to {:.0f} ml on bike and run",
                                      planned_carb, planned_fluid);
    if (whole && planned_s > 0)
        planned += fmt::format(", in {} without transitions; it took {}", duration_text(planned_s),
                               duration_text(took_s));
    out.push_back(planned + ".");
    out.push_back(fmt::format(
        "Taken: {:.0f} g{} and {:.0f} ml.", carb,
        planned_carb > 0 ? fmt::format(" ({:.0f} %)", 100 * carb / planned_carb) : std::string(), fluid));
    out.push_back(felt(race));
    return out;
}

std::vector<std::string> changes_after(const RaceRecord& race, const Learned& before, const Learned& after) {
    std::vector<std::string> out;
    say_paces(race, before, after, out);
    say_intake(race, out);
    say_weather(race, out);
    say_sweat(before, after, out);
    say_gut("bike", before.bike, after.bike, out);
    say_gut("run", before.run, after.run, out);
    if (out.empty())
        out.push_back("Nothing: the day went as planned, and the next plan is a little surer.");
    return out;
}

} // namespace tuck
