// The race path minute by minute: legs are the means of their minutes, weather follows the clock, stores
// fall.
#include "body/race.hpp"
#include "body/race_drive.hpp"
#include "tuck/body.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace tuck;

namespace {

LegEffort leg_of(int index, LegKind kind, double minutes, double speed_m_s, double power_w = 0) {
    LegEffort leg;
    leg.leg_index = index;
    leg.kind = kind;
    leg.time.p50_s = 60 * minutes;
    leg.speed_m_s = speed_m_s;
    leg.power_w = power_w;
    leg.intensity = 0.7;
    return leg;
}

/// A standard distance in round numbers; 30.5 min of swimming, so that minutes end unevenly.
Effort day() {
    Effort effort;
    effort.legs = {leg_of(0, LegKind::swim, 30.5, 1.0), leg_of(1, LegKind::t1, 3, 0),
                   leg_of(2, LegKind::bike, 75, 9.0, 190), leg_of(3, LegKind::t2, 2, 0),
                   leg_of(4, LegKind::run, 50, 3.3)};
    return effort;
}

Event event_at(double temperature_c) {
    Event event;
    event.legs = preset_legs("standard");
    event.weather.temperature_c = temperature_c;
    event.weather.humidity_pct = 50;
    event.weather.wind_m_s = 2;
    event.weather.water_temperature_c = 20;
    event.weather.sun_w_m2 = 0;
    return event;
}

HourlyWeather hour(double at, double temperature_c) {
    HourlyWeather out;
    out.hour = at;
    out.temperature_c = temperature_c;
    return out;
}

} // namespace

TEST_CASE("minutes cover every leg from the start to the finish", "[body]") {
    const auto body = describe_body({}, event_at(20), day());
    const auto& m = body.minutes;
    REQUIRE(m.size() == 31 + 3 + 75 + 2 + 50);
    double at_s = 0;
    for (std::size_t i = 0; i < m.size(); ++i) {
        CHECK(m.at_s[i] == Approx(at_s));
        CHECK(m.length_s[i] > 0);
        CHECK(m.length_s[i] <= 60);
        at_s += m.length_s[i];
    }
    CHECK(at_s == Approx(60 * 160.5));
    CHECK(m.length_s[30] == Approx(30));
}

TEST_CASE("a leg in constant weather is any of its minutes once the body is warm", "[body]") {
    auto effort = day();
    effort.legs[2].time.p50_s *= 4;
    const auto body = describe_body({}, event_at(20), effort);
    const auto& m = body.minutes;
    double settled = 0;
    for (std::size_t i = 0; i < m.size(); ++i) {
        const auto& leg = body.legs[static_cast<std::size_t>(m.leg_index[i])];
        CHECK(m.carb_g_per_h[i] == Approx(leg.carb_use_g_per_h));
        CHECK(m.metabolic_w[i] == Approx(leg.metabolic_w));
        CHECK(m.sodium_mg_per_h[i] == Approx(m.sweat_ml_per_h[i] / 1000 * body.sweat_sodium_mg_per_l));
        // 60 min of the leg and five more time constants of 10 min: nothing is stored, every minute is the
        // last.
        if (leg.kind == LegKind::bike && m.at_s[i] > (33.5 + 110) * 60) {
            CHECK(std::abs(m.stored_w[i]) < 1e-3 * leg.metabolic_w);
            CHECK(m.dry_w[i] == Approx(leg.heat.dry_w));
            settled = settled > 0 ? settled : m.sweat_ml_per_h[i];
            CHECK(m.sweat_ml_per_h[i] == Approx(settled).epsilon(1e-3));
        }
    }
}

TEST_CASE("the heat balance of every leg closes", "[body]") {
    for (const auto& leg : describe_body({}, event_at(27), day()).legs) {
        const auto& h = leg.heat;
        CHECK(h.metabolic_w ==
              Approx(h.mechanical_w + h.respiratory_w + h.dry_w + h.stored_w + h.evaporated_w).margin(1e-9));
        CHECK(h.metabolic_w == Approx(leg.metabolic_w));
        CHECK_FALSE(leg.heat_because.empty());
    }
}

TEST_CASE("burning balances its atoms", "[body]") {
    // Masses of CODATA atoms: in (fuel and oxygen) equals out (carbon dioxide and water).
    const double c = 12.011, h = 1.008, o = 15.999;
    const double glucose = 6 * c + 12 * h + 6 * o, fat = 55 * c + 104 * h + 6 * o;
    CHECK(body::water_per_g_carb == Approx(6 * (2 * h + o) / glucose).epsilon(1e-4));
    CHECK(body::water_per_g_fat == Approx(52 * (2 * h + o) / fat).epsilon(1e-4));
    CHECK(glucose + 6 * 2 * o == Approx(6 * (c + 2 * o) + 6 * (2 * h + o)));
    CHECK(fat + 78 * 2 * o == Approx(55 * (c + 2 * o) + 52 * (2 * h + o)));
}

