// Before the start and after the finish.
#include "base/clock.hpp"
#include "plan/stages.hpp"

#include "base/conditions.hpp"
#include "base/sources.hpp"
#include "need/guidance.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck::plan {

namespace {

// Common practice, no source: minutes before the start, caps in grams.
constexpr int meal_min = static_cast<int>(figure("morning.meal_min")), up_min = 195,
              snack_min = static_cast<int>(figure("morning.snack_min")),
              toilet_min = static_cast<int>(figure("morning.toilet_min")),
              wetsuit_min = static_cast<int>(figure("morning.wetsuit_min")),
              last_carb_min = static_cast<int>(figure("morning.last_carb_min")), longest_after_meal_min = 240;
constexpr double long_delay_min = figure("morning.long_delay_min");
constexpr double most_loading_g = figure("morning.most_loading_g"),
                 most_meal_g = figure("morning.most_meal_g"),
                 loading_from_h = figure("morning.loading_from_h");
constexpr int late_start_min = 11 * 60; // so long after a usual breakfast that a snack helps

class Morning {
public:
    explicit Morning(const Event& event) {
        if (const auto own_min = own_start_min(event)) {
            start_ = static_cast<int>(*own_min);
            first_start_ = static_cast<int>(*own_min - event.delay_min);
        }
        delay_min_ = static_cast<int>(event.delay_min);
    }
    void add(int minutes_before, std::string text, std::string source, std::string when = {}) {
        if (when.empty())
            when = minutes_before >= 60 ? fmt::format("{:g} h before", minutes_before / 60.0)
                                        : fmt::format("{} min before", minutes_before);
        out.push_back({std::move(when), clock(start_, minutes_before), std::move(text), std::move(source)});
    }
    /// What was done before a delay was known.
    void add_early(int minutes_before, std::string text, std::string source) {
        add(minutes_before, std::move(text), std::move(source));
        out.back().clock = clock(first_start_, minutes_before);
        if (delay_min_ > 0)
            out.back().when += " the first start";
    }
    void note(std::string when, std::string text, std::string source) {
        out.push_back({std::move(when), "", std::move(text), std::move(source)});
    }
    std::vector<Moment> out;

private:
    static std::string clock(std::optional<int> start, int minutes_before) {
        if (!start)
            return "";
        const int at = ((*start - minutes_before) % 1440 + 1440) % 1440;
        return hour_of_day_text(at);
    }
    std::optional<int> start_, first_start_;
    int delay_min_ = 0;
};

double tens(double value) {
    return std::round(value / 10) * 10;
}

std::string range_g(double low, double high) {
    return low < high ? fmt::format("{:.0f} to {:.0f} g", tens(low), tens(high))
                      : fmt::format("{:.0f} g", tens(high));
}

bool may_load(const Stages& s) {
    const auto& health = s.athlete.health;
    return s.event.race && !is_minor(s.athlete) && !health.pregnant_or_breastfeeding &&
           !health.glucose_lowering_medicine && !health.recent_gut_illness;
}

bool empties_the_stores(const Stages& s) {
    return s.outlook.days > 0 && s.outlook.glycogen_gone > 0.5;
}

void day_before(const Stages& s, Morning& morning) {
    const double hours = s.effort.total.p50_s / 3600;
    if (hours < 1.5 || s.need.no_rate)
        return;
    if ((hours > loading_from_h || empties_the_stores(s)) && may_load(s)) {
        const double low = std::min(10 * s.athlete.mass_kg, most_loading_g);
        const double high = std::min(12 * s.athlete.mass_kg, most_loading_g);
        morning.note("1-2 days before",
                     s.athlete.health.past_eating_disorder
                         ? std::string("Carbohydrate at every meal and between, familiar food, little fibre.")
                         : fmt::format("Load: {} of carbohydrate a day, familiar food, little fibre; rest.",
                                       range_g(low, high)),
                     "Burke 2011 (10-12 g/kg a day over 90 min); cap: common practice, no source");
        return;
    }
    morning.note("the day before", "A normal day with carbohydrate at every meal; no need to stuff yourself.",
                 source::practice);
}

void meal_and_drinks(const Stages& s, Morning& morning) {
    const double m = s.athlete.mass_kg;
    if (s.need.no_rate) {
        morning.add_early(meal_min, "Breakfast as your clinic or doctor advises.", source::practice);
        return;
    }
    const bool grams = !s.athlete.health.past_eating_disorder;
    morning.add_early(
        meal_min,
        grams ? fmt::format(
                    "Breakfast: familiar, low in fibre and fat, {} of carbohydrate.{} Nervous? Drink it.",
                    range_g(std::min(m, most_meal_g), std::min(2 * m, most_meal_g)),
                    breakfast_examples(s, std::min(1.5 * m, most_meal_g)))
              : std::string("Breakfast: familiar, low in fibre and fat. Nervous? Drink it."),
        "Wallis & Podlogar 2022 (1-4 g/kg, 1-4 h before); cap: common practice, no source");
    morning.add_early(meal_min + 60 > 240 ? 240 : meal_min,
                      fmt::format("Drink with it: {:.0f} to {:.0f} ml in all.", tens(5 * m), tens(7 * m)),
                      "ACSM 2007 (5-7 mL/kg)");
    if (s.athlete.morning_coffee_mg > 0)
        morning.add_early(
            meal_min, fmt::format("Your coffee counts: {:.0f} mg of caffeine.", s.athlete.morning_coffee_mg),
            "EFSA 2015");
    morning.add_early(
        120,
        fmt::format("Only if there is no urine or it is dark: {:.0f} to {:.0f} ml more. Then thirst.",
                    tens(3 * m), tens(5 * m)),
        "ACSM 2007 (3-5 mL/kg)");
    const auto own_min = own_start_min(s.event);
    const bool long_after =
        own_min && (*own_min >= late_start_min || meal_min + s.event.delay_min > longest_after_meal_min);
    if (long_after && s.need.fuelling_needed)
        morning.add(snack_min, "More than 4 h since breakfast? A snack of 30 to 60 g of carbohydrate.",
                    source::practice);
}

} // namespace

