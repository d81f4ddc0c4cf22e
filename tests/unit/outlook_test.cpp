// The outlook: exact draws, sound statistics, and the direction in which harm lies.
#include "outlook_days.hpp"
#include "stage_examples.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace tuck;
using namespace tuck::example;

namespace {

struct LongDay {
    Athlete person = athlete(70, Level::steady);
    Event event = race("long", 22);
    Effort effort;
    Body body;
    Schedule schedule;

    LongDay() {
        event.station_policy = StationPolicy::typical;
        event.days = 4000;
        effort = estimate_effort(person, event);
        body = describe_body(person, event, effort);
        schedule =
            make_schedule(person, event, effort, body, state_need(person, event, effort, body), pantry());
    }
    PlanOutlook outlook() const { return look_ahead(person, event, effort, body, schedule); }
    /// Serum sodium in the middle of the days on which all of it is drunk.
    double drunk_whole_mmol_per_l() const {
        using namespace outlook;
        const auto grid = race_grid(person, event, effort, body, schedule, Drinking::whole);
        return middle(simulated(grid, static_cast<std::size_t>(event.days)), Column::serum_sodium);
    }
    /// Drinks `ml_per_h` of plain water over the run and the bike instead of what was planned.
    void drink_only(double ml_per_h) {
        schedule.feeds.clear();
        for (const auto& leg : effort.legs)
            for (double at = 900;
                 (leg.kind == LegKind::bike || leg.kind == LegKind::run) && at < leg.time.p50_s; at += 900) {
                PlanFeed feed;
                feed.leg_index = leg.leg_index;
                feed.leg = leg.kind;
                feed.at_s = at;
                feed.fluid_ml = ml_per_h / 4;
                schedule.feeds.push_back(feed);
            }
    }
};

} // namespace

TEST_CASE("the seed fixes the days", "[outlook]") {
    LongDay day_out;
    const auto one = day_out.outlook(), same = day_out.outlook();
    CHECK(one.water_gain == same.water_gain);
    CHECK(one.mass_change_pct.p05 == same.mass_change_pct.p05);
    CHECK(one.serum_sodium_mmol_per_l.p95 == same.serum_sodium_mmol_per_l.p95);
    day_out.event.seed = 2;
    const auto other = day_out.outlook();
    CHECK(other.mass_change_pct.p50 != one.mass_change_pct.p50);
    // Another draw of the same days: medians agree within what 4,000 days leave open (1.25 SD / sqrt(n)).
    CHECK(other.mass_change_pct.p50 == Approx(one.mass_change_pct.p50).margin(0.2));
}

TEST_CASE("no days, no outlook", "[outlook]") {
    LongDay day_out;
    day_out.event.days = 0;
    const auto empty = day_out.outlook();
    CHECK(empty.days == 0);
    CHECK(empty.water_gain == 0);
    CHECK(empty.mass_change_pct.p50 == 0);
    CHECK(empty.sentence.empty());
}

TEST_CASE("drinking more than one sweats gains mass and dilutes the blood", "[outlook]") {
    // Noakes 2005 (2,135 athletes): who gains mass is at risk of low serum sodium. Montain 2006: serum sodium
    // falls with the drink that is drunk. 400, 800 and 1600 ml/h of water over a long race.
    LongDay day_out;
    double gain = -1, sodium = 200, mass = -100, low = -1;
    for (const double ml_per_h : {0.0, 400.0, 800.0, 1600.0}) {
        day_out.drink_only(ml_per_h);
        const auto day = day_out.outlook();
        CHECK(day.mass_change_pct.p50 > mass);
        CHECK(day_out.drunk_whole_mmol_per_l() < sodium);
        CHECK(day.water_gain >= gain);
        CHECK(day.low_sodium_by_drinking >= low);
        gain = day.water_gain;
        sodium = day_out.drunk_whole_mmol_per_l();
        mass = day.mass_change_pct.p50;
        low = day.low_sodium_by_drinking;
    }
    CHECK(gain > 0.5);     // sweat is some 0.6-0.9 L/h here
    CHECK(sodium < 136.0); // half of the days near or below 135: stores and kidney hold some of it
    CHECK(low > 0.5);
}

TEST_CASE("salt in the drink and in the sweat move serum sodium as they must", "[outlook]") {
    // Montain 2006: higher with sodium in the drink, lower with saltier sweat.
    LongDay day_out;
    day_out.drink_only(700);
    const double plain = day_out.outlook().serum_sodium_mmol_per_l.p50;
    for (auto& feed : day_out.schedule.feeds)
        feed.sodium_mg = 150;
    const double salted = day_out.outlook().serum_sodium_mmol_per_l.p50;
    CHECK(salted > plain);
    day_out.body.sweat_sodium_mg_per_l *= 2;
    CHECK(day_out.outlook().serum_sodium_mmol_per_l.p50 < salted);
}

TEST_CASE("scale mass falls more than body water", "[outlook]") {
    // Fuel is burnt, 0.20 g/kcal are lost without sweat (Cheuvront & Montain 2017): with water in balance the
    // scale falls.
    LongDay day_out;
    const auto day = day_out.outlook();
    CHECK(day.mass_gain <= day.water_gain);
    CHECK(day.water_loss_over_4pct <= day.water_loss_over_2pct);
}

TEST_CASE("eating saves glycogen, a longer day spends more", "[outlook]") {
    LongDay day_out;
    const double fed = day_out.outlook().glycogen_gone;
    day_out.drink_only(400);
    CHECK(day_out.outlook().glycogen_gone >= fed);
    LongDay half;
    half.event.legs = preset_legs("middle");
    half.effort = estimate_effort(half.person, half.event);
    half.body = describe_body(half.person, half.event, half.effort);
    half.schedule.feeds.clear();
    day_out.schedule.feeds.clear();
    CHECK(half.outlook().glycogen_left_g.p50 >= day_out.outlook().glycogen_left_g.p50);
}

TEST_CASE("a stomach filled faster than it empties is noticed", "[outlook]") {
    // Intestinal uptake 0.8-1.2 L/h (coaching figures).
    LongDay day_out;
    day_out.drink_only(500);
    const double calm = day_out.outlook().stomach_full;
    day_out.drink_only(1800);
    CHECK(calm < 0.1);
    CHECK(day_out.outlook().stomach_full > 0.9);
}

TEST_CASE("nothing but numbers comes out", "[outlook]") {
    for (const auto& name : preset_names())
        for (const double celsius : {-5.0, 20.0, 42.0}) {
            Event event = race(name, celsius);
            event.days = 200;
            const auto day = compose_plan(athlete(45, Level::beginner), event, pantry()).outlook;
            for (const auto& p : {day.mass_change_pct, day.serum_sodium_mmol_per_l, day.glycogen_left_g})
                for (const double value : {p.p05, p.p50, p.p95})
                    CHECK(std::isfinite(value));
            for (const double chance :
                 {day.mass_gain, day.water_gain, day.low_sodium, day.glycogen_gone, day.stomach_full}) {
                CHECK(chance >= 0);
                CHECK(chance <= 1);
            }
        }
}
