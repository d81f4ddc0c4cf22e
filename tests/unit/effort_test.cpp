// The effort stage against open results and facts of the road.
#include "effort/levels.hpp"
#include "stage_examples.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace tuck;
using namespace tuck::example;

namespace {

/// Percentiles of 2,952 men over the standard distance, s: open triathlon results, snapshot d45c88cf (2026),
/// 8 races 2022-2025, computed for this project.
struct Results {
    LegKind kind;
    double p5, p10, p25, p50, p75, p90, p95;
};
const Results total_results{LegKind::swim, 8196, 8686, 9541, 10572, 11764, 12975, 13798};
const std::vector<Results> leg_results{
    {LegKind::swim, 1421, 1536, 1733, 1959, 2199, 2471, 2662},
    {LegKind::t1, 109, 134, 192, 264, 357, 450, 514},
    {LegKind::bike, 3891, 4088, 4403, 4817, 5295, 5880, 6271},
    {LegKind::t2, 75, 87, 115, 155, 203, 260, 306},
    {LegKind::run, 2418, 2574, 2874, 3276, 3807, 4339, 4735},
};

double total_s(const Athlete& a, const Event& e) {
    return estimate_effort(a, e).total.p50_s;
}

double leg_s(const Athlete& a, const Event& e, LegKind kind) {
    return of(estimate_effort(a, e).legs, kind).time.p50_s;
}

Event ride(double distance_m, double temperature_c = 12) {
    Event event = session(LegKind::bike, 1, distance_m, temperature_c);
    event.legs[0].time_s.reset();
    return event;
}

Event run(double distance_m, double temperature_c = 12) {
    Event event = ride(distance_m, temperature_c);
    event.legs[0].kind = LegKind::run;
    return event;
}

} // namespace

TEST_CASE("each level has the total of the percentile that it claims", "[effort]") {
    // Every level stands between its neighbours in the table; the median of the same results is 10572 s.
    const auto total = [](Level level) { return total_s(athlete(75, level), race("standard")); };
    CHECK(total(Level::fast) > total_results.p5);
    CHECK(total(Level::fast) < total_results.p25);
    CHECK(total(Level::keen) > total_results.p10);
    CHECK(total(Level::keen) < total_results.p50);
    CHECK(total(Level::steady) > total_results.p25);
    CHECK(total(Level::steady) < total_results.p75);
    CHECK(total(Level::beginner) > total_results.p75);
    CHECK(total(Level::beginner) < total_results.p95);
}

TEST_CASE("on a cool flat course a level gives the table's total to the minute", "[effort]") {
    // Read back at the level of the whole profile; the table is printed to the second, profiles to a second a
    // leg.
    CHECK(effort::standard_times(Level::fast).total_s() == Approx(total_results.p10).margin(3));
    CHECK(effort::standard_times(Level::keen).total_s() == Approx(total_results.p25).margin(3));
    CHECK(effort::standard_times(Level::beginner).total_s() == Approx(total_results.p90).margin(3));
    // Band 45-55 %, mean of whole profiles: 2:56:32.
    CHECK(effort::standard_times(Level::steady).total_s() == Approx(10592).margin(3));
    // On the ordinary road, in the wind and weather that results are taken to hold: next to nothing is added.
    Event ordinary = race("standard", 20);
    ordinary.weather.wind_m_s.reset();
    CHECK(total_s(athlete(75, Level::steady), ordinary) == Approx(10592).margin(30));
}

TEST_CASE("every leg of a level lies where that level's legs can lie", "[effort]") {
    // Log splits correlate 0.5-0.6, so the legs of a fast total are fast but not the fastest, and so on.
    for (const auto& row : leg_results) {
        const auto time = [&row](Level level) {
            return of(estimate_effort(athlete(75, level), race("standard")).legs, row.kind).time.p50_s;
        };
        INFO(to_string(row.kind));
        CHECK(time(Level::fast) >= row.p5);
        CHECK(time(Level::fast) <= row.p50);
        CHECK(time(Level::keen) >= row.p10);
        CHECK(time(Level::keen) <= row.p75);
        CHECK(time(Level::steady) >= row.p25);
        CHECK(time(Level::steady) <= row.p75);
        CHECK(time(Level::beginner) >= row.p50);
        CHECK(time(Level::beginner) <= row.p95);
    }
}

