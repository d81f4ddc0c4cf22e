// Rules of whole plans, one fact each. Common practice, no source, where nothing else is named; days are
// invented.
#include "ask/one_rhythm.hpp"
#include "io/pantry.hpp"
#include "places.hpp"
#include "tuck/ask.hpp"
#include "tuck/rehearsal.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace tuck;
using Catch::Contains;

namespace {

Asked asked_of(const Typed& more, const std::vector<std::string>& pins = {}) {
    Ask ask;
    ask.pantry = places::foods();
    ask.options = {
        {"--distance", {"middle"}}, {"--mass", {"70kg"}}, {"--temperature", {"20C"}}, {"--days", {"0"}}};
    for (const auto& [option, texts] : more)
        if (texts.empty())
            ask.options.erase(option);
        else
            ask.options[option] = texts;
    ask.edits.pins = pins;
    return read_ask(ask);
}

Plan plan_of(const Typed& more, const std::vector<std::string>& pins = {}) {
    return answer(asked_of(more, pins)).plan;
}

Plan plan_of_file(const std::string& event) {
    Ask ask;
    ask.pantry = places::foods();
    ask.event = Document("event", event);
    auto asked = read_ask(ask);
    asked.event.days = 0;
    return answer(asked).plan;
}

bool says(const std::vector<std::string>& texts, const std::string& what) {
    return std::any_of(texts.begin(), texts.end(),
                       [&what](const std::string& text) { return text.find(what) != std::string::npos; });
}

std::string warning(const Plan& plan, const std::string& code) {
    for (const auto& one : plan.warnings)
        if (one.code == code)
            return one.text;
    return {};
}

double eaten(const Plan& plan, const std::string& food) {
    double out = 0;
    for (const auto& feed : plan.feeds)
        for (const auto& item : feed.items)
            out += item.food == food ? item.amount : 0;
    return out;
}

} // namespace

TEST_CASE("a wish for solid food in the last half hour before the run is kept out", "[rules]") {
    const auto plan = plan_of({}, {"2:45=energy_bar"});
    CHECK_THAT(warning(plan, "pin_refused"), Contains("solid food ends 30 min before the run"));
    CHECK(warning(plan_of({}, {"1:45=energy_bar"}), "pin_refused").empty());
}

TEST_CASE("two wishes an hour apart are both kept, two in one minute are not", "[rules]") {
    const auto apart = plan_of({}, {"0:45=gel_25", "1:45=gel_25"});
    CHECK(warning(apart, "pin_refused").empty());
    CHECK(eaten(apart, "gel_25") >= 2);
    CHECK_FALSE(warning(plan_of({}, {"0:45=gel_25", "0:46=energy_bar"}), "pin_refused").empty());
}

TEST_CASE("a wish by kilometre goes to the first run that is so long", "[rules]") {
    const auto plan =
        plan_of({{"--distance", {}}, {"--legs", {"run:5km,bike:60km,run:12km"}}}, {"8km=gel_isotonic"});
    CHECK(warning(plan, "pin_refused").empty());
    const bool there = std::any_of(plan.feeds.begin(), plan.feeds.end(), [](const PlanFeed& feed) {
        return feed.leg == LegKind::run && feed.leg_index > 1 && feed.km > 7 && feed.km < 9 &&
               !feed.items.empty() && feed.items[0].food == "gel_isotonic";
    });
    CHECK(there);
}

TEST_CASE("a coeliac eats, and nothing with gluten", "[rules]") {
    const auto plan =
        plan_of_file(R"({"distance": "middle", "weather": {"temperature_c": 20}, "stations": "typical",
        "athlete": {"mass_kg": 70, "health": {"coeliac": true}}})");
    CHECK(plan.totals.carb_g > 100);
    const auto pantry = io::load_pantry(places::foods());
    int foods = 0;
    for (const auto& feed : plan.feeds)
        for (const auto& item : feed.items)
            if (const auto* food = pantry.find(item.food)) {
                ++foods;
                CHECK(std::count(food->allergens.begin(), food->allergens.end(), "gluten") == 0);
            }
    CHECK(foods > 0);
}

