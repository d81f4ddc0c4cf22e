// The schedule stage: from the stages before to a program, its optimum, and the words for it.
#include "tuck/schedule.hpp"

#include "base/conditions.hpp"
#include "base/sources.hpp"
#include "schedule/budget.hpp"
#include "schedule/frames.hpp"
#include "schedule/habit.hpp"
#include "schedule/judge.hpp"
#include "schedule/lines.hpp"
#include "schedule/lp.hpp"
#include "schedule/own_plan.hpp"
#include "schedule/pins.hpp"
#include "schedule/slots.hpp"
#include "schedule/supplies.hpp"
#include "schedule/unmet.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

using namespace schedule;

/// The most plain enough drink within a quarter of an hour of one feed, ml.
double water_around_ml(const Decided& leg) {
    constexpr double within_s = 15 * 60;
    double most = 0;
    for (const auto& at : leg.taken) {
        double ml = 0;
        for (const auto& other : leg.taken)
            ml += std::abs(other.at_s - at.at_s) <= within_s + 1 ? other.sips * leg.leg->sip_ml : 0;
        most = std::max(most, ml);
    }
    return most;
}

/// Foods that the athlete has or likes and that a leg leaves to others, with the rule and its numbers.
void note_kept_out_foods(const std::vector<Decided>& legs, Schedule& out) {
    for (const auto& leg : legs)
        for (const auto& food : leg.leg->foods) {
            const bool used = std::any_of(leg.taken.begin(), leg.taken.end(), [&food](const Taken& feed) {
                return feed.item && feed.item->food == food.portion.food;
            });
            const bool another = std::any_of(leg.taken.begin(), leg.taken.end(), [&food](const Taken& feed) {
                return feed.item && feed.item->rank > 0 && feed.item->solid == food.portion.solid;
            });
            if (food.portion.rank > 0 || used || !another || food.served)
                continue;
            const double wanted = food.amounts[gel_water] / 1000.0, given = water_around_ml(leg);
            const double carb_g = food.amounts[carb] / 1000.0, hour_g = leg.leg->caps.hour[carb] / 1000.0;
            std::string why = "it does not fit the rate and the rhythm";
            if (wanted > given)
                why = fmt::format("{:.0f} ml of water wanted within 15 min of it, {:.0f} ml planned", wanted,
                                  given);
            else if (2 * carb_g > hour_g)
                why =
                    fmt::format("{:.0f} g at once, and no hour may hold more than {:.0f} g", carb_g, hour_g);
            out.assumptions.push_back(fmt::format("{} is not used on the {}: {}.", food.portion.food->name,
                                                  to_string(leg.leg->kind), why));
        }
}

bool near_caffeine(const Program& program, const FixedItem& place) {
    constexpr double apart_s = 60 * figure("feed.doses_apart_min");
    return std::any_of(program.fixed.begin(), program.fixed.end(), [&place](const FixedItem& item) {
        return item.amounts[caffeine] > 0 && std::abs(item.clock_s[likely] - place.clock_s[likely]) < apart_s;
    });
}

/// One more gel with caffeine late in the race, where no rule speaks against it.
bool fix_caffeine(const Setting& now, Program& program, WorkBudget& budget) {
    const long long for_the_plan = budget.left() * 3 / 4;
    for (const auto& place : caffeine_places(now, program)) {
        if (budget.left() <= for_the_plan)
            return false;
        if (near_caffeine(program, place))
            continue;
        Program trial = program;
        fix(trial, place);
        if (budget.solve(trial, quick_work).any) {
            program = std::move(trial);
            return true;
        }
    }
    return false;
}

/// The doses that are wanted: as many as come nearest to the amount that was asked for, else one. Pinned ones
/// count.
void fix_doses(const Setting& now, Program& program, WorkBudget& budget, Schedule& out) {
    if (!now.menu.caffeine)
        return;
    const double dose_mg = now.menu.caffeine->dose.caffeine_mg;
    const double wanted_mg = now.event.caffeine_mg.value_or(dose_mg);
    double given_mg = 0;
    for (const auto& item : program.fixed)
        given_mg += item.amounts[caffeine] / 1000.0;
    while (given_mg + dose_mg / 2 <= wanted_mg || given_mg <= 0) {
        if (!fix_caffeine(now, program, budget))
            break;
        given_mg += dose_mg;
    }
    if (now.event.caffeine_mg && std::abs(given_mg - wanted_mg) > 1)
        out.assumptions.push_back(
            fmt::format("Caffeine: {:.0f} mg wished for, {:.0f} mg planned: a {} holds {:.0f} mg, {}.",
                        wanted_mg, given_mg, now.menu.caffeine->food->name, dose_mg,
                        given_mg < wanted_mg - dose_mg / 2 ? "and no more fits the caps and the day"
                                                           : "and half of one is no dose"));
}