TEST_CASE("median inputs give a total in the middle half of the field", "[effort]") {
    // Median swim pace, 150 W at a drag area of 0.35 m2 on a flat road, median run.
    Event event = race("standard");
    leg_of(event, LegKind::bike).ascent_m = 0;
    leg_of(event, LegKind::swim).time_s = 1959;
    leg_of(event, LegKind::run).time_s = 3276;
    Athlete median = athlete(75);
    median.position = Position::hoods; // 0.35 m2
    median.threshold_power_w = 150 / effort::bike_intensity_factor(Level::unknown, 40e3);
    const auto effort = estimate_effort(median, event);
    CHECK(of(effort.legs, LegKind::bike).power_w == Approx(150).margin(0.5));
    CHECK(effort.total.p50_s > total_results.p25);
    CHECK(effort.total.p50_s < total_results.p75);
}

TEST_CASE("nothing known is as wide as the field", "[effort]") {
    // p10-p90 of the men's total: 8686-12975 s, one SD of the log 0.16 (ln(12975/8686) / 2 / 1.2816 = 0.157).
    const auto effort = estimate_effort(athlete(75), race("standard"));
    CHECK(effort.total_log_sd == Approx(0.157).margin(0.02));
    CHECK_FALSE(effort.assumptions.empty());
}

TEST_CASE("a given time is kept exactly", "[effort]") {
    Event event = race("standard");
    leg_of(event, LegKind::bike).time_s = 4321;
    leg_of(event, LegKind::t2).time_s = 77;
    const auto effort = estimate_effort(athlete(), event);
    CHECK(of(effort.legs, LegKind::bike).time.p50_s == 4321);
    CHECK(of(effort.legs, LegKind::t2).time.p50_s == 77);
    // It outranks results, thresholds and heat.
    Athlete known = athlete();
    known.threshold_power_w = 300;
    known.recent = {{Sport::bike, 40e3, 3600}};
    event.weather.temperature_c = 35;
    CHECK(of(estimate_effort(known, event).legs, LegKind::bike).time.p50_s == 4321);
}

TEST_CASE("a result outranks a threshold, a threshold a level", "[effort]") {
    Athlete a = athlete(75, Level::beginner);
    const double by_level = leg_s(a, race("standard"), LegKind::bike);
    a.threshold_power_w = 260;
    const double by_power = leg_s(a, race("standard"), LegKind::bike);
    a.recent = {{Sport::bike, 40e3, 3500}};
    CHECK(by_power < by_level);
    Event ordinary = race("standard"); // in the wind that results are taken to hold
    ordinary.weather.wind_m_s.reset();
    CHECK(leg_s(a, ordinary, LegKind::bike) == Approx(3500).margin(1));
}

TEST_CASE("Riegel's power law scales a run", "[effort]") {
    // Riegel 1981 in its popular form: T2 = T1 (D2 / D1)^1.06. 5 km in 20:00 gives 10 km in 41:42 (2501.9 s).
    Athlete a = athlete();
    a.recent = {{Sport::run, 5000, 1200}};
    CHECK(leg_s(a, run(5000), LegKind::run) == Approx(1200).margin(0.01));
    CHECK(leg_s(a, run(10000), LegKind::run) == Approx(2501.9).margin(0.1));
    // Vickers 2016: marathon predicted by 1.06 is at least 10 min too fast for half of recreational runners.
    a.recent = {{Sport::run, 21097.5, 6000}};
    const double riegel = 6000 * std::pow(2, 1.06);
    CHECK(leg_s(a, run(42195), LegKind::run) > riegel + 120);
    CHECK(leg_s(a, run(42195), LegKind::run) < riegel + 1200);
}