TEST_CASE("what a station hands out to chew is planned only where that was rehearsed", "[rules]") {
    const std::string day =
        R"({"legs": [{"sport": "bike", "distance_m": 90000}, {"sport": "run", "distance_m": 21100,
        "stations": [{"km": 2.5, "laps": 8, "lap_km": 2.5, "serves": ["orange_segments"]}]}],
        "weather": {"temperature_c": 18}, "kit": {"run_gels": 0}, "athlete": {"mass_kg": 70, "like": ["orange_segments"], "rehearsed": {"carb_g_per_h": 60)";
    const auto chewed_on_foot = [](const Plan& plan) {
        return std::any_of(plan.feeds.begin(), plan.feeds.end(), [](const PlanFeed& feed) {
            return feed.leg == LegKind::run &&
                   std::any_of(feed.items.begin(), feed.items.end(),
                               [](const FeedItem& item) { return item.food == "orange_segments"; });
        });
    };
    CHECK_FALSE(chewed_on_foot(plan_of_file(day + "}}}")));
    CHECK(chewed_on_foot(plan_of_file(day + R"(, "solids_on_run": true}}})")));
}

TEST_CASE("a delayed start is so long after breakfast that a snack is named", "[rules]") {
    const auto snack = [](const char* start, const char* delay) {
        Ask ask;
        ask.pantry = places::foods();
        ask.options = {{"--distance", {"middle"}},
                       {"--mass", {"70kg"}},
                       {"--temperature", {"20C"}},
                       {"--days", {"0"}},
                       {"--start", {start}}};
        ask.edits.delay = delay;
        const auto plan = answer(read_ask(ask)).plan;
        return std::any_of(plan.before.begin(), plan.before.end(), [](const auto& moment) {
            return moment.text.find("A snack of 30 to 60 g") != std::string::npos;
        });
    };
    CHECK_FALSE(snack("8:00", ""));
    CHECK(snack("8:00", "2h"));
    CHECK(snack("11:00", ""));
    CHECK_FALSE(snack("10:59", ""));
}

TEST_CASE("too little to finish on names what is not there yet, and stations only where there are none",
          "[rules]") {
    const std::string day =
        R"({"distance": "long", "weather": {"temperature_c": 20}, "kit": {"bike_bottles_ml": [500],
        "run_gels": 0, "run_flask_ml": 0}, "athlete": {"mass_kg": 70, "hands": "bottle"})";
    const auto alone = warning(plan_of_file(day + "}"), "not_enough");
    CHECK_THAT(alone, Contains("the event's aid stations") && Contains("a belt or pocket for gels") &&
                          Contains("a rehearsal") && Contains("stopping at aid stations"));
    const auto named =
        warning(plan_of_file(day + R"(, "course": {"bike": {"stations": [{"km": 60, "form": "cup"}]}}})"),
                "not_enough");
    CHECK_THAT(named, Contains("a rehearsal") && !Contains("the event's aid stations"));
}

TEST_CASE("a spare gel goes into the belt where there is room", "[rules]") {
    const auto in_belt = [](const char* room, bool& spare) {
        const auto plan = plan_of_file(std::string(R"({"legs": [{"sport": "run", "distance_m": 21100}],
            "weather": {"temperature_c": 15}, "athlete": {"mass_kg": 70}, "kit": {"run_gels": )") +
                                       room + "}}");
        double count = 0;
        spare = false;
        for (const auto& item : plan.carry)
            if (item.where == "belt" && !item.food.empty()) {
                count += item.amount;
                spare = spare || item.text.find("to spare") != std::string::npos;
            }
        return count;
    };
    bool spare = false;
    CHECK(in_belt("1", spare) == 1);
    CHECK_FALSE(spare);
    CHECK(in_belt("8", spare) > 1);
    CHECK(spare);
}

TEST_CASE("a gel on the bike goes on to the end of a slow day, a bar does not", "[rules]") {
    int soft = 0, solid = 0;
    for (const char* food : {"gels", "bars"}) {
        Ask ask;
        ask.pantry = places::foods();
        ask.options = {
            {"--distance", {"middle"}}, {"--mass", {"70kg"}}, {"--temperature", {"20C"}}, {"--days", {"0"}}};
        ask.edits.only = {food, "drinks"};
        for (const auto& line : answer(read_ask(ask)).plan.lines)
            if (line.leg == LegKind::bike && line.rhythm.kind == Rhythm::Kind::every &&
                !line.items[0].drink()) {
                ++(line.items[0].unit == "gel" ? soft : solid);
                CHECK((line.goes_on_every_s > 0) == (line.items[0].unit == "gel"));
            }
    }
    CHECK(soft > 0);
    CHECK(solid > 0);
}

TEST_CASE("the most sweat that was ever seen is told in litres an hour", "[rules]") {
    const auto plan =
        plan_of_file(R"({"legs": [{"sport": "run", "time": "2:00:00"}], "weather": {"temperature_c": 45,
        "humidity_pct": 30}, "athlete": {"mass_kg": 95, "sweat": {"sweat_ml_per_h": 4000, "temperature_c": 15}}})");
    CHECK(says(plan.assumptions, "sweat more than 5 L/h"));
}