/// What is pinned; the moment that was asked for caffeine is a pin of the gel that holds it.
std::vector<Pin> pins_of(const Setting& now) {
    auto pins = now.event.pins;
    if (!now.event.caffeine_at_s || !now.menu.caffeine)
        return pins;
    const auto& legs = now.event.legs;
    const bool rides =
        std::any_of(legs.begin(), legs.end(), [](const Leg& leg) { return leg.kind == LegKind::bike; });
    Pin pin;
    pin.leg = rides ? LegKind::bike : LegKind::run;
    pin.at_s = *now.event.caffeine_at_s;
    pin.food = now.menu.caffeine->food->id;
    const int minutes = static_cast<int>(std::lround(*pin.at_s / 60));
    pin.said = fmt::format("caffeine at {}:{:02}", minutes / 60, minutes % 60);
    pins.insert(pins.begin(), pin);
    return pins;
}

/// The best plan with everything that is fixed; a quarter of the work is kept for the questions after it.
Solution best_plan(const Program& program, WorkBudget& budget) {
    return budget.solve(program, budget.left() - budget.left() / 4);
}

/// What the limit of lines costs, if a leg uses it up: the same day without it.
void note_line_limit(const Setting& now, const Program& program, const std::vector<Decided>& legs,
                     WorkBudget& budget, Schedule& out) {
    const auto full = [&now](const Decided& leg) { // what a card asks for; else few lines are what is wanted
        const bool asked = leg.leg->kind == LegKind::bike ? now.event.max_lines_bike.has_value()
                                                          : now.event.max_lines_run.has_value();
        return asked && !leg.leg->grids.empty() &&
               leg.choice.drink.lines + static_cast<int>(leg.choice.items.size()) >= leg.leg->max_lines;
    };
    if (std::none_of(legs.begin(), legs.end(), full))
        return;
    constexpr int any_number = 99;
    Program free = program;
    for (auto& leg : free.legs)
        leg.max_lines = any_number;
    const auto solution = budget.solve(free, quick_work);
    for (size_t i = 0; solution.any && i < legs.size(); ++i) {
        if (!full(legs[i]) || is_transition(legs[i].leg->kind))
            continue;
        const double hours = legs[i].leg->length_s[likely] / 3600;
        const double wanted_g = now.need.legs[i].carb_g_per_h * hours;
        const double more_g = std::abs(legs[i].carb_g - wanted_g) -
                              std::abs(decided(free, i, solution.legs[i], now.kit, 0).carb_g - wanted_g);
        out.because.push_back(
            {fmt::format("no more than {} lines on the {}: that costs {:.0f} g/h{}", legs[i].leg->max_lines,
                         to_string(legs[i].leg->kind), std::max(0.0, more_g) / hours,
                         solution.bound < solution.points ? ", as far as it was searched" : ""),
             source::our_choice});
    }
}

void note_stations(const Setting& now, Schedule& out) {
    bool none = true, runs = false;
    for (size_t i = 0; i < now.effort.legs.size(); ++i) {
        none = none && stations_of(now.event, now.effort, i).empty();
        runs = runs || now.effort.legs[i].kind == LegKind::run;
    }
    if (none && runs && now.event.race)
        out.assumptions.push_back(
            "Aid stations not given: the plan counts on none, so on the run there is only what you "
            "carry. Name the event's own, or ask for typical ones.");
}

/// What the size of the card asked of the plan.
void note_line_limits(const Setting& now, Schedule& out) {
    std::vector<std::string> limits;
    const auto add = [&](LegKind kind, const std::optional<int>& most, int usual) {
        const bool any = std::any_of(now.effort.legs.begin(), now.effort.legs.end(),
                                     [kind](const LegEffort& leg) { return leg.kind == kind; });
        if (any && most && *most < usual)
            limits.push_back(
                fmt::format("{}{} on the {}", *most, limits.empty() ? " lines" : "", to_string(kind)));
    };
    add(LegKind::bike, now.event.max_lines_bike, usual_bike_lines);
    add(LegKind::run, now.event.max_lines_run, usual_run_lines);
    if (!limits.empty())
        out.assumptions.push_back(
            fmt::format("At most {}: one side of the card holds no more.", fmt::join(limits, " and ")));
}