std::vector<Moment> moments_before(const Stages& s) {
    Morning morning(s.event);
    day_before(s, morning);
    if (s.event.start_min)
        morning.add_early(up_min, "Up.", source::practice);
    meal_and_drinks(s, morning);
    if (s.event.race)
        morning.add(toilet_min, "Toilet: the queue takes 30 min.", source::practice);
    if (s.event.transition_closes_min)
        morning.out.push_back({"", hour_of_day_text(*s.event.transition_closes_min),
                               "Transition shuts: bottles on the bike, belt laid out.", source::own_input});
    const bool swims = !s.event.legs.empty() && s.event.legs.front().kind == LegKind::swim;
    if (swims && s.event.race)
        morning.add(wetsuit_min, "Wetsuit on, if worn. No extra drinking to fill up.", source::practice);
    if (s.need.fuelling_needed && !s.need.no_rate)
        morning.add(last_carb_min, "Optional: a gel or a few swallows of sports drink, if rehearsed.",
                    source::practice);
    if (s.event.delay_min > 0)
        morning.note(fmt::format("delayed by {:.0f} min", s.event.delay_min),
                     s.event.delay_min > long_delay_min && s.need.fuelling_needed && !s.need.no_rate
                         ? "While you wait: shade or a coat, sips to thirst, one small familiar snack an "
                           "hour. The plan "
                           "itself stays as it is."
                         : "While you wait: shade or a coat, sips to thirst. The plan itself stays as it is.",
                     source::practice);
    else if (s.event.race)
        morning.note("start delayed", "Over 30 min: sip to thirst, one small familiar snack an hour.",
                     source::practice);
    return morning.out;
}

std::vector<Warning> loading_warnings(const Stages& s) {
    const auto& total = s.effort.total;
    if (!may_load(s) || empties_the_stores(s) || !need::turns_at(total, loading_from_h * 3600))
        return {};
    return {{"loading_edge", Severity::note,
             total.p50_s > loading_from_h * 3600
                 ? "On a fast day this takes less than three hours and needs no loading: leave it out if it "
                   "does not suit you."
                 : "On a slow day this takes over three hours: make the day before rich in carbohydrate; "
                   "loading is still not needed."}};
}

std::vector<Moment> moments_after(const Stages& s) {
    std::vector<Moment> out{
        {"at the finish", "", "Drink to thirst, something salty to eat, then a meal.", source::practice}};
    if (s.event.next_session_within_24_h)
        out.push_back(
            {"next 4-6 h", "",
             s.athlete.health.past_eating_disorder
                 ? "Training again within 24 h: drink with food and to thirst, spread out. Not with "
                   "bloating, headache, vomiting or no urine: then see a medic."
                 : "Training again within 24 h: for each kilogram of water lost 1.25 to 1.5 L, spread out, "
                   "with food. Not if you weigh the same or more, and not with bloating, headache, vomiting "
                   "or no urine: then see a medic.",
             "ACSM 2007; German Nutrition Society 2020"});
    if (s.need.fuelling_needed && s.event.next_session_within_24_h && !s.need.no_rate &&
        !s.athlete.health.past_eating_disorder)
        out.push_back({"first 4 h", "",
                       fmt::format("Carbohydrate: about {:.0f} g an hour.", tens(s.athlete.mass_kg)),
                       "Wallis & Podlogar 2022 (1.0-1.2 g/kg/h)"});
    return out;
}

} // namespace tuck::plan
