// The judge of finished feeds: it finds nothing wrong with a plan, and every rule finds its own corruption.
#include "schedule/judge.hpp"
#include "stage_examples.hpp"

#include <catch2/catch.hpp>
#include <functional>
#include <set>
#include <tuple>
#include <utility>

using namespace tuck;
using namespace tuck::example;

namespace {

/// A day with everything that is judged, from the stages up to its schedule.
struct Made {
    Athlete person;
    Event event;
    Effort effort;
    Need need;
    Schedule schedule;

    explicit Made(const Athlete& a, const Event& e) : person(a), event(e) {
        effort = estimate_effort(person, event);
        const auto body = describe_body(person, event, effort);
        need = state_need(person, event, effort, body);
        schedule = make_schedule(person, event, effort, body, need, pantry());
    }
    auto breaches() const { return schedule::judge({person, event, effort, need, pantry(), schedule}); }
    std::set<std::string> broken() const {
        std::set<std::string> out;
        for (const auto& breach : breaches())
            out.insert(breach.rule);
        return out;
    }
    PlanFeed& first(LegKind kind) {
        for (auto& feed : schedule.feeds)
            if (feed.leg == kind)
                return feed;
        throw std::logic_error("the example has no such feed");
    }
    PlanFeed& last(LegKind kind) {
        for (auto feed = schedule.feeds.rbegin(); feed != schedule.feeds.rend(); ++feed)
            if (feed->leg == kind)
                return *feed;
        throw std::logic_error("the example has no such feed");
    }
    double length_s(LegKind kind) const { return of(effort.legs, kind).time.p50_s; }
};

Made middle() {
    Event event = race("middle", 24);
    event.station_policy = StationPolicy::typical;
    event.kit.run_gels = 3;
    Athlete person = athlete(75, Level::keen);
    person.sweat = MeasuredSweat{1100, std::nullopt, std::nullopt, std::nullopt};
    person.rehearsed.carb_g_per_h = 60;
    return Made(person, event);
}

/// A feed that eats one thing; what it brings agrees with the pantry.
void eat(PlanFeed& feed, const std::string& id, double amount = 1, const std::string& from = "pocket") {
    const Food& food = *pantry().find(id);
    feed.items = {{id, amount, "piece", from}};
    feed.carb_g = amount * food.carb_g;
    feed.glucose_g = amount * food.glucose_g;
    feed.fructose_g = amount * food.fructose_g;
    feed.fluid_ml = amount * food.water_g.count(); // a gram a millilitre
    feed.sodium_mg = amount * food.sodium_mg;
    feed.caffeine_mg = amount * food.caffeine_mg;
}

void drink(PlanFeed& feed, const std::string& id, double amount, const std::string& unit,
           const std::string& from) {
    const Food& food = *pantry().find(id);
    const double ml = amount * (unit == "cup" ? 80 : 30), servings = ml / food.serving_ml.value_or(500);
    eat(feed, id, servings, from);
    feed.items = {{id, amount, unit, from}};
    feed.fluid_ml = ml;
}

using Corruption = std::function<void(Made&)>;

PlanFeed copy_at(const PlanFeed& feed, double at_s) {
    PlanFeed out = feed;
    out.at_s = at_s;
    return out;
}

/// `times` feeds of one food in a row of minutes, in the middle of a leg.
void row_of(Made& day, const std::string& food, int times, double every_s, double amount = 1) {
    for (int i = 0; i < times; ++i) {
        PlanFeed feed = copy_at(day.first(LegKind::bike), 3700 + i * every_s);
        eat(feed, food, amount);
        day.schedule.feeds.push_back(feed);
    }
}

const std::vector<std::pair<std::string, Corruption>> corruptions{
    {"carb_hour", [](Made& d) { row_of(d, "gel_25", 5, 300); }},
    {"carb_two_hours", [](Made& d) { row_of(d, "gel_25", 5, 1500); }},
    {"glucose_hour", [](Made& d) { row_of(d, "gel_isotonic", 5, 300); }},
    {"fructose_hour", [](Made& d) { row_of(d, "date_medjool", 5, 300, 2); }},
    {"fluid_hour",
     [](Made& d) {
         for (int i = 0; i < 10; ++i) {
             PlanFeed feed = copy_at(d.first(LegKind::bike), 3700 + i * 300);
             drink(feed, "water_tap", 5, "swallow", "B1");
             d.schedule.feeds.push_back(feed);
         }
     }},
    {"fluid_most",
     [](Made& d) {
         for (int i = 0; i < 12; ++i) {
             PlanFeed feed = copy_at(d.first(LegKind::bike), 3700 + i * 290);
             drink(feed, "water_tap", 5, "swallow", "B1");
             d.schedule.feeds.push_back(feed);
         }
     }},
    {"caffeine_hour", [](Made& d) { row_of(d, "gel_caffeine", 4, 29); }},
    {"caffeine_day", [](Made& d) { row_of(d, "gel_caffeine", 8, 1200); }},
    {"fluid_sweat",
     [](Made& d) {
         for (int i = 0; i < 4; ++i) {
             PlanFeed feed = copy_at(d.first(LegKind::bike), 310 + i);
             drink(feed, "water_tap", 20, "swallow", "B1");
             d.schedule.feeds.push_back(feed);
         }
     }},
    {"gel_water",
     [](Made& d) {
         for (auto& feed : d.schedule.feeds)
             feed.fluid_ml = 0;
         row_of(d, "gel_25", 1, 1);
     }},
    {"fluid_leg", [](Made& d) { d.need.legs[2].fluid_ml_per_h = 100; }},
    {"fluid_day",
     [](Made& d) {
         for (auto& leg : d.need.legs)
             leg.fluid_ml_per_h /= 2;
     }},
    {"carb_leg", [](Made& d) { row_of(d, "gel_25", 7, 1200); }},
    {"inside_leg", [](Made& d) { d.first(LegKind::bike).leg_index = 0; }},
    {"mount", [](Made& d) { d.first(LegKind::bike).at_s = 200; }},
    {"dismount", [](Made& d) { d.last(LegKind::bike).at_s = d.length_s(LegKind::bike) - 100; }},
    {"busy",
     [](Made& d) {
         const double at_s = d.first(LegKind::bike).at_s;
         d.effort.legs[2].busy.push_back({at_s - 100, at_s + 100, 1, 2, "steep climb"});
     }},
    {"solids_early",
     [](Made& d) {
         auto& feed = d.first(LegKind::bike);
         eat(feed, "energy_bar", 0.5);
         feed.at_s = 600;
     }},
    {"solids_late",
     [](Made& d) {
         auto& feed = d.last(LegKind::bike);
         eat(feed, "energy_bar", 0.5);
         feed.at_s = d.length_s(LegKind::bike) - 1200;
     }},
    {"solids_short_bike",
     [](Made& d) {
         d.need.limits.solids = false;
         row_of(d, "energy_bar", 1, 1, 0.5);
     }},
    {"solids_run", [](Made& d) { eat(d.first(LegKind::run), "banana_ripe", 0.5, "belt"); }},
    {"cold_hands",
     [](Made& d) {
         d.event.weather.temperature_c = 8;
         auto& feed = d.first(LegKind::bike);
         eat(feed, "gel_isotonic");
         feed.at_s = 1500;
     }},
    {"before_finish",
     [](Made& d) {
         auto& feed = d.last(LegKind::run);
         eat(feed, "gel_isotonic", 1, "belt");
         feed.at_s = d.length_s(LegKind::run) - 300;
     }},
    {"hands", [](Made& d) { d.person.hands = Hands::none; }},
    {"apart", [](Made& d) { row_of(d, "gel_isotonic", 2, 29); }},
    {"known_food", [](Made& d) { d.first(LegKind::bike).items[0].food = "manna"; }},
    {"one_item",
     [](Made& d) {
         auto& feed = d.first(LegKind::bike);
         eat(feed, "gel_isotonic");
         feed.items.push_back(feed.items[0]);
     }},
    {"swallows", [](Made& d) { drink(d.first(LegKind::bike), "water_tap", 6, "swallow", "B1"); }},
    {"whole_units", [](Made& d) { eat(d.first(LegKind::bike), "gel_isotonic", 0.3); }},
    {"fits", [](Made& d) { eat(d.first(LegKind::run), "rice_cake_home", 1, "belt"); }},
    {"allergen",
     [](Made& d) {
         d.person.allergy = {"peanuts"};
         eat(d.first(LegKind::bike), "energy_bar", 0.5);
     }},
    {"avoided",
     [](Made& d) {
         d.person.avoid = {"gels"};
         eat(d.first(LegKind::bike), "gel_isotonic");
     }},
    {"caffeine_barred", [](Made& d) { eat(d.first(LegKind::bike), "gel_caffeine"); }},
    {"gel_and_strong_drink",
     [](Made& d) {
         auto& feed = d.first(LegKind::bike);
         drink(feed, "drink_home_9pct", 5, "swallow", "B1");
         const Food& gel = *pantry().find("gel_isotonic");
         feed.items.push_back({"gel_isotonic", 1, "gel", "pocket"});
         feed.carb_g += gel.carb_g;
         feed.fluid_ml += gel.water_g.count(); // a gram a millilitre
     }},
    {"nutrition", [](Made& d) { d.first(LegKind::bike).carb_g += 30; }},
    {"belt",
     [](Made& d) {
         for (int i = 0; i < 4; ++i) {
             PlanFeed feed = copy_at(d.first(LegKind::run), 600 + i * 1200);
             eat(feed, "gel_isotonic", 1, "belt");
             d.schedule.feeds.push_back(feed);
         }
     }},
    {"pockets", [](Made& d) { row_of(d, "banana_ripe", 10, 700); }},
    {"bottles", [](Made& d) { d.event.kit.bike_bottles_ml = std::vector<double>{100}; }},
    {"flask", [](Made& d) { drink(d.first(LegKind::run), "water_tap", 4, "swallow", "flask"); }},
    {"handed", [](Made& d) { drink(d.first(LegKind::bike), "water_tap", 5, "swallow", "station"); }},
    {"station", [](Made& d) { d.first(LegKind::run).km = 3.3; }},
    {"carried",
     [](Made& d) {
         d.schedule.carry.clear();
         row_of(d, "gel_isotonic", 1, 1);
     }},
    {"recipe", [](Made& d) { d.schedule.mix.push_back(d.schedule.mix.front()); }},
};

/// A feed of half a bar or a gel at a moment of a leg, alone in the plan.
void alone(Made& d, LegKind kind, double at_s, const std::string& food) {
    PlanFeed feed = d.first(kind);
    feed.at_s = at_s;
    eat(feed, food, food == "energy_bar" ? 0.5 : 1, kind == LegKind::run ? "belt" : "pocket");
    d.schedule.feeds = {feed};
}

/// 360 ml out of the first bottle, and nothing else.
void three_drinks(Made& d) {
    PlanFeed feed = d.first(LegKind::bike);
    drink(feed, "water_tap", 4, "swallow", "B1");
    d.schedule.feeds = {copy_at(feed, 900), copy_at(feed, 1500), copy_at(feed, 2100)};
}

/// Where a rule's border lies: `set` takes the number, `within` keeps the rule and `beyond` breaks it.
struct Border {
    const char* rule;
    double within, beyond;
    std::function<void(Made&, double)> set;
};

const std::vector<Border> borders{
    // Minutes of the leg's own clock: common practice, as figures.hpp has them.
    {"mount", 300, 297, [](Made& d, double s) { alone(d, LegKind::bike, s, "gel_isotonic"); }},
    {"dismount", 300, 297,
     [](Made& d, double s) { alone(d, LegKind::bike, d.length_s(LegKind::bike) - s, "gel_isotonic"); }},
    {"solids_early", 900, 897, [](Made& d, double s) { alone(d, LegKind::bike, s, "energy_bar"); }},
    {"solids_late", 1800, 1797,
     [](Made& d, double s) { alone(d, LegKind::bike, d.length_s(LegKind::bike) - s, "energy_bar"); }},
    {"before_finish", 600, 597,
     [](Made& d, double s) { alone(d, LegKind::run, d.length_s(LegKind::run) - s, "gel_isotonic"); }},
    {"cold_hands", 1800, 1797,
     [](Made& d, double s) {
         d.event.weather.temperature_c = 8;
         alone(d, LegKind::bike, s, "gel_isotonic");
     }},
    {"cold_hands", 12, 11.9, // of the air, after a warm swim
     [](Made& d, double c) {
         d.event.weather.temperature_c = c;
         d.event.weather.water_temperature_c = 22;
         alone(d, LegKind::bike, 1500, "gel_isotonic");
     }},
    {"cold_hands", 16, 15.9, // of the water, in mild air
     [](Made& d, double c) {
         d.event.weather.water_temperature_c = c;
         alone(d, LegKind::bike, 1500, "gel_isotonic");
     }},
    {"busy", 58, 62, // a shorter climb is waited out
     [](Made& d, double s) {
         alone(d, LegKind::bike, 3000, "gel_isotonic");
         d.effort.legs[2].busy = {{3000 - s / 2, 3000 + s / 2, 1, 2, "steep climb"}};
     }},
    {"apart", 60, 57,
     [](Made& d, double s) {
         alone(d, LegKind::bike, 3000, "gel_isotonic");
         d.schedule.feeds.push_back(copy_at(d.schedule.feeds[0], 3000 + s));
     }},
    {"hands", 2, 4, // who stops on the ride stands there, and on no other leg
     [](Made& d, double leg) {
         d.person.hands = Hands::none;
         alone(d, LegKind::bike, 3000, "gel_isotonic");
         Line stop;
         stop.stop = true;
         stop.leg_index = static_cast<int>(leg);
         stop.at.push_back({});
         stop.at.back().at_s = 3000;
         d.schedule.lines = {stop};
     }},
    {"bottles", 500, 200, // mixed, where the bottles would hold more
     [](Made& d, double ml) {
         three_drinks(d);
         d.schedule.mix = {d.schedule.mix.front()};
         d.schedule.mix[0].bottle = "B1";
         d.schedule.mix[0].volume_ml = ml;
     }},
    {"bottles", 500, 200, // what is handed up later is no own bottle on the likely day
     [](Made& d, double ml) {
         three_drinks(d);
         d.event.legs[2].stations = {{20, {}, ServedIn::bottle, std::nullopt}};
         d.event.kit.bike_bottles_ml = std::vector<double>{ml};
     }},
    {"recipe", 8 * 5 + 2.4, 8 * 5 + 2.6, // 8 % is the strongest; scales round to 5 g
     [](Made& d, double sugar_g) {
         d.schedule.mix.front().volume_ml = 500;
         d.schedule.mix.front().add = {{"sucrose", sugar_g}};
     }},
    {"avoided", 1, 0, // who would have only bars
     [](Made& d, double bars) {
         d.person.only = {bars > 0 ? "gels" : "bars"};
         alone(d, LegKind::bike, 3000, "gel_isotonic");
     }},
};

} // namespace

