// The schedule stage: what every schedule holds to, over a grid of athletes and days.
#include "schedule/menu.hpp"
#include "schedule/program.hpp"
#include "schedule/timeline.hpp"
#include "stage_examples.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

using namespace tuck;
using namespace tuck::example;

namespace {

bool drink(const FeedItem& item) {
    return item.unit == "swallow" || item.unit == "cup";
}

bool eats(const Schedule& schedule, const std::string& food) {
    return std::any_of(schedule.feeds.begin(), schedule.feeds.end(), [&food](const PlanFeed& feed) {
        return std::any_of(feed.items.begin(), feed.items.end(),
                           [&food](const FeedItem& item) { return item.food == food; });
    });
}

double carb_g(const Schedule& schedule, LegKind kind) {
    double sum = 0;
    for (const auto& feed : schedule.feeds)
        sum += feed.leg == kind ? feed.carb_g.count() : 0;
    return sum;
}

Athlete prepared() {
    Athlete a = athlete(72, Level::keen);
    a.rehearsed.carb_g_per_h = 70;
    a.hands = Hands::bottle_and_food;
    return a;
}

Event stations(Event event) {
    event.station_policy = StationPolicy::typical;
    return event;
}

using At = std::pair<int, double>;
using Taken = std::map<std::pair<std::string, std::string>, double>;

} // namespace

TEST_CASE("lines expanded and merged by moment are exactly the feeds", "[schedule]") {
    for (const char* name : {"sprint", "standard", "middle", "long", "duathlon-standard"})
        for (const double celsius : {8.0, 20.0, 32.0}) {
            const auto schedule = schedule_of(prepared(), stations(race(name, celsius)));
            std::map<At, Taken> said, meant;
            for (const auto& line : schedule.lines)
                for (const auto& at : line.at)
                    for (const auto& item : line.items)
                        said[{line.leg_index, at.at_s}][{item.food, item.unit}] += item.amount;
            for (const auto& feed : schedule.feeds)
                for (const auto& item : feed.items)
                    meant[{feed.leg_index, feed.at_s}][{item.food, item.unit}] += item.amount;
            CHECK(said == meant);
        }
}

TEST_CASE("a tired person can follow it: few lines and few kinds a leg", "[schedule]") {
    for (const char* name : {"sprint", "standard", "middle", "long"})
        for (const double celsius : {10.0, 30.0}) {
            const auto schedule = schedule_of(prepared(), stations(race(name, celsius)));
            std::map<int, int> lines;
            for (const auto& line : schedule.lines)
                ++lines[line.leg_index];
            for (const auto& [leg, count] : lines)
                CHECK(count <= 4);
        }
}

TEST_CASE("the plan comes near the need where nothing stands in the way", "[schedule]") {
    // A cool bottle-and-food day with stations and a sweat test: within a tenth of the bike's need, and three
    // quarters of the rate in its last hour (common practice, no source).
    const auto event = stations(race("middle", 22));
    Athlete a = prepared();
    a.sweat = MeasuredSweat{1000, Sport::bike, 22, std::nullopt};
    const auto need = need_of(a, event);
    const auto effort = estimate_effort(a, event);
    const double length_s = of(effort.legs, LegKind::bike).time.p50_s,
                 rate = of(need.legs, LegKind::bike).carb_g_per_h;
    const auto schedule = schedule_of(a, event);
    CHECK(carb_g(schedule, LegKind::bike) == Approx(rate * length_s / 3600).epsilon(0.1));
    double last_hour = 0;
    for (const auto& feed : schedule.feeds)
        last_hour += feed.leg == LegKind::bike && feed.at_s > length_s - 3600 ? feed.carb_g.count() : 0;
    CHECK(last_hour >= 0.75 * rate);
}

TEST_CASE("what falls short says which rule binds and what lifts it", "[schedule]") {
    // A cold race allows little fluid, so few ordinary gels: carbohydrate is missed, not washed down.
    Athlete cold = prepared();
    cold.sweat = MeasuredSweat{250, Sport::bike, 5.0, 60.0};
    cold.avoid = {"bars", "fruit", "bread_and_grain", "chews", "salty", "sweet"};
    const auto schedule = schedule_of(cold, race("middle", 5));
    REQUIRE_FALSE(schedule.unmet.empty());
    for (const auto& unmet : schedule.unmet) {
        CHECK(unmet.cost_g_per_h > 0);
        CHECK_FALSE(unmet.rule.empty());
        CHECK_FALSE(unmet.lift.empty());
    }
}