TEST_CASE("mass lost without sweating is 0.20 g/kcal (Cheuvront & Montain 2017)", "[body]") {
    // As told by the authors: 0.20 g/kcal, 0.60 kg for 3000 kcal. Dry and temperate air; the rule is printed
    // to two digits, so 0.195 to 0.205 is what it says and 0.01 more is for the mix of fuels.
    for (const double temperature_c : {10.0, 20.0}) {
        auto event = event_at(temperature_c);
        event.weather.humidity_pct = 30;
        const auto body = describe_body({}, event, day());
        const auto& m = body.minutes;
        double sweat_g = 0, kcal = 0;
        for (std::size_t i = 0; i < m.size(); ++i) {
            sweat_g += m.sweat_ml_per_h[i] * m.length_s[i] / 3600;
            kcal += m.metabolic_w[i] * m.length_s[i] / 4184;
        }
        CHECK((-m.mass_change_g.back() - sweat_g) / kcal == Approx(0.20).margin(0.015));
        // d(water) = d(mass) + fuel burnt, which the rule puts at 0.20 g/kcal as well.
        CHECK((m.water_change_g.back() - m.mass_change_g.back()) / kcal == Approx(0.20).margin(0.03));
    }
}

TEST_CASE("stores only fall, and never below nothing", "[body]") {
    auto effort = day();
    effort.legs[2].time.p50_s *= 8;
    const auto body = describe_body({}, event_at(20), effort);
    const auto& m = body.minutes;
    CHECK(m.glycogen_g.front() < body.glycogen_start_g);
    for (std::size_t i = 1; i < m.size(); ++i) {
        CHECK(m.glycogen_g[i] <= m.glycogen_g[i - 1]);
        CHECK(m.mass_change_g[i] < m.mass_change_g[i - 1]);
    }
    // Fat stands in as they empty: a tenth is left after ten hours without food, not nothing.
    CHECK(m.glycogen_g.back() > 0);
    CHECK(m.glycogen_g.back() < 0.1 * body.glycogen_start_g);
}

TEST_CASE("a warming morning is read along the clock", "[body]") {
    auto event = event_at(20);
    event.start_min = 7 * 60;
    event.weather.hourly = {hour(7, 14), hour(9, 22), hour(12, 28)};
    const auto warming = describe_body({}, event, day());
    CHECK(warming.minutes.air_c.front() == Approx(14).margin(0.1));
    CHECK(warming.minutes.air_c.back() == Approx(22 + 6 * (160.0 / 60 - 2) / 3).margin(0.05));
    const auto& bike = warming.legs[2];
    CHECK(bike.air_last_c > bike.air_first_c + 3);
    // Between the same race held at its first and its last temperature.
    CHECK(bike.sweat_ml_per_h > describe_body({}, event_at(bike.air_first_c), day()).legs[2].sweat_ml_per_h);
    CHECK(bike.sweat_ml_per_h < describe_body({}, event_at(bike.air_last_c), day()).legs[2].sweat_ml_per_h);
    // The day's humidity holds at the day's temperature: cooler air is nearer to saturation.
    CHECK(warming.minutes.humidity_pct.front() > 50);
    CHECK(warming.minutes.humidity_pct.back() < 50);
}

TEST_CASE("hours that say what the day says change nothing", "[body]") {
    auto event = event_at(21);
    const auto plain = describe_body({}, event, day());
    event.start_min = 8 * 60;
    event.weather.hourly = {hour(6, 21), hour(14, 21)};
    const auto hourly = describe_body({}, event, day());
    for (std::size_t i = 0; i < plain.legs.size(); ++i)
        CHECK(hourly.legs[i].sweat_ml_per_h == Approx(plain.legs[i].sweat_ml_per_h));
    CHECK(hourly.assumptions == plain.assumptions);
}

TEST_CASE("hours that do not fit the race are said", "[body]") {
    const auto says = [](const Event& event, const char* word) {
        for (const auto& text : describe_body({}, event, day()).assumptions)
            if (text.find(word) != std::string::npos)
                return true;
        return false;
    };
    auto event = event_at(20);
    event.weather.hourly = {hour(9, 20), hour(10, 22)};
    CHECK(says(event, "needs a start time"));
    event.start_min = 9 * 60;
    CHECK(says(event, "does not cover"));
    event.weather.hourly.push_back(hour(13, 25));
    CHECK_FALSE(says(event, "does not cover"));
}

TEST_CASE("heat beyond the sweat model is said", "[body]") {
    const auto says = [](double temperature_c) {
        const auto body = describe_body({}, event_at(temperature_c), day());
        return std::any_of(body.assumptions.begin(), body.assumptions.end(), [](const std::string& text) {
            return text.find("hotter than the sweat model knows") != std::string::npos;
        });
    };
    CHECK_FALSE(says(30));
    CHECK(says(44)); // held to 1.25 L/h per m2 (Junge 2016, Table 1: groups to 2.5 L/h)
}