TEST_CASE("the judge finds nothing wrong with a plan", "[schedule][judge][slow]") {
    for (const char* distance : {"standard", "middle", "long"})
        for (const double temperature_c : {8.0, 22.0, 33.0}) {
            Event event = race(distance, temperature_c);
            event.station_policy = StationPolicy::typical;
            for (const bool caffeine : {false, true}) {
                Athlete person = athlete(68, Level::steady);
                person.caffeine = caffeine;
                INFO(distance << ", " << temperature_c << " C, caffeine " << caffeine);
                CHECK(Made(person, event).broken() == std::set<std::string>{});
            }
        }
}

TEST_CASE("each rule of the judge finds what breaks it", "[schedule][judge]") {
    const Made clean = middle();
    REQUIRE(clean.broken() == std::set<std::string>{});
    std::set<std::string> tried;
    for (const auto& [rule, corrupt] : corruptions) {
        Made day = clean;
        corrupt(day);
        INFO(rule);
        CHECK(day.broken().count(rule) == 1);
        tried.insert(rule);
    }
    for (const auto& rule : schedule::judged_rules()) {
        INFO(rule);
        CHECK(tried.count(rule) == 1);
    }
}

TEST_CASE("a rule of the judge is broken beyond its border and not before", "[schedule][judge]") {
    const Made clean = middle();
    for (const auto& [rule, within, beyond, set] : borders)
        for (const double number : {within, beyond}) {
            Made day = clean;
            set(day, number);
            INFO(rule << " at " << number);
            CHECK(day.broken().count(rule) == (number == beyond ? 1 : 0));
        }
}

