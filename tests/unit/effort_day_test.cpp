// The day of the race: weather by the hour, riding behind others, and whose results a level stands on.
#include "effort/levels.hpp"
#include "stage_examples.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace tuck;
using namespace tuck::example;

namespace {

HourlyWeather hour(double at, double temperature_c, std::optional<double> wind_m_s = std::nullopt) {
    HourlyWeather out;
    out.hour = at;
    out.temperature_c = temperature_c;
    out.humidity_pct = 60;
    out.wind_m_s = wind_m_s;
    return out;
}

/// Threshold numbers, so that nothing of the field's weather is in the times.
Athlete measured() {
    Athlete out = athlete(75, Level::keen);
    out.threshold_power_w = 240;
    out.threshold_run_s_per_km = 270;
    out.critical_swim_speed_m_s = 1.1;
    return out;
}

Event at_seven(std::vector<HourlyWeather> hours, double temperature_c = 20) {
    Event event = race("standard", temperature_c);
    event.start_min = 7 * 60;
    event.weather.wind_m_s.reset();
    event.weather.hourly = std::move(hours);
    return event;
}

/// One air all day, its wind not given, as in at_seven.
Event all_day(double temperature_c) {
    Event event = race("standard", temperature_c);
    event.weather.wind_m_s.reset();
    return event;
}

double leg_s(const Event& event, LegKind kind, const Athlete& who = measured()) {
    return of(estimate_effort(who, event).legs, kind).time.p50_s;
}

} // namespace

TEST_CASE("each leg is slowed by the air of its own hours", "[day]") {
    // A morning that warms from 14 C at seven to 32 C at ten: the bike lies in the middle, the run at the
    // end.
    const auto warming = at_seven({hour(7, 14), hour(10, 32)});
    const auto cool = all_day(14), hot = all_day(32);
    CHECK(leg_s(warming, LegKind::bike) > leg_s(cool, LegKind::bike));
    CHECK(leg_s(warming, LegKind::run) > leg_s(cool, LegKind::run));
    CHECK(leg_s(warming, LegKind::run) < leg_s(hot, LegKind::run));
    // The run's slowing is that of the mean air of its hours: about 9:00 to 9:45, 26 to 30.5 C.
    const auto effort = estimate_effort(measured(), warming);
    double from_s = 0;
    for (std::size_t i = 0; i < 4; ++i)
        from_s += effort.legs[i].time.p50_s;
    const double middle_h = 7 + (from_s + effort.legs[4].time.p50_s / 2) / 3600;
    CHECK(effort.legs[4].time.p50_s ==
          Approx(leg_s(all_day(14 + (middle_h - 7) * 6), LegKind::run)).epsilon(1e-3));
    CHECK(says(effort.legs[4].because, "air from 0"));
    // A later start is a hotter run.
    auto later = warming;
    later.start_min = 8 * 60;
    CHECK(leg_s(later, LegKind::run) > leg_s(warming, LegKind::run));
    auto wave = warming;
    wave.wave_offset_min = 60;
    CHECK(leg_s(wave, LegKind::run) == leg_s(later, LegKind::run));
}

TEST_CASE("hours that say what the day says change no time", "[day]") {
    const auto steady = at_seven({hour(7, 24), hour(12, 24)}, 24);
    const auto plain = all_day(24);
    for (const auto kind : {LegKind::swim, LegKind::t1, LegKind::bike, LegKind::t2, LegKind::run})
        CHECK(leg_s(steady, kind) == Approx(leg_s(plain, kind)).epsilon(1e-9));
}

TEST_CASE("without a start the hours cannot be read", "[day]") {
    auto event = at_seven({hour(7, 14), hour(10, 32)});
    event.start_min.reset();
    CHECK(leg_s(event, LegKind::run) == leg_s(all_day(20), LegKind::run));
    const auto body = body_of(measured(), event);
    CHECK(std::any_of(body.assumptions.begin(), body.assumptions.end(), [](const std::string& text) {
        return text.find("needs a start time") != std::string::npos;
    }));
}

TEST_CASE("thin warm air is faster, and its hour counts", "[day]") {
    // Below WBGT 15 C nothing is slowed, so only density moves: by the gas law 273.15 / 285.15 from 0 to 12 C
    // in dry air, 4.2 %; air takes about 90 % of the power at 10 m/s, so speed moves by near a third of it.
    const auto warm = at_seven({hour(7, 12), hour(12, 12)});
    const auto cold = at_seven({hour(7, 0), hour(12, 0)});
    const double faster = leg_s(cold, LegKind::bike) / leg_s(warm, LegKind::bike) - 1;
    CHECK(faster > 0.042 / 3 * 0.7);
    CHECK(faster < 0.042 / 3 * 1.1);
    const auto between = at_seven({hour(7, 0), hour(12, 12)});
    CHECK(leg_s(between, LegKind::bike) < leg_s(cold, LegKind::bike));
    CHECK(leg_s(between, LegKind::bike) > leg_s(warm, LegKind::bike));
}

