#include "schedule/judge_days.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace tuck::schedule {

namespace {

constexpr double poured_cup_ml = figure("kit.cup_ml"),
                 before_dismount_s = 60 * figure("feed.before_dismount_min"),
                 waited_out_s = figure("feed.waited_out_s"), busy_edge_s = figure("feed.busy_edge_s");

double length_s(const LegEffort& leg, Which which) {
    return which == Which::p10 ? leg.time.p10_s : which == Which::p90 ? leg.time.p90_s : leg.time.p50_s;
}

Bite eaten(const Case& asked, const FeedItem& item) {
    Bite out;
    out.item = item;
    out.food = asked.pantry.find(item.food);
    out.drink = is_drink(item);
    if (!out.food || out.drink)
        return out;
    out.carb_g = item.amount * out.food->carb_g;
    out.glucose_g = item.amount * out.food->glucose_g;
    out.fructose_g = item.amount * out.food->fructose_g;
    out.fluid_ml = item.amount * out.food->water_g;
    out.sodium_mg = item.amount * out.food->sodium_mg;
    out.caffeine_mg = item.amount * out.food->caffeine_mg;
    return out;
}

/// What a feed holds beside the foods is its drink's.
std::vector<Bite> bites_of(const Case& asked, const PlanFeed& feed) {
    std::vector<Bite> out;
    Bite rest;
    rest.carb_g = feed.carb_g;
    rest.glucose_g = feed.glucose_g;
    rest.fructose_g = feed.fructose_g;
    rest.fluid_ml = feed.fluid_ml;
    rest.sodium_mg = feed.sodium_mg;
    rest.caffeine_mg = feed.caffeine_mg;
    for (const auto& item : feed.items) {
        out.push_back(eaten(asked, item));
        rest.carb_g -= out.back().carb_g;
        rest.glucose_g -= out.back().glucose_g;
        rest.fructose_g -= out.back().fructose_g;
        rest.fluid_ml -= out.back().fluid_ml;
        rest.sodium_mg -= out.back().sodium_mg;
        rest.caffeine_mg -= out.back().caffeine_mg;
    }
    for (auto& bite : out)
        if (bite.drink || &bite == &out.back()) { // without a drink the rest is a fault of the last food
            bite.carb_g += rest.carb_g;
            bite.glucose_g += rest.glucose_g;
            bite.fructose_g += rest.fructose_g;
            bite.fluid_ml += rest.fluid_ml;
            bite.sodium_mg += rest.sodium_mg;
            bite.caffeine_mg += rest.caffeine_mg;
            break;
        }
    return out;
}

bool busy_at(const LegEffort& leg, double likely_s) {
    return std::any_of(leg.busy.begin(), leg.busy.end(), [likely_s](const Stretch& s) {
        return s.to_s - s.from_s >= waited_out_s && likely_s > s.from_s - busy_edge_s &&
               likely_s < s.to_s + busy_edge_s;
    });
}

/// The last drink of the leg like this one, with so many swallows.
std::optional<Bite> like_before(const JudgedDay& day, int leg, const FeedItem& item) {
    for (auto sitting = day.sittings.rbegin(); sitting != day.sittings.rend(); ++sitting)
        for (Bite bite : sitting->bites)
            if (sitting->leg_index == leg && bite.drink && bite.item.food == item.food &&
                bite.item.amount == item.amount)
                return bite;
    return std::nullopt;
}

/// Where a line goes on until the leg is over: what it would still say on this day.
void go_on(const Case& asked, JudgedDay& day) {
    const size_t known = day.sittings.size();
    for (const auto& line : asked.schedule.lines) {
        if (line.leg != LegKind::bike || line.goes_on_every_s <= 0)
            continue;
        const auto leg = static_cast<size_t>(line.leg_index);
        const double stretch = day.lengths_s[leg] / asked.effort.legs[leg].time.p50_s;
        for (double at_s = line.goes_on_from_s; at_s <= day.lengths_s[leg] - before_dismount_s;
             at_s += line.goes_on_every_s) {
            if (busy_at(asked.effort.legs[leg], at_s / stretch))
                continue;
            Sitting more{day.starts_s[leg] + at_s, line.leg_index, line.leg, at_s, 0, {}};
            for (const auto& said : line.items) {
                const FeedItem item{said.food, said.amount, said.unit, said.from.back().name, said.label};
                const Bite bite = eaten(asked, item);
                if (const auto drunk = bite.drink ? like_before(day, line.leg_index, item) : bite;
                    drunk && !is_solid(*drunk))
                    more.bites.push_back(*drunk);
            }
            const auto same =
                std::find_if(day.sittings.begin() + static_cast<std::ptrdiff_t>(known), day.sittings.end(),
                             [&more](const Sitting& other) {
                                 return other.leg_index == more.leg_index && other.at_s == more.at_s;
                             });
            if (same != day.sittings.end())
                same->bites.insert(same->bites.end(), more.bites.begin(), more.bites.end());
            else if (!more.bites.empty())
                day.sittings.push_back(more);
        }
    }
}

} // namespace

const char* to_string(Which which) {
    return which == Which::p10 ? "fast" : which == Which::p90 ? "slow" : "likely";
}

double Sitting::sum(double Bite::*what) const {
    double out = 0;
    for (const auto& bite : bites)
        out += bite.*what;
    return out;
}

bool is_solid(const Bite& bite) {
    return bite.food && (bite.food->form == Form::bar || bite.food->form == Form::solid);
}

bool is_drink(const FeedItem& item) {
    return item.unit == "swallow" || item.unit == "cup";
}

bool is_strong(const Case& asked, const Bite& bite) {
    constexpr double strong_g_per_ml = 0.08, grain_g = 0.01;
    return bite.drink &&
           bite.carb_g > strong_g_per_ml * bite.item.amount * sip_ml(asked, bite.item) + grain_g;
}

double sip_ml(const Case& asked, const FeedItem& item) {
    return item.unit == "cup" ? poured_cup_ml : asked.athlete.swallow_ml.count();
}

JudgedDay day_of(const Case& asked, Which which) {
    JudgedDay out;
    out.which = which;
    double start_s = 0;
    for (const auto& leg : asked.effort.legs) {
        out.starts_s.push_back(start_s);
        out.lengths_s.push_back(length_s(leg, which));
        start_s += out.lengths_s.back();
    }
    for (const auto& feed : asked.schedule.feeds) {
        const auto leg = static_cast<size_t>(feed.leg_index);
        if (leg >= asked.effort.legs.size())
            continue; // `inside_leg` tells
        const bool by_clock = feed.leg == LegKind::bike && !feed.by_place;
        const double at_s =
            by_clock ? feed.at_s : feed.at_s * out.lengths_s[leg] / asked.effort.legs[leg].time.p50_s;
        if (which == Which::p50 || feed.leg != LegKind::bike ||
            at_s <= out.lengths_s[leg] - before_dismount_s)
            out.sittings.push_back(
                {out.starts_s[leg] + at_s, feed.leg_index, feed.leg, at_s, feed.km, bites_of(asked, feed)});
    }
    const auto by_clock = [](const Sitting& a, const Sitting& b) { return a.clock_s < b.clock_s; };
    std::stable_sort(out.sittings.begin(), out.sittings.end(), by_clock);
    if (which == Which::p90)
        go_on(asked, out);
    std::stable_sort(out.sittings.begin(), out.sittings.end(), by_clock);
    return out;
}

} // namespace tuck::schedule
