// Every published model and the race path on random inputs over all that they declare to hold for: a finite
// answer or a refusal, nothing below zero that cannot be.
#include "body/race.hpp"
#include "body/race_drive.hpp"
#include "tuck/body.hpp"
#include "tuck/model.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>
#include <map>
#include <random>
#include <set>
#include <stdexcept>
#include <string>

namespace {

using namespace tuck;

/// Temperatures, powers and speeds along a road, a grade: below zero is an answer.
const std::set<std::string> signed_models{
    "aerodynamic_power", "air_speed_along_road", "dew_point",      "kinetic_power",
    "potential_power",   "ride_power",           "run_least_cost", "mean_radiant_temperature",
    "sun_altitude",      "walk_least_cost",      "wbgt_outdoors",  "wet_bulb",
};

/// Refuse what cannot be: a globe far colder than the air, bright sun on the horizon.
const std::set<std::string> refusing_models{"mean_radiant_temperature", "wbgt_outdoors"};

struct Draw {
    std::mt19937_64 engine{20261125};
    double between(double low, double high) {
        // The ends too: a range includes them.
        const auto pick = engine() % 16;
        const double share = static_cast<double>(engine() >> 11) * 0x1p-53;
        return pick == 0 ? low : pick == 1 ? high : low + (high - low) * share;
    }
    std::size_t below(std::size_t count) { return static_cast<std::size_t>(engine() % count); }
};

void draw_inputs(const Model& model, Draw& draw, std::map<std::string, double>& numbers,
                 std::map<std::string, std::string>& words) {
    for (const ModelInput& input : model.inputs) {
        if (!input.words.empty())
            words[input.name] = input.words[draw.below(input.words.size())];
        else
            numbers[input.name] = draw.between(*input.low, *input.high);
        if (input.name == "duration_min")
            numbers[input.name] = std::round(numbers[input.name]);
    }
}

} // namespace

TEST_CASE("every model gives a finite answer over its whole range", "[random][slow]") {
    Draw draw;
    for (const Model& model : models()) {
        INFO(model.name);
        const int count = model.name == "predicted_heat_strain" ? 500 : 100000; // it takes minutes, not steps
        std::map<std::string, double> numbers;
        std::map<std::string, std::string> words;
        int refused = 0, not_finite = 0, negative = 0;
        for (int i = 0; i < count; ++i) {
            draw_inputs(model, draw, numbers, words);
            try {
                const ModelResult result = model.run(numbers, words);
                for (const auto& [name, value] : result.values) {
                    not_finite += !std::isfinite(value);
                    negative += value < 0 && result.in_range && signed_models.count(model.name) == 0;
                }
            } catch (const std::invalid_argument&) {
                ++refused;
            }
        }
        CHECK(not_finite == 0);
        CHECK(negative == 0); // or said to be out of range
        if (refusing_models.count(model.name) == 0)
            CHECK(refused == 0);
    }
}

namespace {

/// A day of random length, effort and weather over all that event and athlete files may hold.
body::LegDrive random_drive(Draw& draw, double mass_kg) {
    static const LegKind kinds[] = {LegKind::swim, LegKind::t1, LegKind::bike, LegKind::t2, LegKind::run};
    Athlete athlete;
    athlete.mass_kg = mass_kg;
    athlete.height_m = draw.between(1.2, 2.3);
    Event event;
    event.weather.water_temperature_c = draw.between(0, 35);
    LegEffort leg;
    leg.kind = kinds[draw.below(5)];
    leg.speed_m_s = is_transition(leg.kind) ? 0 : draw.between(0.3, leg.kind == LegKind::bike ? 17 : 6);
    leg.power_w = leg.kind == LegKind::bike ? draw.between(20, 500) : 0;
    leg.intensity = draw.between(0.2, 1);
    auto drive = body::leg_drive(athlete, event, leg);
    drive.sweat_factor = draw.between(0.1, 4);
    drive.sodium_mg_per_ml = draw.between(0.1, 2.5);
    return drive;
}

} // namespace

TEST_CASE("every minute is finite, closes, and has nothing below zero that cannot be", "[random][slow]") {
    Draw draw;
    BodyMinutes m;
    body::resize(m, 1);
    for (int i = 0; i < 100000; ++i) {
        const auto drive = random_drive(draw, draw.between(25, 250));
        const body::Air air{draw.between(-20, 50), draw.between(0, 100), draw.between(0, 25),
                            draw.between(0, 1300), draw.between(-90, 90)};
        m.length_s[0] = draw.between(0.001, 60);
        const body::Stores before{
            draw.between(0, 800), draw.between(-8000, 0), draw.between(-8000, 0), 1, {draw.between(36, 40)}};
        body::Stores after = before;
        m.air_c[0] = air.temperature_c;
        m.humidity_pct[0] = air.humidity_pct;
        m.wind_m_s[0] = air.wind_m_s;
        m.sun_w_m2[0] = air.sun_w_m2;
        m.solar_w_per_m2[0] = body::solar_w_per_m2(drive.kind, air);
        body::step_minutes(drive, &drive.speed_m_s, 0, 1, after, m);
        const double out =
            m.mechanical_w[0] + m.respiratory_w[0] + m.dry_w[0] + m.stored_w[0] + m.evaporated_w[0];
        const double hours = m.length_s[0] / 3600;
        const double fuel_g = (m.carb_g_per_h[0] + m.fat_g_per_h[0]) * hours;
        bool good = std::abs(m.metabolic_w[0] - out) <= 1e-9;
        good &= std::abs(m.metabolic_w[0] * 3600 / 4184 - body::kcal_per_g_carb * m.carb_g_per_h[0] -
                         body::kcal_per_g_fat * m.fat_g_per_h[0]) <= 1e-9;
        good &= std::abs((after.mass_change_g - before.mass_change_g) -
                         (after.water_change_g - before.water_change_g) + fuel_g) <= 1e-9;
        good &= after.glycogen_g >= 0 && after.glycogen_g <= before.glycogen_g;
        for (const double value :
             {m.metabolic_w[0], m.mechanical_w[0], m.respiratory_w[0], m.required_w[0], m.evaporated_w[0],
              m.sweat_ml_per_h[0], m.breath_ml_per_h[0], m.sodium_mg_per_h[0], m.carb_g_per_h[0],
              m.fat_g_per_h[0], m.glycogen_g[0]})
            good &= std::isfinite(value) && value >= 0;
        good &= std::isfinite(m.dry_w[0]) && std::isfinite(m.stored_w[0]) &&
                m.evaporated_w[0] <= m.required_w[0] + 1e-9;
        INFO(fmt::format("draw {}: leg {}, {} W, {} C, {} %, {} m/s, {} W/m2: stored {} W, dry {} W", i,
                         to_string(drive.kind), drive.metabolic_w, air.temperature_c, air.humidity_pct,
                         air.wind_m_s, air.sun_w_m2, m.stored_w[0], m.dry_w[0]));
        REQUIRE(good);
    }
}