void note_kit(const Setting& now, Schedule& out) {
    if (now.kit.bottles_assumed) {
        std::vector<std::string> bottles;
        for (const double ml : now.kit.bottles_ml)
            bottles.push_back(fmt::format("{:.0f} ml", ml));
        out.assumptions.push_back(
            fmt::format("Bottles not given: {} on the bike, the usual kit (common practice).",
                        fmt::join(bottles, " and ")));
    }
    if (now.kit.run_gels_assumed)
        out.assumptions.push_back("Run belt not given: room for 2 gels (common practice).");
    if (!now.athlete.hands)
        out.assumptions.push_back(
            hands_of(now.athlete) == Hands::bottle
                ? "Hands not given: a beginner takes the bottle, and food only off the bike."
                : "Hands not given: bottle and food can be taken while riding.");
    if (now.event.station_policy == StationPolicy::typical)
        out.assumptions.push_back(
            "Aid stations assumed: every 2 km on the run and, over 60 km, every 20 km on the "
            "bike, with water and sports drink (common practice). Check the race's own list.");
}

Schedule nothing_to_schedule(const Setting& now) {
    Schedule out;
    // Under an hour nobody needs a bottle unless it is warm (German Nutrition Society 2020: none under 30-40
    // min; Kenefick 2018: thirst is enough under 60-90 min).
    if (now.event.weather.temperature_c < 25 && now.effort.total.p50_s < 60 * 60)
        return out;
    const bool bike = !now.kit.bottles_ml.empty();
    out.carry.push_back(
        {"water_tap", 1, "bottle", bike ? "bike" : "hand",
         bike ? fmt::format("1 x {:.0f} ml bottle of water on the bike, to thirst", now.kit.bottles_ml[0])
              : std::string("A bottle of water at the start and the finish, to thirst")});
    return out;
}

/// What was typed takes its place in the hours of those legs that are planned around it.
Program around(const Setting& now, const OwnPlan& own) {
    Program program = program_of(now);
    for (auto& leg : program.legs)
        if (own.has(leg.leg))
            leg.grids.clear();
    for (const auto& leg : own.legs)
        for (const auto& feed : leg.feeds) {
            FixedItem item;
            item.leg = leg.leg->leg;
            item.at_s = feed.at_s;
            item.clock_s = clock_of(now, item.leg, feed.at_s);
            Dose dose;
            dose.carb_g = feed.carb_g;
            dose.glucose_g = feed.glucose_g;
            dose.fructose_g = feed.fructose_g;
            dose.fluid_ml = feed.fluid_ml;
            dose.sodium_mg = feed.sodium_mg;
            dose.caffeine_mg = feed.caffeine_mg;
            item.amounts = amounts_of(dose);
            program.fixed.push_back(item);
        }
    return program;
}

/// Plans the legs for which nothing was typed.
void fill_other_legs(const Setting& now, const OwnPlan& own, Schedule& out) {
    if (!now.need.fuelling_needed || now.need.no_rate)
        return;
    const Program program = around(now, own);
    WorkBudget budget;
    const Solution solution = best_plan(program, budget);
    if (!solution.any) {
        out.assumptions.push_back("What was typed leaves no room for a plan of the other legs.");
        return;
    }
    std::vector<Decided> legs;
    for (size_t i = 0; i < program.legs.size(); ++i)
        if (!own.has(i))
            legs.push_back(decided(program, i, solution.legs[i], now.kit, 0));
    pack(now, legs, out);
    for (const auto& leg : legs) {
        out.feeds.insert(out.feeds.end(), leg.feeds.begin(), leg.feeds.end());
        out.lines.insert(out.lines.end(), leg.lines.begin(), leg.lines.end());
    }
}

/// Of every rule and leg the breach that goes furthest, and how often it is broken in all.
std::vector<Breach> worst_of(const std::vector<Breach>& all) {
    std::vector<Breach> out;
    std::vector<int> times;
    for (const auto& breach : all) {
        const auto known = std::find_if(out.begin(), out.end(), [&breach](const Breach& other) {
            return other.rule == breach.rule && other.leg_index == breach.leg_index;
        });
        if (known == out.end()) {
            out.push_back(breach);
            times.push_back(1);
            continue;
        }
        ++times[static_cast<size_t>(known - out.begin())];
        if (std::abs(breach.value - breach.allowed) > std::abs(known->value - known->allowed))
            *known = breach;
    }
    for (size_t i = 0; i < out.size(); ++i)
        if (times[i] > 1)
            out[i].text += fmt::format("; {} times in all", times[i]);
    return out;
}

