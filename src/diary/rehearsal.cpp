#include "tuck/rehearsal.hpp"

#include "base/dates.hpp"
#include "base/sources.hpp"
#include "diary/session_lines.hpp"
#include "tuck/figures.hpp"
#include "tuck/need.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

constexpr double fully_rehearsed_g_per_h = figure("ladder.most_untrained_g_per_h");
constexpr int no_new_step_days = static_cast<int>(figure("ladder.no_new_step_days")),
              last_one_days = static_cast<int>(figure("ladder.last_one_days"));
constexpr double delivered = figure("ladder.planned_of_asked"), short_day_delivered = 0.5,
                 short_day_min = 120; // of what was asked: the rest is whole units

bool has(const Event& event, LegKind kind) {
    return std::any_of(event.legs.begin(), event.legs.end(),
                       [kind](const Leg& leg) { return leg.kind == kind; });
}

bool has_bike(const Event& event) {
    return has(event, LegKind::bike);
}

LegKind main_leg(const Event& race) {
    return has_bike(race) ? LegKind::bike : LegKind::run;
}

const GutTolerance& main_gut(const Event& race, const Learned& learned) {
    return has_bike(race) ? learned.bike : learned.run;
}

/// Common practice, no source. `below_min`: of a race without a name of its own.
struct UsualSession {
    const char* name;
    double below_min, ride_min, run_min, run_alone_min;
};
constexpr UsualSession usual_sessions[] = {{"super-sprint", 70, 30, 10, 30},
                                           {"sprint", 115, 45, 15, 45},
                                           {"standard", 210, 75, 20, 75},
                                           {"middle", 480, 150, 20, 120},
                                           {"long", 1e9, 210, 30, 150}};

/// The rate on the bike, or on the run where nobody rides.
double main_rate_g_per_h(const Athlete& athlete, const Event& race) {
    const auto effort = estimate_effort(athlete, race);
    const auto need = state_need(athlete, race, effort, describe_body(athlete, race, effort));
    const auto kind = has_bike(race) ? LegKind::bike : LegKind::run;
    double most = 0;
    for (const auto& leg : need.legs)
        if (leg.kind == kind)
            most = std::max(most, leg.carb_g_per_h);
    return most;
}

Leg timed_leg(LegKind kind, double minutes) {
    Leg leg;
    leg.kind = kind;
    leg.time_s = minutes * 60;
    return leg;
}

Event session_of(const Event& race, const RehearsalAsk& ask, const Rehearsal& out) {
    Event event = race;
    event.name = race.name.empty() ? "Rehearsal" : "Rehearsal of " + race.name;
    event.preset.clear();
    event.race = false;
    event.legs.clear();
    if (out.ride_min > 0)
        event.legs.push_back(timed_leg(LegKind::bike, out.ride_min));
    if (out.run_min > 0)
        event.legs.push_back(timed_leg(LegKind::run, out.run_min));
    event.legs = with_transitions(event.legs);
    event.station_policy = StationPolicy::as_given;
    if (ask.temperature_c || ask.humidity_pct) { // another day: nothing of the race's forecast holds
        event.weather = {};
        event.weather.temperature_c = ask.temperature_c.value_or(race.weather.temperature_c);
        event.weather.humidity_pct = ask.humidity_pct;
    }
    event.date = ask.date;
    if (ask.start_min || !out.as_race_day)
        event.start_min = ask.start_min;
    event.wave.clear();
    event.wave_offset_min = event.pen_wait_min = event.delay_min = 0;
    event.transition_closes_min.reset();
    event.pins.clear();
    return event;
}

std::optional<int> days_before(const Event& race, const RehearsalAsk& ask) {
    return race.date && ask.date ? days_between(*ask.date, *race.date) : std::nullopt;
}

bool near_the_race(const Event& race, const RehearsalAsk& ask) {
    const auto days = days_before(race, ask);
    return days && *days >= 0 && *days < no_new_step_days;
}

bool is_last_one(const Event& race, const RehearsalAsk& ask) {
    const auto days = days_before(race, ask);
    return ask.as_race_day || (days && *days >= no_new_step_days && *days < last_one_days);
}