TEST_CASE("what a card holds is told where it binds, and not where a plan has no more lines anyway",
          "[rules]") {
    const auto with = [](std::optional<int> bike, std::optional<int> run) {
        auto asked = asked_of({{"--stations", {"typical"}}});
        asked.event.max_lines_bike = bike;
        asked.event.max_lines_run = run;
        return answer(asked).plan.assumptions;
    };
    // A bike has four lines at most, a run three (our choice).
    CHECK_FALSE(says(with({}, {}), "one side of the card holds no more"));
    CHECK_FALSE(says(with(4, 3), "one side of the card holds no more"));
    CHECK(says(with(2, {}), "At most 2 lines on the bike: one side of the card holds no more"));
    CHECK(says(with(2, 1), "At most 2 lines on the bike and 1 on the run"));
}

TEST_CASE("a rhythm of one's own ends five minutes before the dismount and ten before the finish",
          "[rules]") {
    const auto last_min = [](const std::string& legs, const char* line) {
        const auto plan = plan_of_file(R"({"legs": [)" + legs +
                                       R"(], "weather": {"temperature_c": 20}, "athlete": {"mass_kg": 70},
            "kit": {"run_flask_ml": 500}, "own_lines": [")" +
                                       line + R"("]})");
        REQUIRE_FALSE(plan.feeds.empty());
        return plan.feeds.back().at_s / 60;
    };
    CHECK(last_min(R"({"sport": "bike", "time": "1:35:00"})", "bike every 10min: 1 swallow B1") ==
          Approx(90));
    CHECK(last_min(R"({"sport": "bike", "time": "1:34:00"})", "bike every 10min: 1 swallow B1") ==
          Approx(80));
    CHECK(last_min(R"({"sport": "run", "time": "1:30:00"})", "run every 10min: 1 swallow iso") == Approx(80));
    CHECK(last_min(R"({"sport": "run", "time": "1:29:00"})", "run every 10min: 1 swallow iso") == Approx(70));
}

TEST_CASE("what lies beyond the weather that the sweat model was held against is said, for rides and runs",
          "[heat]") {
    for (const char* leg : {"bike", "run"}) {
        const auto at = [leg](double air_c) {
            return plan_of_file(std::string(R"({"legs": [{"sport": ")") + leg + R"(", "time": "2:00:00"}],
                "athlete": {"mass_kg": 70}, "weather": {"temperature_c": )" +
                                std::to_string(air_c) + "}}")
                .assumptions;
        };
        INFO(leg);
        CHECK(says(at(42), std::string("held against (") + leg + ": 42 C (5 to 40))"));
        CHECK(says(at(2), std::string("held against (") + leg + ": 2 C (5 to 40))"));
        CHECK_FALSE(says(at(20), "held against ("));
    }
}

TEST_CASE("room for two more gels brings two gels", "[rules]") {
    Ask ask;
    ask.pantry = places::foods();
    ask.event = Document(
        "event", R"({"legs": [{"sport": "run", "distance_m": 42195}], "weather": {"temperature_c": 15},
        "athlete": {"mass_kg": 70, "rehearsed": {"carb_g_per_h": 75}}, "kit": {"run_gels": 0}})");
    ask.edits.only = {"gel_isotonic"};
    auto asked = read_ask(ask);
    asked.event.days = 0;
    const auto plan = answer(asked).plan;
    const double hours = plan.durations.back().time.p50_s / 3600,
                 gel_g = io::load_pantry(places::foods()).foods.at("gel_isotonic").carb_g;
    bool told = false;
    for (const auto& unmet : plan.unmet)
        if (unmet.lift.find("two more gels") != std::string::npos && unmet.what == Wanted::carbohydrate) {
            told = true;
            CHECK(unmet.lift_gives == Approx(2 * gel_g / hours).margin(1));
        }
    CHECK(told);
}

