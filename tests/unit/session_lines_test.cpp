// The race's lines on a shorter session, by the contract of diary/session_lines.hpp. Races are invented.
#include "diary/session_lines.hpp"

#include <catch2/catch.hpp>

using namespace tuck;
using namespace tuck::diary;

namespace {

constexpr double hour_s = 3600, minute_s = 60;

/// A ride of four hours and a run of two.
Plan race() {
    Plan plan;
    plan.durations.resize(2);
    plan.durations[0].kind = LegKind::bike;
    plan.durations[0].leg_index = 0;
    plan.durations[0].time.p50_s = 4 * hour_s;
    plan.durations[1].kind = LegKind::run;
    plan.durations[1].leg_index = 1;
    plan.durations[1].time.p50_s = 2 * hour_s;
    Mix mix;
    mix.bottle = "B1";
    mix.volume_ml = 750;
    mix.add = {{"isotonic_powder", 45}};
    plan.mix = {mix};
    return plan;
}

LegMoment at_minute(double minute) {
    LegMoment out;
    out.at_s = minute * minute_s;
    return out;
}

LegMoment at_km(double km) {
    LegMoment out;
    out.km = km;
    out.at_s = km * 300;
    return out;
}

Line line_of(LegKind leg, const LineItem& item) {
    Line line;
    line.leg = leg;
    line.leg_index = leg == LegKind::bike ? 0 : 1;
    line.items = {item};
    return line;
}

const LineItem swallows{"isotonic_powder", "iso drink", 3, "swallow", {{"B1", 0}}},
    gel{"gel_25", "gel", 1, "gel", {{"pocket", 0}}}, bar{"energy_bar", "bar", 1, "bar", {{"pocket", 0}}},
    water_cup{"water_tap", "water", 1, "cup", {{"station", 0}}},
    belt_gel{"gel_25", "gel", 1, "gel", {{"belt", 0}}};

Line every(double minutes, double from, double to, const LineItem& item) {
    Line line = line_of(LegKind::bike, item);
    line.rhythm.kind = Rhythm::Kind::every;
    line.rhythm.every_s = minutes * minute_s;
    for (double minute = from; minute <= to; minute += minutes)
        line.at.push_back(at_minute(minute));
    return line;
}

Line once(double minute, const LineItem& item) {
    Line line = line_of(LegKind::bike, item);
    line.at = {at_minute(minute)};
    return line;
}

/// What the plan's feeds on the bike hold, from its lines.
void feed(Plan& plan, double carb_g) {
    for (const auto& line : plan.lines)
        for (const auto& at : line.at) {
            PlanFeed out;
            out.leg_index = line.leg_index;
            out.leg = line.leg;
            out.at_s = at.at_s;
            out.carb_g = carb_g;
            out.fluid_ml = 90;
            for (const auto& item : line.items)
                out.items.push_back({item.food, item.amount, item.unit, item.from[0].name, item.label});
            plan.feeds.push_back(out);
        }
}

SessionLines on(const Plan& plan, double ride_min, double run_min, double run_km = 0) {
    return session_lines(plan, {ride_min * minute_s, run_min * minute_s, run_km}, 1);
}

const OwnLine* line_with(const SessionLines& lines, const std::string& food, LegKind leg = LegKind::bike) {
    for (const auto& line : lines.lines)
        if (line.leg == leg && line.parts.front().of == food)
            return &line;
    return nullptr;
}

} // namespace

TEST_CASE("a session keeps the beat of the race's drink", "[session]") {
    Plan plan = race();
    plan.lines = {every(15, 15, 225, swallows)};
    feed(plan, 15);
    const auto session = on(plan, 120, 0);
    REQUIRE(session.lines.size() == 1);
    const auto& drink = session.lines[0];
    CHECK(drink.when == OwnLine::When::every);
    CHECK(drink.every_s == Approx(15 * minute_s));
    CHECK(!drink.from_s); // from its first beat on, to the end
    CHECK(!drink.to_s);
    CHECK(drink.parts[0].of == "B1");
    CHECK(session.bike_bottles_ml.size() >= 1);
}

TEST_CASE("a food of the race's middle comes on the beat that is nearest", "[session]") {
    // Two hours of four: 1:00 to 3:00 of the race are left out; what lies there comes at 1:00, their seam.
    Plan plan = race();
    plan.lines = {every(15, 15, 225, swallows), once(120, bar), once(210, gel)};
    feed(plan, 15);
    const auto session = on(plan, 120, 0);
    const auto* moved = line_with(session, "energy_bar");
    REQUIRE(moved);
    CHECK(moved->when == OwnLine::When::moments);
    REQUIRE(moved->at_s.size() == 1);
    CHECK(moved->at_s[0] == Approx(60 * minute_s));
    const auto* last = line_with(session, "gel_25"); // half an hour before the end in both
    REQUIRE(last);
    CHECK(last->at_s[0] == Approx(90 * minute_s));
}

