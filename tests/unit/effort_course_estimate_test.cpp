// What the estimate rests on: levels against open results, results against each other, one sport foretelling
// another, and the organiser's limits.
#include "base/dates.hpp"
#include "effort/field.hpp"
#include "effort/levels.hpp"
#include "effort/results.hpp"
#include "effort/water_rules.hpp"
#include "tuck/effort.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

using namespace tuck;
using namespace tuck::effort;

namespace {

// Open results of the standard distance, 2,952 men, 8 races 2022-2025 with both transitions timed (snapshot
// 2026; percentiles computed for this project): total, s, at the percentiles.
constexpr std::array percentiles{5.0, 10.0, 25.0, 50.0, 75.0, 90.0, 95.0};
constexpr std::array totals_s{8196.0, 8686.0, 9541.0, 10572.0, 11764.0, 12975.0, 13798.0};

double percentile_of_total(double total_s) {
    for (size_t i = 1; i < totals_s.size(); ++i)
        if (total_s <= totals_s[i] || i + 1 == totals_s.size())
            return percentiles[i - 1] + (percentiles[i] - percentiles[i - 1]) * (total_s - totals_s[i - 1]) /
                                            (totals_s[i] - totals_s[i - 1]);
    return 100;
}

Event standard(double air_c = 20) {
    Event event;
    event.preset = "standard";
    event.legs = preset_legs("standard");
    event.weather.temperature_c = air_c;
    return event;
}

Athlete of_level(Level level) {
    Athlete athlete;
    athlete.level = level;
    return athlete;
}

Athlete with_runs(std::vector<RecentResult> results) {
    Athlete athlete;
    athlete.recent = std::move(results);
    return athlete;
}

const LegEffort& leg(const Effort& effort, LegKind kind) {
    return *std::find_if(effort.legs.begin(), effort.legs.end(),
                         [kind](const LegEffort& l) { return l.kind == kind; });
}

const Warning* warning(const Effort& effort, const std::string& code) {
    for (const auto& one : effort.warnings)
        if (one.code == code)
            return &one;
    return nullptr;
}

} // namespace

TEST_CASE("a level lands in the band of the field that it claims", "[trust]") {
    const auto place = [](Level level, double air_c) {
        return percentile_of_total(estimate_effort(of_level(level), standard(air_c)).total.p50_s);
    };
    for (const double air_c : {10.0, 15.0, 20.0}) { // ordinary weather is in the results already
        INFO(air_c);
        CHECK(place(Level::fast, air_c) > 5);
        CHECK(place(Level::fast, air_c) < 15);
        CHECK(place(Level::keen, air_c) > 20);
        CHECK(place(Level::keen, air_c) < 30);
        CHECK(place(Level::steady, air_c) > 45);
        CHECK(place(Level::steady, air_c) < 55);
        CHECK(place(Level::unknown, air_c) > 45);
        CHECK(place(Level::unknown, air_c) < 55);
        CHECK(place(Level::beginner, air_c) > 85);
        CHECK(place(Level::beginner, air_c) < 95);
    }
    CHECK(place(Level::steady, 32) > place(Level::steady, 26));
    CHECK(place(Level::steady, 26) > place(Level::steady, 20));
}

TEST_CASE("the field's middle swimmer, runner and 150 W make a total of the middle half", "[trust]") {
    // Medians of the same results: swim 1959 s in open water, run 3276 s off the bike.
    Athlete athlete;
    athlete.position = Position::hoods; // drag area 0.35 m2
    athlete.threshold_power_w = 150 / bike_intensity_factor(Level::unknown, 40e3);
    athlete.recent = {{Sport::swim, 1500, 1959 / 1.05},
                      {Sport::run, 10000, 3276 / run_off_bike_factor(Level::unknown, 40e3)}};
    const double total_s = estimate_effort(athlete, standard()).total.p50_s;
    CHECK(total_s > 9541);
    CHECK(total_s < 11764);
}

TEST_CASE("transitions lie inside the open results", "[trust]") {
    // 9,909 men, T1 p10-p90 175-510 s; 2,952 men, T2 p10-p90 87-260 s.
    const auto effort = estimate_effort(Athlete{}, standard());
    CHECK(leg(effort, LegKind::t1).time.p50_s > 175);
    CHECK(leg(effort, LegKind::t1).time.p50_s < 510);
    CHECK(leg(effort, LegKind::t2).time.p50_s > 87);
    CHECK(leg(effort, LegKind::t2).time.p50_s < 260);
}

TEST_CASE("days are counted by the calendar", "[trust]") {
    CHECK(*days_between("2027-02-28", "2027-03-01") == 1);
    CHECK(*days_between("2028-02-28", "2028-03-01") == 2);
    CHECK(*days_between("2026-06-13", "2027-06-13") == 365);
    CHECK(*days_between("2027-06-13", "2026-06-13") == -365);
    CHECK_FALSE(days_between("2027-02-30", "2027-03-01"));
    CHECK_FALSE(days_between("soon", "2027-03-01"));
}