TEST_CASE("a squad's rhythm is 15 minutes, or 10 where nobody rides over 25 km", "[rules]") {
    const auto beat_min = [](const char* distance) {
        const auto asked = asked_of({{"--distance", {distance}}});
        const auto own = answer(asked).plan;
        const auto plan = ask::on_one_rhythm(asked.athlete, asked.event, asked.pantry);
        double off = 0;
        for (const auto& feed : plan.feeds)
            if (feed.leg == LegKind::bike)
                off = std::max(off, std::abs(std::remainder(feed.at_s.count(), 15 * 60)));
        CHECK(plan.totals.carb_g >= 0.95 * own.totals.carb_g);
        return off < 1 ? 15 : 10;
    };
    CHECK(beat_min("standard") == 15);
    CHECK(beat_min("middle") == 15);
    CHECK(beat_min("sprint") == 10);
}

TEST_CASE("a squad's rhythm is kept where it costs no more than 5 % of one's own carbohydrate", "[rules]") {
    struct Off {
        Plan own, squad;
        double own_s = 0, squad_s = 0; // furthest from a beat of 15 minutes
    };
    const auto tried = [](const char* legs, const char* rate, const char* gels, const char* bottles) {
        Ask ask;
        ask.pantry = places::foods();
        ask.options = {{"--legs", {legs}}, {"--mass", {"75kg"}},         {"--temperature", {"15C"}},
                       {"--days", {"0"}},  {"--rehearsed-carb", {rate}}, {"--bottles", {bottles}}};
        ask.edits.only = {gels, "drinks"};
        const auto asked = read_ask(ask);
        Off out;
        out.own = answer(asked).plan;
        out.squad = ask::on_one_rhythm(asked.athlete, asked.event, asked.pantry);
        for (auto [plan, off_s] : {std::pair{&out.own, &out.own_s}, {&out.squad, &out.squad_s}})
            for (const auto& feed : plan->feeds)
                *off_s = std::max(*off_s, std::abs(std::remainder(feed.at_s.count(), 15 * 60)));
        return out;
    };
    const auto shared = tried("bike:5h", "90g/h", "gels", "1x500ml");
    CHECK(shared.own_s > 60);
    CHECK(shared.squad_s < 1);
    CHECK(shared.squad.totals.carb_g >= 0.95 * shared.own.totals.carb_g);
    const auto dear = tried("bike:4h", "110g/h", "gel_25", "2x750ml");
    CHECK(dear.own_s > 60);
    CHECK(dear.squad_s > 60); // on the squad's clock a third less
    CHECK(dear.squad.totals.carb_g == dear.own.totals.carb_g);
}

TEST_CASE("what a limit of lines costs is told with the number of lines, where they are used up", "[rules]") {
    auto asked = asked_of({{"--stations", {"typical"}}});
    const auto costs = [&asked](std::optional<int> most) {
        asked.event.max_lines_bike = most;
        for (const auto& trace : answer(asked).plan.traces)
            for (const auto& reason : trace.because)
                if (reason.text.find("lines on the bike: that costs") != std::string::npos)
                    return reason.text.substr(0, reason.text.find(':'));
        return std::string();
    };
    CHECK(costs({}).empty());
    CHECK(costs(2) == "no more than 2 lines on the bike");
    CHECK(costs(4).empty()); // it has fewer
}