TEST_CASE("hands that stay on the bar eat and drink only at stops that are named", "[schedule]") {
    Athlete a = prepared();
    a.hands = Hands::none;
    for (const auto& feed : schedule_of(a, race("sprint", 28)).feeds)
        CHECK(feed.leg != LegKind::bike); // under an hour what is drunk in transition is enough
    const auto stopping = schedule_of(a, race("middle", 20));
    CHECK(carb_g(stopping, LegKind::bike) > 0);
    for (const auto& line : stopping.lines)
        CHECK(line.stop == (line.leg == LegKind::bike));
    a.hands = Hands::bottle;
    for (const auto& feed : schedule_of(a, race("standard", 28)).feeds)
        if (feed.leg == LegKind::bike)
            CHECK(std::all_of(feed.items.begin(), feed.items.end(), drink));
    // Not said: a beginner takes the bottle only (practice).
    Athlete first = athlete(70, Level::beginner);
    for (const auto& feed : schedule_of(first, race("standard", 20)).feeds)
        if (feed.leg == LegKind::bike)
            CHECK(std::all_of(feed.items.begin(), feed.items.end(), drink));
}

TEST_CASE("allergens, dislikes and health keep foods out, also at stations", "[schedule]") {
    Event event = race("middle", 26);
    leg_of(event, LegKind::run).stations = {{2, {"bouillon_made_up"}, ServedIn::cup, {}},
                                            {6, {"bouillon_made_up"}, ServedIn::cup, {}},
                                            {11, {"bouillon_made_up"}, ServedIn::cup, {}},
                                            {16, {"bouillon_made_up"}, ServedIn::cup, {}}};
    REQUIRE(eats(schedule_of(prepared(), event), "bouillon_made_up"));
    Athlete celery = prepared();
    celery.allergy = {"celery"};
    CHECK_FALSE(eats(schedule_of(celery, event), "bouillon_made_up"));
    Athlete coeliac = prepared(); // it holds gluten
    coeliac.health.coeliac = true;
    CHECK_FALSE(eats(schedule_of(coeliac, event), "bouillon_made_up"));
    Athlete other = prepared();
    other.avoid = {"salty"}; // its group
    CHECK_FALSE(eats(schedule_of(other, event), "bouillon_made_up"));
}

TEST_CASE("solids rehearsed for the run are planned there and wait after a swim", "[schedule]") {
    Athlete a = prepared();
    a.rehearsed.solids_on_run = true;
    a.like = {"orange_segments"};
    Event event = race("", 20);
    Leg swim, run;
    swim.kind = LegKind::swim;
    swim.distance_m = 1500;
    run.kind = LegKind::run;
    run.distance_m = 15000;
    event.legs = with_transitions({swim, run});
    for (double km = 1; km < 15; km += 1)
        event.legs.back().stations.push_back({km, {}, ServedIn::cup, {}});
    const auto schedule = schedule_of(a, event);
    for (const auto& feed : schedule.feeds)
        for (const auto& item : feed.items)
            if (item.food == "orange_segments")
                CHECK(feed.at_s >= 15 * 60);
    Athlete without = a;
    without.rehearsed.solids_on_run = false;
    CHECK_FALSE(eats(schedule_of(without, event), "orange_segments"));
}

TEST_CASE("the day's caffeine counts the morning and every cup of cola", "[schedule]") {
    Event event = race("long", 18);
    for (double km = 2; km < 42; km += 2)
        leg_of(event, LegKind::run).stations.push_back({km, {"cola_flat"}, ServedIn::cup, {}});
    for (const double morning : {0.0, 150.0, 330.0, 500.0}) {
        Athlete a = prepared();
        a.caffeine = true;
        a.morning_coffee_mg = morning;
        double planned = 0;
        for (const auto& feed : schedule_of(a, event).feeds)
            planned += feed.caffeine_mg;
        CHECK(planned <= std::max(0.0, 400 - morning) + 1e-6); // EFSA 2015
    }
}

TEST_CASE("asked for, caffeine comes late and once", "[schedule]") {
    Athlete a = prepared();
    a.caffeine = true;
    const auto event = stations(race("middle", 20));
    const auto effort = estimate_effort(a, event);
    double starts[8] = {}, start = 0;
    for (size_t i = 0; i < effort.legs.size(); ++i) {
        starts[i] = start;
        start += effort.legs[i].time.p50_s;
    }
    int gels = 0;
    for (const auto& feed : schedule_of(a, event).feeds)
        if (feed.caffeine_mg > 0) {
            ++gels;
            CHECK(starts[feed.leg_index] + feed.at_s > effort.total.p50_s / 2);
        }
    CHECK(gels == 1);
}

