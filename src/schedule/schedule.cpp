// The schedule stage: one leg after the other, each searched with the doses before it in view.
#include "tuck/schedule.hpp"

#include "base/conditions.hpp"
#include "base/sources.hpp"
#include "schedule/frames.hpp"
#include "schedule/lines.hpp"
#include "schedule/supplies.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

using namespace schedule;

struct RuleWords {
    const char* rule;
    const char* lift;
};

RuleWords words_of(Rule rule) {
    switch (rule) {
    case Rule::carb:
        return {"carbohydrate in any hour", "a higher rate once it has been rehearsed"};
    case Rule::glucose:
        return {"60 g/h by the glucose path", "foods with glucose and fructose, or gut training"};
    case Rule::fructose:
        return {"40 g/h by the fructose path", "foods with more glucose, or gut training"};
    case Rule::fluid_hour:
    case Rule::fluid_sweat:
        return {"the fluid ceiling",
                "a sweat test, which may allow more; never drink more to wash food down"};
    case Rule::gel_water:
        return {"water with every gel", "isotonic gels, or solids on the bike once rehearsed"};
    case Rule::caffeine:
        return {"the caffeine cap", "nothing: it stays"};
    case Rule::supply:
        return {"what can be carried or is handed out",
                "another bottle, more room in the belt, or aid stations "
                "(name them, or ask for typical ones)"};
    case Rule::none:
        break;
    }
    return {"the rhythm and whole units", "nothing needed: half a feed is within the plan's grain"};
}

/// What the leg misses, and the rule that kept the best pattern out.
void note_unmet(const Setting& now, const Decided& leg, Schedule& out) {
    const auto& need = now.need.legs[leg.frame.leg];
    const double hours = leg.frame.duration_s / 3600;
    const double short_g_per_h = need.carb_g_per_h - leg.choice.carb_g / hours;
    const bool small = short_g_per_h * hours < 12 || short_g_per_h < 0.1 * need.carb_g_per_h;
    if (is_transition(leg.frame.kind) || small)
        return;
    const bool no_hands = leg.frame.kind == LegKind::bike && hands_of(now.athlete) != Hands::bottle_and_food;
    if (no_hands) {
        out.unmet.push_back({"carbohydrate on the bike",
                             "hands stay on the bar: only the bottle on straight calm road",
                             std::round(short_g_per_h), "practise taking food while riding, then say so"});
        return;
    }
    const auto& blocked = leg.choice.blocked;
    const auto best = std::min_element(blocked.begin(), blocked.end());
    const bool known = *best < leg.choice.points;
    const auto words = words_of(known ? static_cast<Rule>(best - blocked.begin()) : Rule::none);
    out.unmet.push_back({fmt::format("carbohydrate on the {}", to_string(leg.frame.kind)), words.rule,
                         std::round(short_g_per_h), words.lift});
}

/// One gel with caffeine instead of a plain one in the second half of the race, if it was asked for and no
/// rule speaks against it.
void place_caffeine(const Setting& now, Decided& leg, std::vector<Dose>& doses, size_t settled,
                    const FluidCurves& curves) {
    if (!leg.frame.caffeine || !leg.choice.any)
        return;
    const auto feeds = expand(leg.frame, leg.choice.pattern);
    const auto& slots = leg.frame.rhythms[leg.choice.pattern.rhythm].slots;
    for (size_t i = 0; i < feeds.size(); ++i) {
        const bool late = leg.frame.start_s + slots[i].at_s > now.effort.total.p50_s / 2;
        if (!late || !feeds[i].item || feeds[i].item->solid)
            continue;
        Pattern pattern = leg.choice.pattern;
        pattern.caffeine_slot = static_cast<int>(i);
        const auto own = doses_of(leg.frame, pattern);
        auto trial = doses;
        std::copy(own.begin(), own.end(), trial.begin() + static_cast<std::ptrdiff_t>(settled));
        double day_mg = 0;
        for (const auto& dose : trial)
            day_mg += dose.caffeine_mg;
        if (day_mg > now.need.limits.caffeine_day_mg ||
            broken_rule(trial, settled, now.need.limits, curves) != Rule::none)
            continue;
        leg.choice.pattern = pattern;
        leg.choice.doses = own;
        doses = trial;
        return;
    }
}

bool has_caffeine(const std::vector<Dose>& doses) {
    return std::any_of(doses.begin(), doses.end(), [](const Dose& d) { return d.caffeine_mg > 0; });
}

void add_salt(double mg_per_ml, Decided& leg) {
    if (mg_per_ml <= 0 || leg.frame.kind != LegKind::bike)
        return;
    for (auto& feed : leg.lines.feeds)
        for (const auto& item : feed.items)
            if (item.unit == "swallow" && item.from != "station")
                feed.sodium_mg += mg_per_ml * item.amount * leg.frame.sip_ml;
}

void warn_about_stations(const Setting& now, Schedule& out) {
    bool none = true, run_long = false;
    for (size_t i = 0; i < now.effort.legs.size(); ++i) {
        none = none && stations_of(now.event, now.effort, i).empty();
        run_long =
            run_long || (now.effort.legs[i].kind == LegKind::run && now.effort.legs[i].time.p50_s > 20 * 60);
    }
    if (!none || !now.event.race || !run_long)
        return;
    const bool hot = now.event.weather.temperature_c >= 25;
    out.warnings.push_back(
        {"no_stations", hot ? Severity::danger : Severity::caution,
         "No aid stations were given, so this plan counts on none: on the run you have only what "
         "you carry. Look them up and name them in the event, or ask for typical ones."});
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

} // namespace

Schedule make_schedule(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                       const Need& need, const Pantry& pantry) {
    (void)body; // its sweat reaches the schedule through the need
    const Menu menu = make_menu(athlete, event.weather, need.limits, pantry);
    const KitInUse kit = kit_in_use(event, effort);
    const Setting now{athlete, event, effort, need, pantry, menu, kit};
    if (!need.fuelling_needed || need.no_rate)
        return nothing_to_schedule(now);
    Schedule out;
    out.assumptions = menu.left_out;
    note_kit(now, out);
    const FluidCurves curves(effort, need);
    std::vector<Dose> doses;
    std::vector<Decided> legs;
    for (size_t i = 0; i < effort.legs.size(); ++i) {
        Decided leg;
        leg.frame = frame_of(now, i, curves.leg_start_s(i));
        leg.choice = search_leg(leg.frame, doses, need.limits, curves);
        const size_t settled = doses.size();
        doses.insert(doses.end(), leg.choice.doses.begin(), leg.choice.doses.end());
        if (!has_caffeine(doses))
            place_caffeine(now, leg, doses, settled, curves);
        if (leg.choice.any)
            leg.lines = lines_of(leg.frame, leg.choice, kit, effort.legs[i].speed_m_s);
        note_unmet(now, leg, out);
        legs.push_back(leg);
    }
    const double salt = added_sodium_mg_per_ml(now, legs);
    pack(now, legs, salt, out);
    for (auto& leg : legs) {
        add_salt(salt, leg);
        out.feeds.insert(out.feeds.end(), leg.lines.feeds.begin(), leg.lines.feeds.end());
        out.lines.insert(out.lines.end(), leg.lines.lines.begin(), leg.lines.lines.end());
    }
    warn_about_stations(now, out);
    out.because = {
        {"every rhythm, amount and food of a small menu was priced on each leg and the cheapest that breaks "
         "no rule taken",
         source::our_choice}};
    return out;
}

} // namespace tuck
