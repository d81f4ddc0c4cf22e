#include "tuck/rehearsal.hpp"

#include "base/dates.hpp"
#include "base/sources.hpp"
#include "tuck/need.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

constexpr double fully_rehearsed_g_per_h = 90; // without declared gut training
constexpr int no_new_step_days = 10;           // common practice, no source

bool has_bike(const Event& event) {
    return std::any_of(event.legs.begin(), event.legs.end(),
                       [](const Leg& leg) { return leg.kind == LegKind::bike; });
}

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

Event session_of(const Event& race, const RehearsalAsk& ask) {
    Event event = race;
    event.name = race.name.empty() ? "Rehearsal" : "Rehearsal of " + race.name;
    event.preset.clear();
    event.race = false;
    event.legs.clear();
    if (ask.ride_min > 0)
        event.legs.push_back(timed_leg(LegKind::bike, ask.ride_min));
    if (ask.run_min > 0)
        event.legs.push_back(timed_leg(LegKind::run, ask.run_min));
    event.legs = with_transitions(event.legs);
    event.station_policy = StationPolicy::as_given;
    if (ask.temperature_c || ask.humidity_pct) { // another day: nothing of the race's forecast holds
        event.weather = {};
        event.weather.temperature_c = ask.temperature_c.value_or(race.weather.temperature_c);
        event.weather.humidity_pct = ask.humidity_pct;
    }
    event.date = ask.date;
    if (ask.start_min)
        event.start_min = ask.start_min;
    event.wave.clear();
    event.wave_offset_min = event.pen_wait_min = 0;
    event.transition_closes_min.reset();
    return event;
}

bool near_the_race(const Event& race, const RehearsalAsk& ask) {
    if (!race.date || !ask.date)
        return false;
    const int days = days_between(*ask.date, *race.date).value();
    return days >= 0 && days < no_new_step_days;
}

void choose_rate(const Athlete& athlete, const Event& race, const Learned& learned, const RehearsalAsk& ask,
                 Rehearsal& out) {
    Athlete rehearsed = athlete;
    rehearsed.rehearsed.carb_g_per_h = std::max(rehearsed.rehearsed.carb_g_per_h, fully_rehearsed_g_per_h);
    out.race_carb_g_per_h = main_rate_g_per_h(rehearsed, race);
    const double now = main_rate_g_per_h(athlete, race);
    const auto& gut = has_bike(race) ? learned.bike : learned.run;
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
    out.session_carb_g_per_h = std::min(rate, out.race_carb_g_per_h);
    out.as_the_race = out.session_carb_g_per_h >= out.race_carb_g_per_h - 0.5;
}

void list_what_to_do(const Rehearsal& r, Rehearsal& out) {
    const bool late = r.event.start_min && *r.event.start_min >= late_from_min;
    out.before = {"The race breakfast, at the same distance from the start.",
                  "Race clothes, race bottles, race foods: the same packets, mixed the same way.",
                  "Weigh the full bottles and write it down. Set the reminder as for the race.",
                  late ? "It is late in the day: no caffeine, so that you sleep."
                       : "Caffeine only if you will take it on race day."};
    out.during = {"Race effort for the last hour of the ride; start easier.",
                  "Take each feed at its time. Note it: taken, half, skipped.",
                  "Into the run within five minutes, and run it at race effort.",
                  "Vomiting, blood, or a stomach at 6 of 10: stop feeding, and end the session if it stays."};
    out.after = {
        "Weigh the bottles. Mark nausea, fullness, reflux, cramps, urge from 0 to 10, bike and run "
        "apart.",
        "Drink to thirst, eat a meal.",
        "The next day: symptoms since, and one change for next time. Then: tuck diary add rehearsal."};
}

} // namespace

Rehearsal plan_rehearsal(const Athlete& athlete, const Event& race, const Learned& learned,
                         const RehearsalAsk& ask) {
    Rehearsal out;
    out.athlete = athlete;
    out.event = session_of(race, ask);
    if (out.event.start_min && *out.event.start_min >= late_from_min)
        out.athlete.caffeine = false;
    const auto& gut = has_bike(race) ? learned.bike : learned.run;
    if (gut.stop) {
        out.refused = true;
        out.warnings.push_back({"see_doctor", Severity::danger, gut.why});
    }
    choose_rate(athlete, race, learned, ask, out);
    if (out.session_carb_g_per_h > 0)
        out.event.rehearses_carb_g_per_h = out.session_carb_g_per_h;
    else
        out.warnings.push_back(
            {"nothing_to_rehearse", Severity::note,
             "The race needs no food on the way, so there is no food to rehearse; practise "
             "drinking to thirst."});
    if (ask.run_min <= 0 && has_bike(race))
        out.warnings.push_back({"no_run", Severity::note,
                                "Without the run a session does not count towards the next step: the gut is "
                                "tested there."});
    list_what_to_do(out, out);
    return out;
}

namespace {

constexpr int days_apart = 7, last_before_race_days = 11; // common practice, no source
constexpr int good_before_step = 2;
constexpr double step_g_per_h = 10;

std::string session_text(double rate, bool last) {
    const std::string what = rate > 0 ? fmt::format("Race food at {:.0f} g/h", rate) : "Drink to thirst";
    return what + (last
                       ? ", as the race: its clothes, its breakfast, its hour, its effort, no new step after "
                         "this one."
                       : ", race effort at the end, the run straight after the ride.");
}

} // namespace

RehearsalSeries rehearsal_series(const Rehearsal& first, const Learned& learned, int weeks,
                                 const std::string& race_date) {
    RehearsalSeries out;
    const int sessions =
        weeks * 7 < last_before_race_days ? 0 : (weeks * 7 - last_before_race_days) / days_apart + 1;
    double rate = first.session_carb_g_per_h;
    const auto& gut = learned.bike.carb_g_per_h > 0 ? learned.bike : learned.run;
    int good = std::abs(gut.carb_g_per_h - rate) < step_g_per_h / 4 ? gut.good_at_this_rate : 0;
    for (int i = 0; i < sessions; ++i) {
        if (good >= good_before_step && rate < first.race_carb_g_per_h) {
            rate = std::min(rate + step_g_per_h, first.race_carb_g_per_h);
            good = 0;
        }
        const int before_race = last_before_race_days + days_apart * (sessions - 1 - i);
        const bool last = i == sessions - 1;
        out.days.push_back({date_minus(race_date, before_race), rate, last, session_text(rate, last)});
        ++good;
    }
    out.reached_g_per_h = rate;
    out.notes = {
        "The rates rise only if each session goes well: worst symptom at most 3, 90 % taken, with the "
        "run. Steps of 10 g/h where the worst symptom is at most 1, else 5 (common practice, no source)."};
    if (sessions > 0 && rate < first.race_carb_g_per_h - 0.5)
        out.notes.push_back(
            fmt::format("By then {:.0f} g/h can be reached, not {:.0f}: the race is planned at "
                        "what was rehearsed.",
                        rate, first.race_carb_g_per_h));
    return out;
}

} // namespace tuck