TEST_CASE("own drink lasts to the slow day", "[schedule]") {
    for (const double ml : {300.0, 500.0, 750.0}) {
        Event event = race("standard", 30);
        event.kit.bike_bottles_ml = std::vector<double>{ml};
        const auto effort = estimate_effort(prepared(), event);
        const auto& time = of(effort.legs, LegKind::bike).time;
        // Feeds hold their clock: a line that goes on does so to five minutes before the slow end.
        const auto schedule = schedule_of(prepared(), event);
        double own_ml = 0;
        for (const auto& line : schedule.lines)
            for (const auto& item : line.items)
                if (line.leg == LegKind::bike && item.unit == "swallow") {
                    own_ml += item.amount * 30 * static_cast<double>(line.at.size());
                    for (double at_s = line.at.back().at_s + line.goes_on_every_s;
                         line.goes_on_every_s > 0 && at_s <= time.p90_s - 5 * 60;
                         at_s += line.goes_on_every_s)
                        own_ml += item.amount * 30;
                }
        CHECK(own_ml > 0);
        CHECK(own_ml <= ml + 1e-9);
    }
}

TEST_CASE("a bottle is weighed out as its recipe says", "[schedule]") {
    // Strength of the powder's own label, 6-8 % or less unless rehearsed (Murray 1999); sodium under 1150
    // mg/L (EFSA).
    const auto schedule = schedule_of(prepared(), stations(race("middle", 28)));
    REQUIRE_FALSE(schedule.mix.empty());
    for (const auto& mix : schedule.mix) {
        double carb = 0, sodium = 0;
        for (const auto& part : mix.add) {
            const Food* food = pantry().find(part.food);
            REQUIRE(food);
            carb += food->carb_g / food->serving_g * part.grams;
            sodium += food->sodium_mg / food->serving_g * part.grams;
        }
        CHECK(carb <= 0.08 * mix.volume_ml + 0.5);  // weighed to the gram
        CHECK(sodium <= 1.15 * mix.volume_ml + 20); // salt to 0.1 g
        CHECK(mix.text.find(mix.bottle) != std::string::npos);
    }
}

TEST_CASE("no fuelling needed: nothing to follow, and water where it is hot", "[schedule]") {
    Event cool = race("super-sprint", 18), hot = race("super-sprint", 33);
    const Athlete a = athlete(65, Level::keen);
    CHECK(schedule_of(a, cool).feeds.empty());
    CHECK(schedule_of(a, hot).feeds.empty());
    const auto carry = schedule_of(a, hot).carry;
    CHECK(std::any_of(carry.begin(), carry.end(),
                      [](const CarryItem& item) { return item.food == "water_tap"; }));
    Athlete medicine = a;
    medicine.health.glucose_lowering_medicine = true;
    CHECK(schedule_of(medicine, race("long", 20)).feeds.empty());
}

TEST_CASE("fluid never overtakes sweat", "[schedule]") {
    for (const double measured : {200.0, 400.0, 900.0, 2000.0})
        for (const char* name : {"sprint", "standard", "middle", "long"}) {
            Athlete a = prepared();
            a.sweat = MeasuredSweat{measured, Sport::bike, 20.0, 60.0};
            const auto event = stations(race(name, 20));
            const auto effort = estimate_effort(a, event);
            const auto body = describe_body(a, event, effort);
            double drunk = 0;
            for (const auto& feed : schedule_of(a, event).feeds) {
                drunk += feed.fluid_ml;
                double sweated = 0;
                for (int i = 0; i <= feed.leg_index; ++i) {
                    const auto leg = static_cast<size_t>(i);
                    const double seconds =
                        i < feed.leg_index ? effort.legs[leg].time.p50_s : feed.at_s.count();
                    sweated += body.legs[leg].sweat_ml_per_h * seconds / 3600;
                }
                CHECK(drunk <= sweated + 1e-6);
            }
        }
}

TEST_CASE("same input, same schedule", "[schedule]") {
    const auto one = schedule_of(prepared(), stations(race("long", 24)));
    const auto two = schedule_of(prepared(), stations(race("long", 24)));
    REQUIRE(one.feeds.size() == two.feeds.size());
    for (size_t i = 0; i < one.feeds.size(); ++i) {
        CHECK(one.feeds[i].at_s == two.feeds[i].at_s);
        CHECK(one.feeds[i].fluid_ml == two.feeds[i].fluid_ml);
    }
}

namespace {

Event with_bags(Event event) {
    for (Leg& leg : event.legs) {
        if (leg.kind == LegKind::bike)
            leg.special_needs = SpecialNeeds{42, {750, 750}, 0};
        if (leg.kind == LegKind::run)
            leg.special_needs = SpecialNeeds{10, {}, 3};
    }
    return event;
}

double own_drink_ml(const Schedule& schedule, LegKind kind, double to_km) {
    double ml = 0;
    for (const auto& feed : schedule.feeds)
        if (feed.leg == kind && feed.km < to_km)
            for (const auto& item : feed.items)
                ml += item.unit == "swallow" && item.from != "station" ? item.amount * 30 : 0;
    return ml;
}

bool packed(const Schedule& schedule, const std::string& where) {
    return std::any_of(schedule.carry.begin(), schedule.carry.end(),
                       [&where](const CarryItem& item) { return item.where == where; });
}

} // namespace