TEST_CASE("what the judge finds is told once, with what is there and what is allowed", "[schedule][judge]") {
    const Made clean = middle();
    for (const auto& [rule, corrupt] : corruptions) {
        Made day = clean;
        corrupt(day);
        std::set<std::tuple<std::string, int, double, std::string>> told;
        for (const auto& breach : day.breaches()) {
            INFO(breach.rule << ": " << breach.text);
            CHECK(told.insert({breach.rule, breach.leg_index, breach.at_s, breach.text}).second);
        }
    }
    const auto first = [](const Made& day, const std::string& rule) {
        for (const auto& breach : day.breaches())
            if (breach.rule == rule)
                return std::pair{breach.value, breach.allowed};
        throw std::logic_error("nothing is found");
    };
    Made day = clean;
    three_drinks(day);
    day.schedule.mix = {day.schedule.mix.front()};
    day.schedule.mix[0].bottle = "B1";
    day.schedule.mix[0].volume_ml = 200; // the bottles hold more
    CHECK(first(day, "bottles") == std::pair{360.0, 200.0});
    day = clean;
    day.schedule.mix.push_back(day.schedule.mix.front());
    CHECK(first(day, "recipe") == std::pair{2.0, 1.0});
}

TEST_CASE("the run before the ride has no finish", "[schedule][judge]") {
    // A duathlon: the last ten minutes without food are those of the day.
    Event event = race("middle", 24);
    event.legs[0] = leg_of(event, LegKind::run);
    event.kit.run_gels = 4;
    Made day(athlete(75, Level::keen), event);
    for (const size_t leg : {size_t{0}, event.legs.size() - 1}) {
        PlanFeed feed = day.first(LegKind::run);
        feed.leg_index = static_cast<int>(leg);
        feed.at_s = day.effort.legs[leg].time.p50_s - 300;
        eat(feed, "gel_isotonic", 1, "belt");
        day.schedule.feeds = {feed};
        CHECK(day.broken().count("before_finish") == (leg > 0 ? 1 : 0));
    }
}