void choose_rate(const Athlete& athlete, const Event& race, const Learned& learned, const RehearsalAsk& ask,
                 Rehearsal& out) {
    Athlete rehearsed = athlete;
    rehearsed.rehearsed.carb_g_per_h = std::max(rehearsed.rehearsed.carb_g_per_h, fully_rehearsed_g_per_h);
    rehearsed.rehearsed.at_most_g_per_h = 0;
    out.race_carb_g_per_h = main_rate_g_per_h(rehearsed, race);
    const double now = main_rate_g_per_h(athlete, race);
    const auto& gut = main_gut(race, learned);
    const auto add = [&out](std::string text, const char* source) {
        out.because.push_back({std::move(text), source});
    };
    add(fmt::format("the race asks for up to {:.0f} g/h once that is rehearsed", out.race_carb_g_per_h),
        "the need stage of the plan");
    double rate = now;
    if (gut.next_carb_g_per_h > 0) {
        rate = gut.next_carb_g_per_h;
        add(gut.why, source::own_diary);
    } else {
        add(fmt::format("what a plan of the race would take today: {:.0f} g/h", now), source::practice);
    }
    if (near_the_race(race, ask) && gut.carb_g_per_h > 0 && rate > gut.carb_g_per_h) {
        rate = gut.carb_g_per_h;
        add("the race is less than 10 days away: no new step", source::practice);
    }
    if (ask.carb_g_per_h) {
        rate = *ask.carb_g_per_h;
        add(fmt::format("{:.0f} g/h by the steps of the series", rate), source::practice);
    }
    out.session_carb_g_per_h = std::min(rate, out.race_carb_g_per_h);
    out.as_the_race = out.session_carb_g_per_h >= out.race_carb_g_per_h - 0.5;
}

void list_what_to_do(const Rehearsal& r, Rehearsal& out) {
    const bool late = r.event.start_min && *r.event.start_min >= late_from_min;
    out.before = {r.as_race_day ? "The race breakfast, at the race's own hour before the start."
                                : "A usual breakfast, 2 to 3 h before, of what you would eat on race day.",
                  r.as_race_day
                      ? "Race clothes, race bottles, race foods: the same packets, mixed the same way."
                      : "Race bottles and race foods: the same packets, mixed the same way.",
                  late                 ? "It is late in the day: no caffeine, so that you sleep."
                  : r.athlete.caffeine ? "Caffeine as on race day."
                                       : "No caffeine in it, as the race is planned without."};
    if (r.ride_min > 0)
        out.during.push_back(r.ride_min >= 120
                                 ? "Race effort for the last hour of the ride; start easier."
                                 : "Race effort for the second half of the ride; start easier.");
    out.during.push_back("Take each feed at its time. Note it: taken, half, skipped.");
    if (r.ride_min > 0 && r.run_min > 0)
        out.during.push_back("Into the run within five minutes, and run it at race effort.");
    else if (r.run_min > 0)
        out.during.push_back("Race effort for the second half of the run; start easier.");
    out.during.push_back(
        "Vomiting, blood, or a stomach at 6 of 10: stop feeding, and end the session if it stays.");
    out.after = {
        "Mark nausea, fullness, reflux, cramps, urge from 0 to 10, bike and run apart; note what was left in "
        "the bottles.",
        "Drink to thirst, eat a meal.", "The next day: symptoms since, and one change for next time."};
}

double likely_total_s(const Athlete& athlete, const Event& race) {
    return estimate_effort(athlete, race).total.p50_s;
}

} // namespace

SessionLength usual_session(const Event& race, double likely_total_s) {
    const UsualSession* found = nullptr;
    for (const auto& usual : usual_sessions)
        if (race.preset.ends_with(usual.name) && (!found || race.preset == usual.name))
            found = &usual;
    for (const auto& usual : usual_sessions)
        if (!found && likely_total_s < 60 * usual.below_min)
            found = &usual;
    if (!has_bike(race))
        return {0, found->run_alone_min};
    return {found->ride_min, has(race, LegKind::run) ? found->run_min : 0};
}

Rehearsal plan_rehearsal(const Athlete& athlete, const Event& race, const Learned& learned,
                         const RehearsalAsk& ask) {
    Rehearsal out;
    out.athlete = athlete;
    out.race = race;
    out.race.days = 0;
    const auto usual = usual_session(race, likely_total_s(athlete, race));
    out.ride_min = ask.ride_min.value_or(usual.ride_min);
    out.run_min = ask.run_min.value_or(usual.run_min);
    out.as_race_day = is_last_one(race, ask);
    out.event = session_of(race, ask, out);
    if (out.event.start_min && *out.event.start_min >= late_from_min)
        out.athlete.caffeine = false;
    const auto& gut = main_gut(race, learned);
    if (gut.stop) {
        out.refused = true;
        out.warnings.push_back({"see_doctor", Severity::danger, gut.why});
    }
    choose_rate(athlete, race, learned, ask, out);
    if (out.session_carb_g_per_h > 0)
        out.race.rehearses_carb_g_per_h = out.event.rehearses_carb_g_per_h = out.session_carb_g_per_h;
    else
        out.warnings.push_back(
            {"nothing_to_rehearse", Severity::note,
             "The race needs no food on the way, so there is no food to rehearse; practise "
             "drinking to thirst."});
    if (out.run_min <= 0 && has_bike(race) && has(race, LegKind::run))
        out.warnings.push_back({"no_run", Severity::note,
                                "Without the run a session does not count towards the next step: the gut is "
                                "tested there."});
    list_what_to_do(out, out);
    return out;
}