TEST_CASE("the run off the bike is slower than the run alone", "[effort]") {
    // +0.4 to +12 % by level (Suriano 2010; Hausswirth 1997; judgement).
    Athlete a = athlete(70, Level::keen);
    a.recent = {{Sport::run, 10e3, 2700}};
    const double alone = leg_s(a, run(10e3), LegKind::run);
    const double after = leg_s(a, race("standard"), LegKind::run);
    CHECK(after > alone * 1.004);
    CHECK(after < alone * 1.12);
}

TEST_CASE("fitter is faster; wind, heat and climbing are slower", "[effort]") {
    Athlete a = athlete();
    double last = 1e9;
    for (const double power : {120, 160, 200, 260, 340}) {
        a.threshold_power_w = power;
        const double now = leg_s(a, ride(40e3), LegKind::bike);
        CHECK(now < last);
        last = now;
    }
    a.threshold_power_w = 200;
    last = 0;
    for (const double wind : {0, 2, 4, 8}) {
        Event event = ride(40e3);
        event.weather.wind_m_s = wind;
        CHECK(leg_s(a, event, LegKind::bike) > last);
        last = leg_s(a, event, LegKind::bike);
    }
    last = 0;
    for (const double ascent : {0, 200, 500, 1000}) {
        Event event = ride(40e3);
        event.legs[0].ascent_m = ascent;
        CHECK(leg_s(a, event, LegKind::bike) > last);
        last = leg_s(a, event, LegKind::bike);
    }
    last = 0;
    for (const double climb : {0, 50, 150}) {
        Event event = run(10e3);
        event.legs[0].ascent_m = climb;
        CHECK(leg_s(a, event, LegKind::run) > last);
        last = leg_s(a, event, LegKind::run);
    }
    last = 0;
    for (const double celsius : {15, 22, 28, 34}) {
        CHECK(leg_s(a, run(10e3, celsius), LegKind::run) > last);
        last = leg_s(a, run(10e3, celsius), LegKind::run);
    }
}

TEST_CASE("heat costs a runner what the marathons show, and the slow more", "[effort]") {
    // Per degree of WBGT: 0.19 % for top men, about 0.6 % at the back of the field (Ely 2007); 0.3-0.4 % in
    // 7,867 athletes (Mantzios 2022). The cool day lies below WBGT 15, the hot one at 28 to 32 with half of
    // the sun.
    double last = 0;
    for (const Level level : {Level::fast, Level::keen, Level::steady, Level::beginner}) {
        const double slower = leg_s(athlete(70, level), run(10e3, 30), LegKind::run) /
                                  leg_s(athlete(70, level), run(10e3), LegKind::run) -
                              1;
        CHECK(slower > 13 * 0.0019);
        CHECK(slower < 17 * 0.0064);
        CHECK(slower >= last);
        last = slower;
    }
    // The same sun slows and makes sweat.
    Event sunny = run(10e3, 26), shade = run(10e3, 26);
    sunny.weather.sun_share = 1;
    shade.weather.sun_share = 0;
    CHECK(leg_s(athlete(), sunny, LegKind::run) > leg_s(athlete(), shade, LegKind::run));
    CHECK(body_of(athlete(), sunny).legs[0].sweat_ml_per_h >
          body_of(athlete(), shade).legs[0].sweat_ml_per_h);
    // The field raced in ordinary summer weather: a cool day is faster than it.
    CHECK(leg_s(athlete(70, Level::steady), run(10e3, 8), LegKind::run) <
          leg_s(athlete(70, Level::steady), run(10e3, 20), LegKind::run));
}

