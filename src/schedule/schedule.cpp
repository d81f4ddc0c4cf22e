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

/// One gel with caffeine instead of a plain one, late but with an hour of use left, if it was asked for.
void place_caffeine(const Setting& now, Decided& leg, std::vector<Dose>& doses, double total_s,
                    Schedule& out) {
    if (!now.menu.caffeine || leg.lines.feeds.empty())
        return;
    for (auto& feed : leg.lines.feeds) {
        auto item = std::find_if(feed.items.begin(), feed.items.end(),
                                 [](const FeedItem& i) { return i.unit == "gel"; });
        const double at_s = leg.frame.start_s + feed.at_s;
        if (item == feed.items.end() || at_s < total_s * 0.5)
            continue;
        const Food* plain = now.pantry.find(item->food);
        const auto& caf = *now.menu.caffeine;
        // Only a like-for-like exchange keeps every rule that the pattern was checked for.
        if (!plain || plain->carb_g != caf.food->carb_g || plain->glucose_g != caf.food->glucose_g ||
            plain->water_g != caf.food->water_g || plain->needs_water != caf.food->needs_water)
            continue;
        item->food = caf.food->id;
        feed.caffeine_mg += caf.dose.caffeine_mg;
        feed.sodium_mg += caf.food->sodium_mg - plain->sodium_mg;
        for (auto& dose : doses)
            if (dose.at_s == at_s)
                dose.caffeine_mg += caf.dose.caffeine_mg;
        PlanLine line;
        line.leg_index = feed.leg_index;
        line.leg = feed.leg;
        line.from_s = line.to_s = feed.at_s;
        line.at_s = {feed.at_s};
        line.items = {{caf.food->id, 1, "gel", item->from}};
        line.when =
            leg.frame.kind == LegKind::run ? fmt::format("km {:.1f}", feed.km) : clock_text(feed.at_s);
        line.what = "this gel with caffeine";
        line.text = line.when + ": " + line.what;
        // The plain gel of that moment leaves its own line.
        for (auto& other : leg.lines.lines)
            if (!other.items.empty() && other.items.front().food == plain->id)
                other.at_s.erase(std::remove(other.at_s.begin(), other.at_s.end(), feed.at_s),
                                 other.at_s.end());
        leg.lines.lines.push_back(line);
        out.carry.push_back({caf.food->id, 1, "gel", leg.frame.kind == LegKind::run ? "belt" : "bike",
                             fmt::format("1 x {} (one of the gels above)", caf.food->name)});
        return;
    }
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
    if (now.event.weather.temperature_c < 25 && now.effort.total.p50_s < 45 * 60)
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
        doses.insert(doses.end(), leg.choice.doses.begin(), leg.choice.doses.end());
        if (leg.choice.any)
            leg.lines = lines_of(leg.frame, leg.choice, kit, effort.legs[i].speed_m_s);
        note_unmet(now, leg, out);
        legs.push_back(leg);
    }
    const double salt = added_sodium_mg_per_ml(now, legs);
    pack(now, legs, salt, out);
    bool caffeine_placed = false;
    for (auto& leg : legs) {
        add_salt(salt, leg);
        if (!caffeine_placed && leg.frame.kind == LegKind::run) {
            place_caffeine(now, leg, doses, effort.total.p50_s, out);
            caffeine_placed = true;
        }
        out.feeds.insert(out.feeds.end(), leg.lines.feeds.begin(), leg.lines.feeds.end());
        for (const auto& line : leg.lines.lines)
            if (!line.at_s.empty())
                out.lines.push_back(line);
    }
    warn_about_stations(now, out);
    out.because = {
        {"every rhythm, amount and food of a small menu was priced on each leg and the cheapest that breaks "
         "no rule taken",
         source::our_choice}};
    return out;
}

} // namespace tuck