TEST_CASE("of own lines that break a rule twice on a leg the worse time is told", "[rules]") {
    for (const bool worse_first : {true, false}) {
        INFO(worse_first);
        const auto plan = plan_of_file(
            std::string(R"({"legs": [{"sport": "bike", "time": "5:00:00"}], "weather": {"temperature_c": 20},
            "athlete": {"mass_kg": 70, "rehearsed": {"carb_g_per_h": 60}}, "own_lines": ["bike )") +
            (worse_first ? "0:30: 5 gel_25\", \"bike 3:30: 4 gel_25"
                         : "0:30: 4 gel_25\", \"bike 3:30: 5 gel_25") +
            "\"]}");
        double most = 0;
        for (const auto& breach : plan.broken_rules)
            if (breach.rule == "carb_hour") {
                most = std::max(most, breach.value);
                CHECK_THAT(breach.text, Contains("times in all"));
            }
        CHECK(most == Approx(125).margin(1));
    }
}

TEST_CASE("things to eat stand 20 minutes apart, from 75 g an hour on 15", "[rules]") {
    const auto least_min = [](const char* rate) {
        Ask ask;
        ask.pantry = places::foods();
        ask.options = {{"--legs", {"bike:3h"}}, {"--mass", {"75kg"}},         {"--temperature", {"15C"}},
                       {"--days", {"0"}},       {"--rehearsed-carb", {rate}}, {"--bottles", {"1x500ml"}}};
        ask.edits.only = {"chews", "drinks"};
        double least = 1e9, before = -1e9;
        for (const auto& feed : answer(read_ask(ask)).plan.feeds)
            if (std::any_of(feed.items.begin(), feed.items.end(),
                            [](const FeedItem& item) { return item.unit != "swallow"; })) {
                least = std::min(least, feed.at_s.count() / 60 - before);
                before = feed.at_s.count() / 60;
            }
        return least;
    };
    CHECK(least_min("80g/h") == Approx(15));
    CHECK(least_min("70g/h") >= 20);
}

TEST_CASE("a bar ends where a ride does, however slow the day", "[rules]") {
    Ask ask;
    ask.pantry = places::foods();
    ask.options = {
        {"--legs", {"bike:4h"}}, {"--mass", {"75kg"}}, {"--temperature", {"15C"}}, {"--days", {"0"}}};
    ask.edits.only = {"bars", "drinks"};
    int bars = 0;
    for (const auto& line : answer(read_ask(ask)).plan.lines)
        if (!line.items[0].drink()) {
            ++bars;
            CHECK(line.goes_on_every_s == 0);
        }
    CHECK(bars > 0);
}

TEST_CASE("hours without a rate are none on which too little is eaten", "[rules]") {
    // Two and a half hours of swimming and less than two on the bike: three hours, the border, are not fed.
    CHECK(
        warning(plan_of_file(
                    R"({"legs": [{"sport": "swim", "time": "2:30:00"}, {"sport": "bike", "time": "1:50:00"}],
        "weather": {"temperature_c": 18}, "kit": {"bike_bottles_ml": [100]},
        "athlete": {"mass_kg": 70, "hands": "bottle"}})"),
                "not_enough")
            .empty());
}

TEST_CASE("a gel may be wished for on a short run that needs none", "[rules]") {
    const auto plan = plan_of({{"--distance", {}}, {"--legs", {"bike:40km,run:5km"}}, {"--mass", {"60kg"}}},
                              {"2km=gel_isotonic"});
    CHECK(plan.needs.back().carb_g_per_h == 0);
    CHECK(warning(plan, "pin_refused").empty());
    CHECK(eaten(plan, "gel_isotonic") >= 1);
}

TEST_CASE("a race without lines leaves a session without lines and bottles", "[rehearsal]") {
    Rehearsal rehearsal;
    rehearsal.athlete.mass_kg = 70;
    rehearsal.ride_min = 60;
    rehearsal.session_carb_g_per_h = 60;
    rehearsal.event.legs.resize(1);
    rehearsal.event.legs[0].kind = LegKind::bike;
    rehearsal.event.legs[0].time_s = 3600;
    Plan race;
    race.durations = estimate_effort(rehearsal.athlete, rehearsal.event).legs;
    rehearse_plan(race, rehearsal);
    CHECK(rehearsal.event.own_lines.empty());
    CHECK(rehearsal.event.own_bottles.empty());
    CHECK_FALSE(rehearsal.event.kit.bike_bottles_ml);
}