TEST_CASE("a special-needs bag is counted on only where something else can take its place", "[schedule]") {
    // It may be lost: never the only source. Common practice, no source.
    Athlete a = prepared();
    a.sweat = MeasuredSweat{1200, Sport::bike, 22, std::nullopt};
    Event plain = stations(race("middle", 22));
    plain.kit.bike_bottles_ml = {500, 500};
    const auto schedule = schedule_of(a, with_bags(plain));
    REQUIRE(schedule.special_needs.size() == 2);
    CHECK(schedule.special_needs[0].counted_on);
    CHECK(own_drink_ml(schedule, LegKind::bike, 1000) >
          own_drink_ml(schedule_of(a, plain), LegKind::bike, 1000));
    CHECK(own_drink_ml(schedule, LegKind::bike, 42) <= 1000);
    CHECK(packed(schedule, "bike bag"));
    CHECK(packed(schedule, "run bag"));
    CHECK(std::any_of(schedule.mix.begin(), schedule.mix.end(),
                      [](const Mix& mix) { return mix.bottle == "B3"; }));

    const Event dry = race("middle", 22);
    const auto without = schedule_of(a, dry), spare = schedule_of(a, with_bags(dry));
    REQUIRE(spare.special_needs.size() == 2);
    CHECK_FALSE(spare.special_needs[0].counted_on);
    CHECK_FALSE(spare.special_needs[1].counted_on);
    REQUIRE(spare.feeds.size() == without.feeds.size());
    for (std::size_t i = 0; i < spare.feeds.size(); ++i)
        CHECK(spare.feeds[i].at_s == without.feeds[i].at_s);
    CHECK(packed(spare, "bike bag"));
}

TEST_CASE("a small card gets a plan with fewer lines, and the plan says so", "[schedule]") {
    Event event = stations(race("long", 22));
    event.max_lines_bike = 2;
    event.max_lines_run = 2;
    const auto schedule = schedule_of(prepared(), event);
    std::map<int, std::set<std::string>>
        rows; // a drink that is handed up goes on where the own one ends: one row
    for (const auto& line : schedule.lines)
        for (const auto& item : line.items)
            rows[line.leg_index].insert(item.drink() ? "drink" : item.label);
    for (const auto& [leg, kinds] : rows)
        CHECK(kinds.size() <= 2);
    CHECK(std::any_of(schedule.assumptions.begin(), schedule.assumptions.end(), [](const std::string& text) {
        return text == "At most 2 lines on the bike and 2 on the run: one side of the card holds no more.";
    }));
}

TEST_CASE("a drink line feeds on its beats, from its first to its last, where hands are free", "[schedule]") {
    schedule::Grid grid;
    grid.slots.resize(9);
    grid.regular = 8; // the ninth comes on a slow day
    schedule::DrinkLine line;
    line.drink = 0;
    line.sips = 2;
    line.step = 2;
    line.first = 2;
    line.last = 4;
    const auto slots = [&] {
        std::vector<std::size_t> out;
        for (std::size_t i = 0; i < grid.slots.size(); ++i)
            if (line.feeds(grid, i))
                out.push_back(i);
        return out;
    };
    using Slots = std::vector<std::size_t>;
    CHECK(slots() == Slots{2, 4}); // it ends before the leg does
    line.last = 6;
    CHECK(slots() == Slots{2, 4, 6, 8}); // to the end, and on
    grid.slots[4].drink_ok = false;
    CHECK(slots() == Slots{2, 6, 8});
    line.drink = -1;
    CHECK(slots().empty());
}

TEST_CASE("things to eat come on every first to fourth beat of a ride", "[schedule]") {
    static const Food gel_food;
    schedule::LegProgram leg;
    schedule::Grid grid;
    grid.every_s = 600;
    for (int i = 1; i <= 16; ++i) {
        schedule::Slot slot;
        slot.at_s = i * 600;
        slot.clock_s = {slot.at_s, slot.at_s, slot.at_s};
        slot.foods = 1;
        grid.slots.push_back(slot);
    }
    grid.regular = grid.slots.size();
    leg.grids = {grid};
    leg.foods.resize(1);
    leg.foods[0].portion.food = &gel_food;
    int most = 0, least = 99;
    for (const auto& line : schedule::item_lines(leg, 0)) {
        most = std::max(most, line.step);
        least = std::min(least, line.step);
    }
    CHECK(least == 1);
    CHECK(most == 4);
}