TEST_CASE("newer and nearer results count more", "[trust]") {
    const auto event = standard();
    const RecentResult slow_old{Sport::run, 10000, 3300, "2024-05-01"};
    const RecentResult fast_new{Sport::run, 10000, 2700, "2027-05-01"};
    const auto both = from_results(with_runs({slow_old, fast_new}), event, Sport::run, 10000);
    REQUIRE(both);
    CHECK(both->time_s > 2700);
    CHECK(both->time_s < std::sqrt(3300 * 2700.0)); // nearer to the new one
    // The order in which they are told does not matter.
    CHECK(from_results(with_runs({fast_new, slow_old}), event, Sport::run, 10000)->time_s ==
          Approx(both->time_s));
    // Nearer: a 10 km of the same day outweighs a 1500 m.
    const RecentResult near{Sport::run, 10000, 3000, "2027-05-01"}, far{Sport::run, 1500, 300, "2027-05-01"};
    const double from_far = from_results(with_runs({far}), event, Sport::run, 10000)->time_s;
    const auto mixed = from_results(with_runs({near, far}), event, Sport::run, 10000);
    CHECK(std::abs(std::log(mixed->time_s / 3000)) < std::abs(std::log(mixed->time_s / from_far)));
    // Other sports stay out.
    CHECK_FALSE(from_results(with_runs({near}), event, Sport::swim, 1500));
}

TEST_CASE("the spread follows what the results say", "[trust]") {
    auto event = standard();
    event.date = "2027-06-13";
    const auto sd = [&](std::vector<RecentResult> results, double to_m = 10000) {
        return from_results(with_runs(std::move(results)), event, Sport::run, to_m)->log_sd;
    };
    const RecentResult one{Sport::run, 10000, 3000, "2027-06-01"};
    CHECK(sd({one, one}) < sd({one}));                                     // agreement narrows
    CHECK(sd({one, {Sport::run, 10000, 3600, "2027-06-01"}}) > sd({one})); // disagreement widens
    CHECK(sd({{Sport::run, 10000, 3000, "2024-06-01"}}) > sd({one}));      // age widens
    CHECK(sd({{Sport::run, 10000, 3000}}) > sd({one}));                    // so does an unknown day
    CHECK(sd({one}, 42195) > sd({one}, 21097.5));
    CHECK(sd({one}, 21097.5) > sd({one}));
    CHECK(sd({one, one, one, one, one, one, one, one}) >= 0.02); // the day's form stays
    // From 10 km to the marathon 7 % (critical speed in 25,000 amateurs missed by 7.67 %, Smyth 2020).
    CHECK(result_log_sd(10, 42.195, 0) == Approx(0.07).margin(0.005));
}

TEST_CASE("trust: a time, then results, then thresholds, then the level", "[trust]") {
    auto event = standard();
    Athlete athlete = of_level(Level::beginner);
    const double by_level = leg(estimate_effort(athlete, event), LegKind::run).time.p50_s;
    athlete.threshold_run_s_per_km = 270;
    const double by_threshold = leg(estimate_effort(athlete, event), LegKind::run).time.p50_s;
    athlete.recent = {{Sport::run, 10000, 2400}};
    const double by_result = leg(estimate_effort(athlete, event), LegKind::run).time.p50_s;
    event.legs.back().time_s = 2222;
    CHECK(by_threshold < by_level);
    CHECK(by_result < by_threshold);
    CHECK(leg(estimate_effort(athlete, event), LegKind::run).time.p50_s == 2222);
}

TEST_CASE("a run foretells swim and bike gently when nothing else is known", "[trust]") {
    const auto unknown = estimate_effort(Athlete{}, standard());
    const auto fast = estimate_effort(with_runs({{Sport::run, 10000, 2280}}), standard());
    const auto slow = estimate_effort(with_runs({{Sport::run, 10000, 4200}}), standard());
    for (const auto kind : {LegKind::swim, LegKind::bike}) {
        INFO(to_string(kind));
        const auto& middle = leg(unknown, kind);
        CHECK(leg(fast, kind).time.p50_s < middle.time.p50_s);
        CHECK(leg(slow, kind).time.p50_s > middle.time.p50_s);
        CHECK(leg(fast, kind).log_sd < middle.log_sd); // narrower, yet wide
        CHECK(leg(fast, kind).log_sd > 0.6 * middle.log_sd);
        // Gently: fewer SDs than the run shows.
        const double shown = std::log(2280 / (leg(unknown, LegKind::run).time.p50_s / 1.07)) / 0.204;
        const double told = std::log(leg(fast, kind).time.p50_s / middle.time.p50_s) /
                            (kind == LegKind::swim ? 0.185 : 0.142);
        CHECK(told > shown);
        CHECK(told < 0.4 * shown);
    }
    // A stated level is more than a hint.
    Athlete stated = with_runs({{Sport::run, 10000, 2280}});
    stated.level = Level::steady;
    CHECK(leg(estimate_effort(stated, standard()), LegKind::swim).time.p50_s ==
          leg(estimate_effort(of_level(Level::steady), standard()), LegKind::swim).time.p50_s);
}