TEST_CASE("before its bag a belt holds what it holds", "[schedule][judge]") {
    // Two gels in the belt and two in the special-needs bag at km 10.
    Event event = race("middle", 24);
    event.kit.run_gels = 2;
    Made day(athlete(75, Level::keen), event);
    SpecialNeeds bag;
    bag.km = 10;
    bag.gels = 2;
    day.event.legs[4].special_needs = bag;
    day.schedule.special_needs = {{4, LegKind::run, 10, true, ""}};
    const PlanFeed some = day.first(LegKind::run);
    for (const int before : {2, 3}) {
        day.schedule.feeds.clear();
        for (int i = 0; i < 4; ++i) {
            PlanFeed feed = copy_at(some, 600 + 1200 * i);
            feed.km = i < before ? 5 : 15;
            eat(feed, "gel_isotonic", 1, "belt");
            day.schedule.feeds.push_back(feed);
        }
        CHECK(day.broken().count("belt") == (before > 2 ? 1 : 0));
    }
}

TEST_CASE("two tables a few seconds apart feed once", "[schedule][judge]") {
    // Caffeine and what was pinned are taken at one of the tables: 29 s apart here.
    Event event = race("long", 28);
    Athlete person = athlete(80, Level::steady);
    person.caffeine = true;
    event.kit.run_gels = 4;
    auto& run = leg_of(event, LegKind::run);
    for (double km = 2.5; km < 42; km += 2.5) {
        run.stations.push_back({km, {}, ServedIn::cup, std::nullopt});
        run.stations.push_back({km + 0.1, {}, ServedIn::cup, std::nullopt});
    }
    for (const double km : {5.0, 10.0}) {
        Pin pin;
        pin.leg = LegKind::run;
        pin.km = km;
        pin.food = "gel_25";
        event.pins.push_back(pin);
    }
    for (const bool pinned : {false, true}) {
        if (!pinned)
            event.pins.clear();
        const Made day(person, event);
        CHECK(day.broken() == std::set<std::string>{});
        const PlanFeed* last = nullptr;
        for (const auto& feed : day.schedule.feeds) {
            if (last && feed.leg_index == last->leg_index)
                CHECK(feed.at_s - last->at_s >= 60);
            last = &feed;
        }
    }
}