namespace {

const LegNeed* need_of(const Plan& plan, LegKind kind) {
    for (const auto& need : plan.needs)
        if (need.kind == kind)
            return &need;
    return nullptr;
}

struct Given {
    double carb_g = 0, fluid_ml = 0, hours = 0;
    double carb_g_per_h() const { return hours > 0 ? carb_g / hours : 0; }
    double fluid_ml_per_h() const { return hours > 0 ? fluid_ml / hours : 0; }
};

/// Of all legs of one kind.
Given given(const Plan& plan, LegKind kind) {
    Given out;
    for (const auto& duration : plan.durations)
        out.hours += duration.kind == kind ? duration.time.p50_s / 3600 : 0;
    for (const auto& feed : plan.feeds)
        if (feed.leg == kind) {
            out.carb_g += feed.carb_g;
            out.fluid_ml += feed.fluid_ml;
        }
    return out;
}

Leg& leg_of(Event& event, LegKind kind) {
    return *std::find_if(event.legs.begin(), event.legs.end(),
                         [kind](const Leg& leg) { return leg.kind == kind; });
}

/// The drinks of the race's run; what is eaten there is carried in a session.
std::vector<std::string> drinks_on_the_run(const Plan& race_plan) {
    std::vector<std::string> out{"water_tap"};
    for (const auto& line : race_plan.lines)
        for (const auto& item : line.items)
            if (line.leg == LegKind::run && item.drink())
                out.push_back(item.food);
    return out;
}

/// The race's stations on the session's road: a bottle laid out on a loop stands for each.
void lay_out_stations(const Event& race, const std::vector<std::string>& drinks, double run_km,
                      Event& session) {
    for (const auto& leg : race.legs)
        if (leg.kind == LegKind::run) {
            for (auto station : leg.stations) {
                std::erase_if(station.serves, [&drinks](const std::string& food) {
                    return std::find(drinks.begin(), drinks.end(), food) == drinks.end();
                });
                if (station.km < run_km - 0.2)
                    leg_of(session, LegKind::run).stations.push_back(station);
            }
            return;
        }
}

double run_km_of(const Rehearsal& r) {
    const auto effort = estimate_effort(r.athlete, r.event);
    for (const auto& leg : effort.legs)
        if (leg.kind == LegKind::run)
            return leg.distance_m / 1000;
    return 0;
}

/// Of the race's swallows: what the ceiling of the session's own day allows.
double drink_share(const Plan& race_plan, const Rehearsal& r) {
    const auto effort = estimate_effort(r.athlete, r.event);
    const auto need = state_need(r.athlete, r.event, effort, describe_body(r.athlete, r.event, effort));
    const double planned = given(race_plan, LegKind::bike).fluid_ml_per_h();
    for (const auto& leg : need.legs)
        if (leg.kind == LegKind::bike && planned > leg.fluid_ml_per_h)
            return leg.fluid_ml_per_h / planned;
    return 1;
}

/// Typical stations become the ones that they are.
Event with_stations(const Rehearsal& r) {
    Event race = r.race;
    const auto effort = estimate_effort(r.athlete, race);
    for (std::size_t i = 0; i < race.legs.size(); ++i)
        race.legs[i].stations = schedule::stations_of(race, effort, i);
    return race;
}

} // namespace

void rehearse_plan(const Plan& race_plan, Rehearsal& r) {
    if (r.session_carb_g_per_h <= 0 || race_plan.lines.empty())
        return;
    const double run_km = r.run_min > 0 ? run_km_of(r) : 0;
    if (run_km > 0)
        lay_out_stations(with_stations(r), drinks_on_the_run(race_plan), run_km, r.event);
    r.drink_share = r.ride_min > 0 ? drink_share(race_plan, r) : 1;
    if (r.drink_share < 1)
        r.warnings.push_back(
            {"fewer_swallows", Severity::note,
             fmt::format("At {:.0f} C less is safe to drink than on race day: fewer swallows.",
                         r.event.weather.temperature_c)});
    const auto session =
        diary::session_lines(race_plan, {60 * r.ride_min, 60 * r.run_min, run_km}, r.drink_share);
    r.event.own_lines = session.lines;
    r.event.own_bottles = session.bottles;
    if (!session.bike_bottles_ml.empty())
        r.event.kit.bike_bottles_ml = session.bike_bottles_ml;
    r.laid_out_bottles = session.bottles_more;
}