TEST_CASE("a ride above what the distance sustains is said and paid for on the run", "[effort]") {
    // Suriano 2010: against the run alone 0.4 % to -0.4 % after 81-90 % of a solo time trial, 2.4 % after
    // 91-95 % and 4.5 % after 96-100 %: from the second step to the last, 10 % more power, some 4.9 %.
    Athlete a = athlete(70);
    a.threshold_power_w = 250;
    Event event = race("standard", 20);
    const auto own = estimate_effort(a, event);
    const auto given = [&](double share) {
        Event hard = event;
        leg_of(hard, LegKind::bike).time_s = share * of(own.legs, LegKind::bike).time.p50_s;
        return estimate_effort(a, hard);
    };
    const auto says = [](const Effort& effort) {
        return std::any_of(effort.warnings.begin(), effort.warnings.end(),
                           [](const Warning& warning) { return warning.code == "ride_too_hard"; });
    };
    const double run_s = of(own.legs, LegKind::run).time.p50_s;
    CHECK_FALSE(says(given(1.05)));
    CHECK(of(given(1.05).legs, LegKind::run).time.p50_s == Approx(run_s));
    const auto hard = given(0.94);
    CHECK(says(hard));
    // 6 % faster against air and hills is some 12-20 % more power (its cube on the flat, itself uphill).
    CHECK(of(hard.legs, LegKind::run).time.p50_s / run_s > 1 + 0.45 * 0.10);
    CHECK(of(hard.legs, LegKind::run).time.p50_s / run_s < 1 + 0.45 * 0.22);
    // A level in words knows no power: nothing is said.
    Athlete worded = athlete(70, Level::steady);
    Event fast = event;
    leg_of(fast, LegKind::bike).time_s = 3900;
    CHECK_FALSE(says(estimate_effort(worded, fast)));
}

TEST_CASE("percentiles are in order and the total is correlated", "[effort]") {
    for (const auto& name : preset_names())
        for (const Level level : {Level::unknown, Level::fast}) {
            const auto effort = estimate_effort(athlete(70, level), race(name));
            double sum = 0, squares = 0, spreads = 0;
            for (const auto& leg : effort.legs) {
                CHECK(leg.time.p10_s > 0);
                CHECK(leg.time.p10_s < leg.time.p50_s);
                CHECK(leg.time.p50_s < leg.time.p90_s);
                CHECK(leg.log_sd == Approx(std::log(leg.time.p90_s / leg.time.p50_s) / 1.2815515655446));
                sum += leg.time.p50_s;
                const double sd = leg.log_sd * leg.time.p50_s;
                squares += sd * sd;
                spreads += sd;
            }
            CHECK(effort.total.p50_s == Approx(sum));
            // Between legs that know nothing of each other and legs that move as one: log splits correlate
            // 0.52-0.61 in the open results.
            CHECK(effort.total_log_sd * sum > std::sqrt(squares));
            CHECK(effort.total_log_sd * sum < spreads);
        }
}

TEST_CASE("draft-legal riding and a training session", "[effort]") {
    // Behind others the same power rides faster: drag falls by 27-50 % (from memory).
    Event event = race("sprint");
    Athlete strong = athlete();
    strong.threshold_power_w = 250;
    const double alone = leg_s(strong, event, LegKind::bike);
    event.draft_legal = true;
    CHECK(leg_s(strong, event, LegKind::bike) < alone);
    Event easy = ride(40e3);
    easy.race = false;
    CHECK(leg_s(athlete(), easy, LegKind::bike) > leg_s(athlete(), ride(40e3), LegKind::bike));
}

TEST_CASE("a session by time alone has a believable distance", "[effort]") {
    const auto effort = estimate_effort(athlete(75, Level::steady), session(LegKind::bike, 120));
    // 26-37 km/h: the medians of the race files that were kept in the open results.
    CHECK(effort.legs[0].speed_m_s * 3.6 > 24);
    CHECK(effort.legs[0].speed_m_s * 3.6 < 37);
    CHECK(effort.legs[0].time.p50_s == 7200);
}