/// The athlete's own lines: taken as they stand, judged by all rules, packed for a slow day.
Schedule own_schedule(const Setting& now) {
    OwnPlan own;
    read_own_plan(now, own);
    Schedule out;
    out.own = true;
    note_kit(now, out);
    if (now.event.fill)
        fill_other_legs(now, own, out);
    out.mix.insert(out.mix.end(), own.mix.begin(), own.mix.end());
    out.carry.insert(out.carry.end(), own.bottles.begin(), own.bottles.end());
    pack_food(now, own.legs, out);
    note_refill(now, own.legs, out);
    out.feeds.insert(out.feeds.end(), own.feeds.begin(), own.feeds.end());
    out.lines.insert(out.lines.end(), own.lines.begin(), own.lines.end());
    std::stable_sort(out.feeds.begin(), out.feeds.end(), [](const PlanFeed& a, const PlanFeed& b) {
        return std::pair(a.leg_index, a.at_s) < std::pair(b.leg_index, b.at_s);
    });
    std::stable_sort(out.lines.begin(), out.lines.end(),
                     [](const Line& a, const Line& b) { return a.leg_index < b.leg_index; });
    for (size_t i = 0; i < now.effort.legs.size(); ++i)
        out.bike_stations = out.bike_stations || (now.effort.legs[i].kind == LegKind::bike &&
                                                  !stations_of(now.event, now.effort, i).empty());
    out.broken = worst_of(judge({now.athlete, now.event, now.effort, now.need, now.pantry, out}));
    std::stable_sort(out.broken.begin(), out.broken.end(),
                     [](const Breach& a, const Breach& b) { return a.danger && !b.danger; });
    out.because = {{now.event.fill ? "the athlete's own lines as they stand, and a plan for the other legs"
                                   : "the athlete's own lines as they stand",
                    "the athlete's own choice"}};
    return out;
}

Schedule scheduled(const Athlete& athlete, const Event& event, const Effort& effort, const Need& need,
                   const Pantry& pantry, bool with_lp, bool with_help) {
    const Menu menu = make_menu(athlete, event.weather, need.limits, pantry);
    const KitInUse kit = kit_in_use(event, effort);
    const Setting now{athlete, event, effort, need, pantry, menu, kit};
    if (!event.own_lines.empty())
        return own_schedule(now);
    if (!need.fuelling_needed || need.no_rate) {
        Schedule out = nothing_to_schedule(now);
        for (const auto& pin : event.pins)
            out.kept_out.push_back({pin.said, "nothing is scheduled on this day"});
        return out;
    }
    Schedule out;
    out.assumptions = menu.left_out;
    note_kit(now, out);
    for (size_t i = 0; i < effort.legs.size(); ++i)
        out.bike_stations = out.bike_stations ||
                            (effort.legs[i].kind == LegKind::bike && !stations_of(event, effort, i).empty());
    note_line_limits(now, out);
    Program program = program_of(now);
    WorkBudget budget;
    budget.spend(learn_habits(now, program, quick_work));
    out.kept_out = fix_pins(now, pins_of(now), program, budget);
    fix_doses(now, program, budget, out);
    const Solution solution = best_plan(program, budget);
    if (with_lp)
        out.lp = lp_text(program, solution);
    std::vector<Decided> legs;
    double drunk_ml = 0;
    for (size_t i = 0; solution.any && i < program.legs.size(); ++i) {
        legs.push_back(decided(program, i, solution.legs[i], kit, drunk_ml));
        drunk_ml += legs.back().leg->bottles ? legs.back().own_ml : 0;
    }
    if (with_help)
        out.unmet = find_unmet(now, program, legs, budget);
    note_kept_out_foods(legs, out);
    pack(now, legs, out);
    for (const auto& leg : legs) {
        out.feeds.insert(out.feeds.end(), leg.feeds.begin(), leg.feeds.end());
        out.lines.insert(out.lines.end(), leg.lines.begin(), leg.lines.end());
    }
    note_stations(now, out);
    out.because = {{solution.bound >= solution.points
                        ? "of all plans on one clock that keep the rules on the likely and the slow day this "
                          "costs least: proven"
                        : fmt::format("a plan on one clock that keeps the rules on the likely and the slow "
                                      "day; at most {:.1f} % dearer "
                                      "than the best there may be",
                                      100.0 * static_cast<double>(solution.points - solution.bound) /
                                          static_cast<double>(std::max<Cost>(1, solution.bound))),
                    source::our_choice}};
    note_line_limit(now, program, legs, budget, out);
    return out;
}

} // namespace

// The body's sweat reaches the schedule through the need.
Schedule make_schedule(const Athlete& athlete, const Event& event, const Effort& effort, const Body&,
                       const Need& need, const Pantry& pantry, bool with_lp) {
    return scheduled(athlete, event, effort, need, pantry, with_lp, true);
}

Schedule quick_schedule(const Athlete& athlete, const Event& event, const Effort& effort, const Body&,
                        const Need& need, const Pantry& pantry) {
    return scheduled(athlete, event, effort, need, pantry, false, false);
}

} // namespace tuck