TEST_CASE("places are foretold by correlated normals", "[trust]") {
    CHECK(expected_place(Sport::swim, {}).z == 0);
    CHECK(expected_place(Sport::swim, {}).spread == 1);
    const auto one = expected_place(Sport::bike, {{Sport::run, -2}});
    CHECK(one.z == Approx(0.61 * -2));
    CHECK(one.spread == Approx(std::sqrt(1 - 0.61 * 0.61)));
    // Two sports: normal equations by hand for swim from bike (0.52) and run (0.56), 0.61 between them:
    // b = (0.52 - 0.56 x 0.61) / (1 - 0.3721) = 0.2841, r = (0.56 - 0.52 x 0.61) / 0.6279 = 0.3867.
    const auto two = expected_place(Sport::swim, {{Sport::bike, 1}, {Sport::run, 1}});
    CHECK(two.z == Approx(0.2841 + 0.3867).margin(1e-3));
    CHECK(two.spread == Approx(std::sqrt(1 - 0.2841 * 0.52 - 0.3867 * 0.56)).margin(1e-3));
    CHECK(two.spread < one.spread + 0.1);
}

TEST_CASE("fitter is faster, on every leg and by every way", "[trust]") {
    const auto event = standard();
    double last = 0;
    for (const auto level : {Level::fast, Level::keen, Level::steady, Level::beginner}) {
        const double total = estimate_effort(of_level(level), event).total.p50_s;
        CHECK(total > last);
        last = total;
    }
    last = 1e9;
    for (const double watts : {120.0, 180.0, 240.0, 320.0}) {
        Athlete athlete;
        athlete.threshold_power_w = watts;
        const double bike = leg(estimate_effort(athlete, event), LegKind::bike).time.p50_s;
        CHECK(bike < last);
        last = bike;
    }
    last = 0;
    for (const double pace : {210.0, 260.0, 330.0, 420.0}) {
        Athlete athlete;
        athlete.threshold_run_s_per_km = pace;
        const double run = leg(estimate_effort(athlete, event), LegKind::run).time.p50_s;
        CHECK(run > last);
        last = run;
    }
}

TEST_CASE("cut-offs are held against the slow day", "[trust]") {
    auto event = standard();
    const auto free = estimate_effort(of_level(Level::steady), event);
    CHECK(free.warnings.empty());
    event.cutoff_s = free.total.p90_s + 1;
    CHECK(estimate_effort(of_level(Level::steady), event).warnings.empty());
    event.cutoff_s = free.total.p90_s - 60;
    REQUIRE(warning(estimate_effort(of_level(Level::steady), event), "cutoff_tight"));
    event.cutoff_s = free.total.p50_s - 60;
    REQUIRE(warning(estimate_effort(of_level(Level::steady), event), "cutoff_missed"));
    // A leg's limit counts from the start: swim, T1 and bike together.
    event.cutoff_s.reset();
    event.legs[2].cutoff_s =
        free.legs[0].time.p50_s + free.legs[1].time.p50_s + free.legs[2].time.p50_s + 120;
    const auto tight = estimate_effort(of_level(Level::steady), event);
    REQUIRE(warning(tight, "cutoff_tight"));
    CHECK_THAT(warning(tight, "cutoff_tight")->text, Catch::Matchers::StartsWith("The bike closes"));
}

TEST_CASE("water decides on wetsuits and on the length of the swim", "[trust]") {
    const auto codes = [](double water_c, double swim_m) {
        std::string out;
        for (const auto& one : water_warnings(water_c, swim_m))
            out += one.code + " ";
        return out;
    };
    // Current age-group table as quoted in a secondary source.
    CHECK(codes(22, 1500).empty());
    CHECK(codes(22.1, 1500) == "wetsuit_forbidden ");
    CHECK(codes(22.1, 1900).empty());
    CHECK(codes(24.7, 3800) == "wetsuit_forbidden ");
    CHECK(codes(15.8, 1500) == "wetsuit_needed ");
    CHECK(codes(14.5, 3800) == "swim_shortened wetsuit_needed ");
    CHECK(codes(13.5, 1900) == "swim_shortened wetsuit_needed ");
    CHECK(codes(12.5, 750) == "wetsuit_needed ");
    CHECK(codes(11.9, 750) == "swim_cancelled ");
}

TEST_CASE("a wetsuit speeds the swim of a pool swimmer, its ban slows the field's", "[trust]") {
    const auto swim_s = [](const Athlete& athlete, std::optional<double> water_c) {
        auto event = standard();
        event.weather.water_temperature_c = water_c;
        return estimate_effort(athlete, event).legs[0].time.p50_s;
    };
    Athlete pool;
    pool.critical_swim_speed_m_s = 1.0;
    CHECK(swim_s(pool, std::nullopt) == Approx(1500 * 1.05));
    CHECK(swim_s(pool, 18) < swim_s(pool, std::nullopt));
    CHECK(swim_s(pool, 24) == swim_s(pool, std::nullopt));
    const auto field = of_level(Level::keen);
    CHECK(swim_s(field, 18) == swim_s(field, std::nullopt));
    CHECK(swim_s(field, 24) > swim_s(field, std::nullopt));
}