TEST_CASE("sun, and it alone, makes a leg hotter", "[body]") {
    auto event = event_at(24);
    const auto shade = describe_body({}, event, day());
    event.weather.sun_w_m2 = 800;
    const auto sun = describe_body({}, event, day());
    CHECK(sun.legs[4].sweat_ml_per_h > shade.legs[4].sweat_ml_per_h);
    CHECK(sun.legs[0].sweat_ml_per_h == Approx(shade.legs[0].sweat_ml_per_h)); // in the water
    CHECK(sun.legs[4].carb_use_g_per_h == Approx(shade.legs[4].carb_use_g_per_h));
}

TEST_CASE("the spread of sweat grows with what is not known", "[body]") {
    const auto log_sd = [](std::optional<double> test_c, double race_c) {
        Athlete athlete;
        if (test_c) {
            athlete.sweat = MeasuredSweat{};
            athlete.sweat->sweat_ml_per_h = 900;
            athlete.sweat->temperature_c = *test_c;
        }
        return body::sweat_log_sd(athlete, event_at(race_c));
    };
    // Barnes 2019: 0.57 of 1.28 L/h is 45 %, as log-normal.
    CHECK(log_sd({}, 15) == Approx(std::sqrt(std::log(1 + 0.45 * 0.45))));
    CHECK(log_sd({}, 33) > log_sd({}, 25));
    CHECK(log_sd({}, 25) > log_sd({}, 15));
    // Smith 2021: 0.15 L/h day to day in like weather; carried to other weather it is known less well.
    CHECK(log_sd(20, 20) == Approx(0.15));
    CHECK(log_sd(33, 33) == Approx(0.15));
    CHECK(log_sd(20, 26) > 0.15);
    CHECK(log_sd(33, 20) > log_sd(20, 26)); // a test in heat says little of the cool
    CHECK(log_sd(20, 33) < log_sd({}, 33));
}

TEST_CASE("a sweat test scales its own sport whole and the others by half", "[body]") {
    Athlete athlete;
    auto event = event_at(20);
    const auto untested = describe_body(athlete, event, day());
    athlete.sweat = MeasuredSweat{};
    athlete.sweat->sweat_ml_per_h = 1200;
    athlete.sweat->sport = Sport::run;
    const auto tested = describe_body(athlete, event, day());
    // The test's rate is that of the warm body; a run after an easier ride still warms a little.
    CHECK(tested.legs[4].sweat_ml_per_h < 1200 * std::exp(-0.15 * 0.15 / 2));
    CHECK(tested.legs[4].sweat_ml_per_h == Approx(1200 * std::exp(-0.15 * 0.15 / 2)).epsilon(0.05));
    const double up = tested.legs[4].sweat_ml_per_h / untested.legs[4].sweat_ml_per_h;
    // Another sport: half of the factor on the log scale, and a wider spread, both of our choosing. The
    // medians hold the mean's log-normal correction of each spread.
    const auto mean_over_median = [](double log_sd) { return std::exp(log_sd * log_sd / 2); };
    const double untested_sd = std::sqrt(std::log(1 + 0.45 * 0.45));
    const double factor = up * mean_over_median(0.15) / mean_over_median(untested_sd);
    const double carried =
        std::sqrt(factor) * mean_over_median(untested_sd) / mean_over_median(std::hypot(0.15, 0.20));
    CHECK(tested.legs[2].sweat_ml_per_h == Approx(carried * untested.legs[2].sweat_ml_per_h));
    CHECK(tested.legs[2].sweat_p20_ml_per_h / tested.legs[2].sweat_ml_per_h <
          tested.legs[4].sweat_p20_ml_per_h / tested.legs[4].sweat_ml_per_h);
    CHECK(tested.legs[4].heat.sweat_w == Approx(untested.legs[4].heat.sweat_w)); // the average athlete's
}

TEST_CASE("a known road is felt in the air and in the cost of running", "[body]") {
    auto effort = day();
    auto& bike = effort.legs[2];
    bike.sections = {{0, 20, 0, 3000, 0.03, 6.7, 230}, {20, 40.5, 3000, 4500, -0.03, 13.7, 110}};
    const auto flat = describe_body({}, event_at(20), day());
    const auto hilly = describe_body({}, event_at(20), effort);
    const auto first = 31 + 3;
    CHECK(hilly.minutes.dry_w[first] < flat.minutes.dry_w[first]);           // slow uphill
    CHECK(hilly.minutes.dry_w[first + 70] > flat.minutes.dry_w[first + 70]); // fast downhill
    CHECK(hilly.legs[2].metabolic_w == Approx(flat.legs[2].metabolic_w));

    auto& run = effort.legs[4];
    run.sections = {{0, 4.95, 0, 1500, 0, 3.3, 0}, {4.95, 9.9, 1500, 3000, 0, 3.3, 0}};
    CHECK(describe_body({}, event_at(20), effort).legs[4].metabolic_w == Approx(flat.legs[4].metabolic_w));
    // Minetti 2002: +10 % costs 1.66 times the level and -10 % 0.60 times: out and back 13 % more.
    run.sections[0].grade = 0.10;
    run.sections[1].grade = -0.10;
    CHECK(describe_body({}, event_at(20), effort).legs[4].metabolic_w ==
          Approx(flat.legs[4].metabolic_w * (5.9682 + 2.1517) / 2 / 3.6).epsilon(0.001));
}