TEST_CASE("at one level and road, power, energy and sweat rise with mass", "[effort][body]") {
    // Heavier riders meet more air (Heil 2002) and roll, climb and brake more; runners and swimmers carry
    // more (ACSM, Kimber 2002). Sweat that is nothing at all, in the cold, may stay nothing.
    for (const Level level : {Level::unknown, Level::beginner, Level::steady, Level::keen, Level::fast})
        for (const char* name : {"sprint", "standard", "middle", "long"})
            for (const double celsius : {0, 10, 20, 30, 40}) {
                std::vector<LegBody> last;
                double last_w = 0;
                for (const double mass_kg : {40, 50, 60, 70, 80, 95, 120}) {
                    const Athlete a = athlete(mass_kg, level);
                    Event event = race(name, celsius);
                    event.weather.wind_m_s.reset();
                    const auto effort = estimate_effort(a, event);
                    const auto body = describe_body(a, event, effort);
                    INFO(name << ", " << celsius << " C, " << mass_kg << " kg, level " << to_string(level));
                    CHECK(of(effort.legs, LegKind::bike).power_w > last_w);
                    last_w = of(effort.legs, LegKind::bike).power_w;
                    for (std::size_t i = 0; i < last.size(); ++i) {
                        CHECK(body.legs[i].energy_kcal_per_h > last[i].energy_kcal_per_h);
                        CHECK(body.legs[i].sweat_ml_per_h >= last[i].sweat_ml_per_h);
                        if (celsius >= 10 && !is_transition(last[i].kind))
                            CHECK(body.legs[i].sweat_ml_per_h > last[i].sweat_ml_per_h);
                    }
                    last = body.legs;
                }
            }
}

TEST_CASE("who rides faster sits lower, and knows less power for it", "[effort]") {
    // Drag areas of positions: 0.40 upright to 0.25 on aerobars (read in public code); a timed ride lies
    // between.
    const auto power = [](double minutes, Position position) {
        Athlete a = athlete(74.4);
        a.position = position;
        return estimate_effort(a, session(LegKind::bike, minutes, 40e3)).legs[0].power_w;
    };
    CHECK(power(62, Position::unspecified) < power(62, Position::hoods));
    CHECK(power(100, Position::unspecified) > power(100, Position::hoods));
    CHECK(power(62, Position::unspecified) > 0.8 * power(62, Position::aero));
}

TEST_CASE("the energy of a long race lies in the band of measured races", "[effort][body]") {
    // Cuddy 2010: one man in 10:40, 8,926 kcal by doubly labelled water and 9,029 by calorimetry; mass not in
    // the abstract, 75 kg taken: within 10 % (15 % of mass and some 5 % of the method). Not reproduced, all
    // by heart rate, which drifts up over a day: 10 men 10,036 +- 931 (Kimber 2002; 76 kg taken, 8,960 here),
    // 8 women 8,570 +- 1,014 (62 kg taken, 7,100 here), 11 men in 755 min 11,009 +- 664 (Barrero 2015; 73 kg
    // taken, 8,700 here).
    const auto kcal = [](double mass_kg, double minutes) {
        const Athlete a = athlete(mass_kg);
        Event event = race("long", 20);
        event.weather.wind_m_s.reset();
        auto effort = estimate_effort(a, event);
        if (minutes > 0) {
            const double scale = minutes * 60 / effort.total.p50_s;
            for (std::size_t i = 0; i < event.legs.size(); ++i)
                event.legs[i].time_s = scale * effort.legs[i].time.p50_s;
            effort = estimate_effort(a, event);
        }
        double sum = 0;
        const auto body = describe_body(a, event, effort);
        for (std::size_t i = 0; i < body.legs.size(); ++i)
            sum += body.legs[i].energy_kcal_per_h * effort.legs[i].time.p50_s / 3600;
        return sum;
    };
    CHECK(kcal(75, 640) == Approx(8926).epsilon(0.10));
}