TEST_CASE("wind is that of the hours, unless the leg has its own", "[day]") {
    const auto calm = at_seven({hour(7, 12, 0), hour(12, 12, 0)});
    const auto rising = at_seven({hour(7, 12, 0), hour(9, 12, 8)});
    const auto windy = at_seven({hour(7, 12, 8), hour(12, 12, 8)});
    CHECK(leg_s(rising, LegKind::bike) > leg_s(calm, LegKind::bike));
    CHECK(leg_s(rising, LegKind::bike) < leg_s(windy, LegKind::bike));
    auto sheltered = windy;
    leg_of(sheltered, LegKind::bike).wind_m_s = 0;
    CHECK(leg_s(sheltered, LegKind::bike) == Approx(leg_s(calm, LegKind::bike)));
}

TEST_CASE("behind others a level rides faster, and nobody knows how much", "[day]") {
    // Kyle 1979 (abstract): in a group cyclists ride 0.9-1.8 m/s faster, at racing speeds.
    // Calm and flat, as groups were timed; a threshold of 230 and 270 W.
    for (const double threshold_w : {230.0, 270.0}) {
        Athlete rider = athlete(75);
        rider.threshold_power_w = threshold_w;
        Event event = race("sprint");
        leg_of(event, LegKind::bike).ascent_m = 0;
        const auto alone = of(estimate_effort(rider, event).legs, LegKind::bike);
        event.draft_legal = true;
        const auto effort = estimate_effort(rider, event);
        const auto& behind = of(effort.legs, LegKind::bike);
        CHECK(behind.speed_m_s - alone.speed_m_s > 0.9);
        CHECK(behind.speed_m_s - alone.speed_m_s < 1.8);
        CHECK(behind.log_sd > alone.log_sd);
        CHECK(behind.power_w == Approx(alone.power_w).epsilon(1e-3)); // the legs are the same
        CHECK(says(behind.because, "draft-legal"));
        CHECK(says(effort.warnings, "pack_riding"));
    }
    // Results are taken to be ridden alone; a given time is the athlete's own.
    Athlete known = athlete();
    known.recent = {{Sport::bike, 20e3, 1900}};
    Event event = race("sprint");
    event.draft_legal = true;
    CHECK(leg_s(event, LegKind::bike, known) < 1850);
    leg_of(event, LegKind::bike).time_s = 1900;
    CHECK(leg_s(event, LegKind::bike, known) == 1900);
}

TEST_CASE("a woman's level stands on the men's results, slower as the sexes differ, and wider", "[day]") {
    // Lepers 2019 (abstract): non-elite women take about 12 % longer for the swim of a long race, 15 % for
    // the bike and 18 % for the run. Over the standard distance half way between open results (1.03, 1.05,
    // 1.04) and elites (Rust 2013: 9.1, 9.5 and 14.3 %). The transitions are not told apart. Heat costs
    // slower runners a little more.
    for (const Level level : {Level::unknown, Level::beginner, Level::steady, Level::keen, Level::fast}) {
        Athlete man = athlete(60, level), woman = man;
        woman.sex = Sex::female;
        const auto his = estimate_effort(man, race("standard", 5)),
                   hers = estimate_effort(woman, race("standard", 5));
        const auto long_his = estimate_effort(man, race("long", 5)),
                   long_hers = estimate_effort(woman, race("long", 5));
        const auto long_ratio = [&](LegKind kind) {
            return of(long_hers.legs, kind).time.p50_s / of(long_his.legs, kind).time.p50_s;
        };
        CHECK(long_ratio(LegKind::swim) == Approx(1.12).margin(0.005));
        CHECK(long_ratio(LegKind::bike) == Approx(1.15).margin(0.006));
        CHECK(long_ratio(LegKind::run) == Approx(1.18).margin(0.012));
        const auto ratio = [&](LegKind kind) {
            return of(hers.legs, kind).time.p50_s / of(his.legs, kind).time.p50_s;
        };
        CHECK(ratio(LegKind::swim) == Approx((1.03 + 1.091) / 2).margin(0.005));
        CHECK(ratio(LegKind::bike) == Approx((1.05 + 1.095) / 2).margin(0.009));
        CHECK(ratio(LegKind::run) == Approx((1.04 + 1.143) / 2).margin(0.012));
        CHECK(ratio(LegKind::t1) == 1);
        for (const auto kind : {LegKind::swim, LegKind::bike, LegKind::run}) {
            CHECK(of(hers.legs, kind).log_sd > of(his.legs, kind).log_sd);
            CHECK(says(of(hers.legs, kind).because, "women's results at hand are few"));
        }
    }
    // Her own numbers need no table.
    Athlete woman = measured();
    woman.sex = Sex::female;
    CHECK(leg_s(race("standard"), LegKind::run, woman) == leg_s(race("standard"), LegKind::run));
}