TEST_CASE("a session shorter than two beats still takes the race's food inside it", "[session]") {
    Plan plan = race();
    plan.lines = {every(20, 20, 220, swallows), once(120, bar)};
    feed(plan, 15);
    for (const double ride_min : {20, 30, 45}) {
        INFO(ride_min);
        const auto session = on(plan, ride_min, 0);
        const auto* moved = line_with(session, "energy_bar");
        REQUIRE(moved);
        REQUIRE(moved->at_s.size() == 1);
        CHECK(moved->at_s[0] >= 5 * minute_s); // hands are on the bar in the first and the last five minutes
        CHECK(moved->at_s[0] <= (ride_min - 5) * minute_s);
    }
}

TEST_CASE("lines of the same food and amount go on as one, others stay apart", "[session]") {
    Plan plan = race();
    auto two_gels = gel;
    two_gels.amount = 2;
    plan.lines = {once(30, gel), once(45, gel), once(195, two_gels), once(210, bar)};
    feed(plan, 25);
    const auto session = on(plan, 120, 0);
    int gels = 0, doubles = 0, bars = 0;
    for (const auto& line : session.lines) {
        const bool one = line.parts[0].of == "gel_25" && line.parts[0].amount == 1;
        gels += one;
        doubles += line.parts[0].amount == 2;
        bars += line.parts[0].of == "energy_bar";
        if (one)
            CHECK(line.at_s.size() == 2);
    }
    CHECK(gels == 1);
    CHECK(doubles == 1);
    CHECK(bars == 1);
}

TEST_CASE("three moments with one step are a rhythm, two are named, uneven ones too", "[session]") {
    Plan plan = race();
    plan.lines = {once(30, gel)};
    plan.lines[0].at = {at_minute(20), at_minute(40), at_minute(60)};
    feed(plan, 25);
    const auto steady = on(plan, 240, 0);
    REQUIRE(steady.lines.size() == 1);
    CHECK(steady.lines[0].when == OwnLine::When::every);
    CHECK(steady.lines[0].every_s == Approx(20 * minute_s));
    REQUIRE(steady.lines[0].to_s);
    CHECK(*steady.lines[0].to_s == Approx(60 * minute_s));
    plan.lines[0].at = {at_minute(20), at_minute(40), at_minute(75)};
    CHECK(on(plan, 240, 0).lines[0].when == OwnLine::When::moments);
    plan.lines[0].at = {at_minute(20), at_minute(40)};
    CHECK(on(plan, 240, 0).lines[0].when == OwnLine::When::moments);
}

TEST_CASE("a session's run has the race's stations as far as it goes", "[session]") {
    Plan plan = race();
    Line cups = line_of(LegKind::run, water_cup);
    cups.by_km = true;
    cups.rhythm.kind = Rhythm::Kind::stations;
    cups.rhythm.step = 1;
    cups.at = {at_km(2), at_km(4), at_km(6)};
    plan.lines = {cups};
    const auto far = on(plan, 0, 20, 4);
    REQUIRE(far.lines.size() == 1);
    CHECK(far.lines[0].when == OwnLine::When::stations);
    CHECK(far.lines[0].step == 1);
    CHECK(on(plan, 0, 10, 2).lines.empty()); // the first station stands where the session ends
    plan.lines[0].at.clear();
    CHECK(on(plan, 0, 20, 4).lines.empty());
}

TEST_CASE("a gel by the clock of the run is taken at its minute, or halfway where the session ends before it",
          "[session]") {
    Plan plan = race();
    Line gels = line_of(LegKind::run, belt_gel);
    gels.at = {at_minute(19), at_minute(60)};
    plan.lines = {gels};
    const auto there = on(plan, 0, 20, 4); // a minute before the end
    REQUIRE(there.lines.size() == 1);
    CHECK(there.lines[0].at_s == std::vector<double>{19 * minute_s});
    const auto later = on(plan, 0, 18, 4);
    REQUIRE(later.lines.size() == 1);
    CHECK(later.lines[0].said == brought_forward);
    CHECK(later.lines[0].at_s == std::vector<double>{9 * minute_s});
    Line by_km = line_of(LegKind::run, belt_gel);
    by_km.by_km = true;
    by_km.rhythm.kind = Rhythm::Kind::stations;
    by_km.at = {at_km(2), at_km(8)};
    plan.lines = {by_km};
    const auto at_station = on(plan, 0, 20, 4); // food is named by its kilometre, not at every station
    REQUIRE(at_station.lines.size() == 1);
    CHECK(at_station.lines[0].when == OwnLine::When::moments);
    CHECK(at_station.lines[0].at_km == std::vector<double>{2});
}