TEST_CASE("a leg and a day never drink more than their ceilings", "[schedule][judge]") {
    for (const char* distance : {"sprint", "standard"})
        for (const double mass_kg : {50.0, 70.0, 95.0})
            for (const double temperature_c : {8.0, 20.0, 33.0}) {
                Event event = race(distance, temperature_c);
                event.station_policy = StationPolicy::typical;
                const Made day(athlete(mass_kg), event);
                std::vector<double> drunk(day.effort.legs.size());
                for (const auto& feed : day.schedule.feeds)
                    drunk[static_cast<size_t>(feed.leg_index)] += feed.fluid_ml;
                for (size_t i = 0; i < drunk.size(); ++i) {
                    INFO(distance << ", " << mass_kg << " kg, " << temperature_c << " C, leg " << i);
                    CHECK(drunk[i] <=
                          day.need.legs[i].fluid_ml_per_h * day.effort.legs[i].time.p50_s / 3600 + 0.01);
                }
            }
}

TEST_CASE("on a fast day one sweats the same by the same kilometre of the run, and may drink the same",
          "[schedule][judge]") {
    // judge_hours.cpp: stations are places. All sweat of this day is the run's.
    Made day = middle();
    for (size_t i = 0; i < day.need.legs.size(); ++i)
        day.need.legs[i].sweat_ml_per_h = day.effort.legs[i].kind == LegKind::run ? 900 : 0;
    PlanFeed cup = day.last(LegKind::run);
    cup.at_s = day.length_s(LegKind::run) / 2;
    const double sweat_ml = 900 * cup.at_s / 3600;
    for (const double share : {0.99, 1.01}) {
        drink(cup, "water_tap", share * sweat_ml / 80, "cup", "station");
        day.schedule.feeds = {cup};
        CHECK(day.broken().count("fluid_sweat") == (share > 1 ? 1 : 0));
    }
}
