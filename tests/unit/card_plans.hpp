// Invented plans for the tests of the card. No athlete and no race of these names exists to our knowledge.
#pragma once

#include "tuck/plan.hpp"

namespace tuck::example {

/// A line in the notation of these tests: "every 15' from 0:30 to 2:00", "each station from km 4",
/// "0:20 0:50", "km 2 6", "in T1"; and "1/2 bar + 3 swallows B1 then B2". The bottle changes half way.
Line line(int leg_index, LegKind leg, const std::string& when, const std::string& what);

inline PlanFeed feed(int leg_index, LegKind leg, double km) {
    PlanFeed feed;
    feed.leg_index = leg_index;
    feed.leg = leg;
    feed.km = km;
    feed.carb_g = 25;
    return feed;
}

/// What every plan carries, with numbers in it that must never reach a card.
inline Plan bare(const std::string& event, const std::string& athlete) {
    Plan plan;
    plan.event_name = event;
    plan.athlete_name = athlete;
    plan.date = "2027-06-13";
    plan.wave = "3";
    plan.bib = "417";
    plan.version = "3f9a2c";
    plan.clock_note = "bike clock from the mount line, auto-pause off";
    plan.stop_line =
        "STOP if confused, staggering, vomiting, with a worsening headache or swollen hands: find a marshal "
        "or medic; do not force drink.";
    plan.if_then = {{"Missed feed", "skip it, next one on time, never double."},
                    {"Stomach", "ease off 5-10 min, no gel, small sips if thirsty, restart at half."},
                    {"Hot", "slow down, water on head and arms, drink to thirst within the ceiling."}};
    plan.cautions = {
        "Not medical advice.",
        "Ask a doctor or a sports dietitian first with diabetes, kidney or heart trouble, in pregnancy, "
        "with a past eating disorder, on medicines, or under 18.",
        "No painkillers of the NSAID kind before or during the race.", "Nothing new on race day."};
    for (int i = 0; i < 5; ++i) {
        constexpr LegKind kinds[] = {LegKind::swim, LegKind::t1, LegKind::bike, LegKind::t2, LegKind::run};
        LegEffort leg;
        leg.leg_index = i;
        leg.kind = kinds[i];
        leg.time = {1500, 1800, 2100};
        plan.durations.push_back(leg);
    }
    plan.total = {6871, 7777, 8683};
    LegNeed need;
    need.leg_index = 2;
    need.carb_g_per_h = 61;
    need.fluid_ml_per_h = 613;
    need.sodium_mg_per_h = 457;
    need.sweat_ml_per_h = 911;
    need.because = {{"61 g/h", "Author 2011"}};
    plan.needs = {need};
    plan.outlook.sentence = "You lose 1.9 % of body mass, 1.3 kg.";
    plan.weather.temperature_c = 29;
    return plan;
}

/// A first-timer's sprint: nothing to eat, a word loudly said.
inline Plan sprint() {
    Plan plan = bare("Lakeside sprint", "Mara Test");
    plan.fuelling_needed = false;
    plan.still_matters = {"Eat a familiar meal 2-4 h before the start.",
                          "Drink to thirst; a few swallows are enough.", "Take it easy out of the water."};
    plan.lines = {line(2, LegKind::bike, "every 20'", "2 swallows B1")};
    return plan;
}

/// A hot standard distance: three lines on the bike and four on the run.
inline Plan hot_standard() {
    Plan plan = bare("Harbour triathlon", "Zoë Żukowska-Őrsi");
    plan.fuelling_needed = true;
    plan.refill_note = "Last station before T2: km 32. One bottle, no refill needed.";
    plan.lines = {line(2, LegKind::bike, "every 15'", "3 swallows B1"),
                  line(2, LegKind::bike, "0:20 0:50", "gel"),
                  line(2, LegKind::bike, "1:05", "1/2 gel"),
                  line(4, LegKind::run, "km 2 4 6 8", "2 swallows water"),
                  line(4, LegKind::run, "km 2", "gel"),
                  line(4, LegKind::run, "km 6", "gel"),
                  line(4, LegKind::run, "km 4 8", "2 cups water")};
    for (const double km : {8.1, 16.0, 24.2, 32.3})
        plan.feeds.push_back(feed(2, LegKind::bike, km));
    return plan;
}

/// A long one: six lines on the bike and four on the run.
inline Plan long_day() {
    Plan plan = bare("Moor and coast long distance", "Αθηνά Παπαδοπούλου");
    plan.fuelling_needed = true;
    plan.refill_note = "Refill B1 at km 60 and 120 with water. Last station: km 150.";
    plan.lines = {line(2, LegKind::bike, "every 15'", "3 swallows B1"),
                  line(2, LegKind::bike, "0:30 1:30 2:30", "1/2 bar"),
                  line(2, LegKind::bike, "1:00 2:00 3:00", "gel"),
                  line(2, LegKind::bike, "every 30'", "2 swallows B2"),
                  line(2, LegKind::bike, "km 60 120", "1/2 banana"),
                  line(2, LegKind::bike, "4:00 4:45", "gel + 1 cup water"),
                  line(4, LegKind::run, "km 2 6 8", "2 swallows water"),
                  line(4, LegKind::run, "every 30'", "gel + 1 cup water"),
                  line(4, LegKind::run, "each station from km 30", "1 cup cola"),
                  line(4, LegKind::run, "km 35", "gel")};
    for (int i = 1; i < 20; ++i)
        plan.feeds.push_back(feed(2, LegKind::bike, 8.3 * i));
    return plan;
}

inline std::vector<Plan> all() {
    return {sprint(), hot_standard(), long_day()};
}

/// How often a part stands in a text.
inline std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++n;
    return n;
}

} // namespace tuck::example