namespace {

std::string why_short(const Plan& race_plan, const Plan& session, const Rehearsal& r,
                      const RehearsedPart& part) {
    std::string text =
        fmt::format("This session gives {:.0f} g/h {} and not {:.0f}. ", part.carb_g_per_h(),
                    part.leg == LegKind::bike ? "on the bike" : "on the run", part.asked_carb_g_per_h);
    const auto* need = need_of(session, part.leg);
    if (part.leg == LegKind::bike && r.drink_share < 1 && need)
        return text + fmt::format(
                          "At {:.0f} C the most to drink is {:.0f} ml/h, and the race's bottles give {:.0f}: "
                          "fewer swallows. On a warmer day it gives more.",
                          r.event.weather.temperature_c, need->fluid_ml_per_h,
                          given(race_plan, part.leg).fluid_ml_per_h());
    if (part.race_carb_g_per_h < delivered * part.asked_carb_g_per_h) {
        for (const auto& unmet : race_plan.unmet)
            if (unmet.what == Wanted::carbohydrate && unmet.leg == part.leg)
                return text + fmt::format("The race's plan itself gives {:.0f}. What binds: {}.",
                                          part.race_carb_g_per_h, unmet.rule);
        return text +
               fmt::format("The race's plan itself gives {:.0f}: whole units.", part.race_carb_g_per_h);
    }
    return text + "It is short, and foods come in whole units: a longer one gives more.";
}

void note_foods(const Plan& session, Rehearsal& r) {
    const auto add = [&r](const std::string& food) {
        if (food != "water_tap" && food != "table_salt" &&
            std::find(r.foods.begin(), r.foods.end(), food) == r.foods.end())
            r.foods.push_back(food);
    };
    for (const auto& feed : session.feeds)
        for (const auto& item : feed.items)
            add(item.food);
}

void note_missing_foods(const Plan& race_plan, Rehearsal& r) {
    std::vector<std::string> missing;
    for (const auto& feed : race_plan.feeds)
        for (const auto& item : feed.items)
            if (item.unit != "cup" && item.from != "station" && item.food != "water_tap" &&
                std::find(r.foods.begin(), r.foods.end(), item.food) == r.foods.end() &&
                std::find(missing.begin(), missing.end(), item.label) == missing.end())
                missing.push_back(item.label);
    for (const auto& label : missing)
        r.warnings.push_back(
            {"food_not_rehearsed", Severity::note,
             fmt::format("The race also has {}, which this session has no place for.", label)});
}

} // namespace

void tell_what_it_gives(const Plan& race_plan, Rehearsal& r, Plan& session) {
    if (!session.own)
        return;
    session.own = false;
    session.broken_rules.clear(); // the dangerous ones stand among the warnings
    for (const auto& [kind, minutes] :
         {std::pair{LegKind::bike, r.ride_min}, std::pair{LegKind::run, r.run_min}}) {
        if (minutes <= 0)
            continue;
        const auto sums = given(session, kind);
        const auto* need = need_of(race_plan, kind);
        const double at = r.planned_at_g_per_h > 0 ? r.session_carb_g_per_h / r.planned_at_g_per_h : 1;
        RehearsedPart part{kind,        minutes,       need ? need->carb_g_per_h * at : 0,
                           sums.carb_g, sums.fluid_ml, given(race_plan, kind).carb_g_per_h()};
        r.parts.push_back(part);
    }
    // Under two hours the aim is "up to": short of it is no shortfall unless it is less than half.
    const bool short_day = race_plan.total.p50_s < 60 * short_day_min;
    for (auto& part : r.parts) {
        const double enough = (short_day ? short_day_delivered : delivered) * part.asked_carb_g_per_h;
        if (part.leg != main_leg(r.race) || std::min(part.carb_g_per_h(), part.race_carb_g_per_h) >= enough)
            continue;
        r.falls_short = why_short(race_plan, session, r, part);
        if (part.race_carb_g_per_h < enough) // the diary credits what was rehearsed
            part.asked_carb_g_per_h = part.race_carb_g_per_h;
    }
    note_foods(session, r);
    note_missing_foods(race_plan, r);
    if (r.laid_out_bottles > 0)
        r.before.push_back(
            fmt::format("{} more bottle{} of the same drink, laid out where you pass again: the race "
                        "hands it up.",
                        r.laid_out_bottles, r.laid_out_bottles == 1 ? "" : "s"));
    if (r.run_min > 0 && !leg_of(r.event, LegKind::run).stations.empty())
        r.before.push_back(
            "For the run: a loop past your own cups and bottle, which stand for the stations.");
}

} // namespace tuck
