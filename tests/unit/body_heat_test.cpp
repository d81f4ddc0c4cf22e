// The heat balance of the race path: against measured sweat rates, the work-in-heat models that bracket it,
// and what must hold of any heat balance.
#include "body/energy.hpp"
#include "body/exchange.hpp"
#include "body/heat.hpp"
#include "body/heat_strain.hpp"
#include "body/land_heat.hpp"
#include "body/sun.hpp"
#include "body/sweat.hpp"
#include "body/warming.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace tuck;
using namespace tuck::body;

namespace {

double running_w(double mass_kg, double speed_m_s) {
    return on_foot_vo2_ml_per_kg_min(3.6 * speed_m_s) * mass_kg / 1000 / 60 * joule_per_l_o2;
}

/// A warm rider at an efficiency of 0.20.
double riding_sweat_l_per_h(double power_w, double air_c, double humidity_pct, double air_m_s,
                            double solar_w_per_m2 = 0) {
    return land_sweat_l_per_h({5 * power_w, power_w, 73, 1.80, air_c, humidity_pct, air_m_s, solar_w_per_m2,
                               0, riders_shell_m2_k_per_w});
}

} // namespace

TEST_CASE("women and men of one cool race sweat as differently as measured (Bongers 2020)", "[body]") {
    // Abstract: 15 km at 8-12 C and 80-95 %, 375 runners, 52 % men; heat production 1185 and 867 W, 15.0
    // and 13.8 W/kg, 76 and 83 min; 18.0 (SD 6.9) and 11.4 (4.7) g/min. Both means stand in field.csv, with
    // their SD. Heights are ours; the sun of November is taken as none; breath and burnt fuel, 0.20 g/kcal,
    // are in a weighing. The ratio of two means of 195 and 180 people is known to sqrt((6.9 / 18)^2 / 195 +
    // (4.7 / 11.4)^2 / 180), here doubled.
    const auto lost_l_per_h = [](double mass_kg, double height_m, double minutes) {
        const double speed_m_s = 15000 / minutes / 60, metabolic_w = running_w(mass_kg, speed_m_s);
        LandHeat heat;
        heat.metabolic_w = metabolic_w;
        heat.mass_kg = mass_kg;
        heat.height_m = height_m;
        heat.air_c = 10;
        heat.humidity_pct = 87.5;
        heat.air_speed_m_s = speed_m_s;
        heat.minutes = minutes;
        return land_sweat_l_per_h(heat) + 0.0002 * metabolic_w * 3600 / 4184;
    };
    const double ratio = lost_l_per_h(867 / 13.8, 1.69, 83) / lost_l_per_h(1185 / 15.0, 1.82, 76);
    const double known = std::hypot(6.9 / 18 / std::sqrt(195), 4.7 / 11.4 / std::sqrt(180));
    CHECK(ratio == Approx(11.4 / 18).epsilon(2 * known));
}

TEST_CASE("trained cyclists in heat sweat as the model says (Junge 2016)", "[body]") {
    // Table 1: air, humidity, wind, loss of power in heat, sweat in heat and in the cool control (20 C or
    // below; taken as 18.5 C, 50 %). Power is solved so that the model is right in the cool. Rows with both
    // rates. Riders are taken to start warm (a warm-up before a time trial: common practice, no source).
    struct Trial {
        double air_c, humidity_pct, wind_m_s, power_loss, hot_l_per_h, cool_l_per_h;
    };
    const std::vector<Trial> trials{
        {35, 60, 3, 0.13, 1.8, 1.1},   {38, 30, 3, 0.13, 1.4, 0.8},   {38, 30, 3, 0.07, 1.7, 0.8},
        {35, 60, 4, 0.18, 2.3, 1.3},   {35, 60, 4, 0.13, 2.4, 1.8},   {35, 60, 3, 0.13, 2.1, 1.3},
        {30, 55, 0.5, 0.25, 1.9, 1.6}, {30, 55, 0.5, 0.23, 1.8, 1.4}, {40, 14, 1.5, 0.22, 1.4, 1.0},
    };
    std::vector<double> ratios;
    for (const auto& t : trials) {
        double low = 50, high = 600;
        while (high - low > 0.01) {
            const double middle = (low + high) / 2;
            (riding_sweat_l_per_h(middle, 18.5, 50, t.wind_m_s) < t.cool_l_per_h ? low : high) = middle;
        }
        ratios.push_back(t.hot_l_per_h /
                         riding_sweat_l_per_h(low * (1 - t.power_loss), t.air_c, t.humidity_pct, t.wind_m_s));
    }
    std::nth_element(ratios.begin(), ratios.begin() + 4, ratios.end());
    // The median of nine values that scatter by 0.11 (heat_log_sd of race_drive.cpp) is known to 1.25 times a
    // third of it.
    CHECK(ratios[4] == Approx(1).margin(0.05));
}

TEST_CASE("running lies inside what the work-in-heat models bracket", "[body]") {
    // None of them is made for racing (ISO 7933: to 450 W/m2 and 3 m/s; Shapiro: to 360 W/m2); together they
    // bracket the effect of climate. ISO 7933 in its second hour, water of the breath included as in a
    // weighing, kit from 0.1 to 0.6 clo, vapour of 30 %. Its workers sweat 500 W/m2 at most: where that binds
    // it says nothing of the upper side.
    for (const double air_c : {18.0, 23.0, 28.0, 33.0}) {
        for (const double speed_m_s : {2.36, 2.78, 3.47, 4.17}) {
            const double mass_kg = 70, height_m = 1.75, area_m2 = body_surface_m2(mass_kg, height_m);
            const double metabolic_w = running_w(mass_kg, speed_m_s);
            const double vapour_kpa = vapour_pressure_kpa(air_c, 30);
            bool bound = false;
            const auto iso = [&](double clothing_clo) {
                HeatStrainConditions c;
                c.acclimatised = true;
                c.air_c = c.radiant_c = air_c;
                c.vapour_kpa = vapour_kpa;
                c.air_speed_m_s = speed_m_s;
                c.metabolic_w_per_m2 = metabolic_w / area_m2;
                c.clothing_clo = clothing_clo;
                c.mass_kg = mass_kg;
                c.height_m = height_m;
                c.minutes = 60;
                const double first_g = predicted_heat_strain(c).water_loss_g;
                c.minutes = 120;
                const auto strain = predicted_heat_strain(c);
                bound = strain.sweat_w_per_m2 > 0.99 * 500;
                return (strain.water_loss_g - first_g) / 1000;
            };
            const auto heat = land_heat_balance({metabolic_w, 0, area_m2, air_c, 30, speed_m_s, 0});
            const double capacity =
                16.5 * convection_w_per_m2_k(speed_m_s) * (saturation_vapour_pressure_kpa(34) - vapour_kpa);
            const double work = work_sweat_shapiro(heat.required_w / area_m2, capacity) * area_m2 / 1000;
            const double corrected = work_sweat_corrected(1000 * work / area_m2, capacity) * area_m2 / 1000;

            INFO(air_c << " C, " << speed_m_s << " m/s: ISO 7933 " << iso(0.1) << " to " << iso(0.6)
                       << ", Shapiro " << work << ", corrected " << corrected);
            const double sweat = heat.sweat_w / watt_per_l_per_h;
            CHECK(sweat > std::min({iso(0.1), work, corrected}));
            const double most = std::max({iso(0.6), work, corrected});
            // Warm runners sweat up to a fifth more than these say: where people were measured outdoors they
            // do (field.csv: runs 1.09 times, median), and none of the three was made for their speed.
            if (!bound)
                CHECK(sweat < 1.2 * most);
        }
    }
}

TEST_CASE("faster air cools below skin temperature and heats above it", "[body]") {
    for (const double metabolic_w : {400.0, 800.0, 1400.0}) {
        for (double air_m_s = 1; air_m_s < 15; air_m_s += 1) {
            for (const double air_c : {5.0, 20.0, 30.0, 34.0, 36.0, 42.0, 48.0}) {
                const auto dry_w = [&](double v) {
                    return land_heat_balance({metabolic_w, 0, 1.85, air_c, 40, v, 0}).dry_w;
                };
                INFO(metabolic_w << " W, " << air_c << " C, " << air_m_s << " m/s");
                if (air_c < 35)
                    CHECK(dry_w(air_m_s + 1) >= dry_w(air_m_s)); // equal where clothes hold the heat
                else
                    CHECK(dry_w(air_m_s + 1) < dry_w(air_m_s));
            }
            CHECK(land_heat_balance({metabolic_w, 0, 1.85, 35, 40, air_m_s, 0}).dry_w ==
                  Approx(0).margin(1e-9));
        }
    }
}

TEST_CASE("more work, warmer and more humid air, and sun never lower the sweat", "[body]") {
    const auto sweat = [](double metabolic_w, double air_c, double humidity_pct, double solar_w_per_m2) {
        return land_heat_balance({metabolic_w, 0, 1.85, air_c, humidity_pct, 4, solar_w_per_m2}).sweat_w;
    };
    for (double air_c = -10; air_c <= 45; air_c += 5) {
        for (double humidity_pct = 0; humidity_pct <= 90; humidity_pct += 10) {
            for (double metabolic_w = 300; metabolic_w <= 1500; metabolic_w += 300) {
                const double here = sweat(metabolic_w, air_c, humidity_pct, 40);
                INFO(metabolic_w << " W, " << air_c << " C, " << humidity_pct << " %");
                CHECK(sweat(metabolic_w + 100, air_c, humidity_pct, 40) >= here);
                CHECK(sweat(metabolic_w, air_c + 5, humidity_pct, 40) >= here);
                CHECK(sweat(metabolic_w, air_c, humidity_pct + 10, 40) >= here);
                CHECK(sweat(metabolic_w, air_c, humidity_pct, 80) >= here);
            }
        }
    }
}

TEST_CASE("sweat never passes the most that groups of athletes were seen to sweat", "[body]") {
    for (double metabolic_w = 300; metabolic_w <= 2000; metabolic_w += 100)
        for (double air_c = 20; air_c <= 50; air_c += 1)
            for (double humidity_pct = 0; humidity_pct <= 100; humidity_pct += 10)
                CHECK(land_heat_balance({metabolic_w, 0, 1.85, air_c, humidity_pct, 4, 180}).sweat_w <=
                      most_sweat_w_per_m2 * 1.85);
    // 2.5 L/h at 39 C and 20 %, acclimatised cyclists outdoors in 11 m/s (Racinais, in Junge 2016 Table 1):
    // not passed at any power, and 250 W in the sun come within a quarter of it.
    CHECK(riding_sweat_l_per_h(250, 39, 20, 11, 150) < 2.5);
    CHECK(riding_sweat_l_per_h(250, 39, 20, 11, 150) > 0.75 * 2.5);
}

TEST_CASE("sweat rises with temperature without a jump", "[body]") {
    // Dew point kept at what weather stations see (to 28 C); runner and rider, every fifth of a degree.
    for (const auto& load : {LandLoad{900, 0, 1.85, 0, 0, 3.3, 0}, LandLoad{850, 170, 1.85, 0, 0, 9, 0}}) {
        for (const double dew_c : {0.0, 10.0, 20.0, 28.0}) {
            double before_w = 0, rise_before_w = -1;
            for (double air_c = std::max(0.0, dew_c); air_c <= 45; air_c += 0.2) {
                auto there = load;
                there.air_c = air_c;
                there.humidity_pct =
                    100 * saturation_vapour_pressure_kpa(dew_c) / saturation_vapour_pressure_kpa(air_c);
                const double sweat_w = land_heat_balance(there).sweat_w;
                INFO(load.metabolic_w << " W, dew point " << dew_c << " C, air " << air_c << " C");
                if (rise_before_w >= 0) {
                    CHECK(sweat_w >= before_w);
                    // 10 W are 0.015 L/h: a corner of 50 W/C (0.07 L/h per C) would show.
                    CHECK(std::abs(sweat_w - before_w - rise_before_w) < 10);
                }
                rise_before_w = before_w > 0 ? sweat_w - before_w : -1;
                before_w = sweat_w;
            }
        }
    }
}

TEST_CASE("what keeps a runner and a rider from the air is some kit and skin, not a coat (ISO 7933:2004)",
          "[body]") {
    // Kit of 0.1 to 0.6 clo is the standard's range for work in heat; vasoconstricted skin adds up to 0.15 m2
    // K/W (common physiology, from memory), which is a clo. Dry loss of a runner at 10 C stays below that of
    // bare skin.
    constexpr double clo = 0.155;
    for (const double shell : {runners_shell_m2_k_per_w, riders_shell_m2_k_per_w}) {
        CHECK(shell > 0.1 * clo);
        CHECK(shell < 0.6 * clo + 0.15);
    }
    CHECK(riders_shell_m2_k_per_w > runners_shell_m2_k_per_w);
    LandLoad load{1000, 0, 1.85, 10, 60, 3.9, 0};
    const double bare = (convection_w_per_m2_k(3.9) + 4.5) * (35 - 25 / 6.0 - 10) * 1.85;
    CHECK(land_heat_balance(load).dry_w < bare);
    load.shell_m2_k_per_w = riders_shell_m2_k_per_w;
    CHECK(land_heat_balance(load).dry_w < land_heat_balance({1000, 0, 1.85, 10, 60, 3.9, 0}).dry_w);
}

TEST_CASE("a body that works warms for half an hour and then stores nothing (ISO 7933:2004)", "[body]") {
    const double mass_kg = 70, area_m2 = body_surface_m2(70, 1.75), metabolic_w = 850;
    const double rise_k = working_core_c(metabolic_w, area_m2) - resting_core_c;
    Warming body;
    double stored_j = 0, last_w = 1e9;
    for (int minute = 1; minute <= 180; ++minute) {
        const double watt = body.step_w(working_core_c(metabolic_w, area_m2), mass_kg, 60);
        CHECK(watt < last_w);
        last_w = watt;
        stored_j += 60 * watt;
        if (minute == 60)
            CHECK(watt < 0.005 * metabolic_w); // exp(-6)
    }
    // 36.6 + 0.0036 M from 36.8, 57.83 W min/K per kg: nothing beyond it, however long the day.
    CHECK(stored_j == Approx(57.83 * 60 * mass_kg * rise_k).epsilon(1e-3));
    CHECK(body.core_c < 39);
    // Easier work gives the heat back.
    CHECK(body.step_w(working_core_c(500, area_m2), mass_kg, 60) < 0);
}

TEST_CASE("of the sun on a body moving air takes a part away, and never all", "[body]") {
    double last = 0;
    for (const double air_m_s : {0.5, 1.0, 3.0, 8.0, 15.0}) {
        CHECK(sun_shed_share(air_m_s) > last);
        last = sun_shed_share(air_m_s);
        CHECK(last < 0.5);
    }
    // Otani 2016 (abstract): at 30 C and 50 %, 70 % of peak uptake, 800 W/m2 halve the time to exhaustion (46
    // to 23 min) with the same sweat in all: the rate doubles, within the SDs of both times (10 of 46, 4 of
    // 23: 0.28). 72 kg and 55 ml/kg/min taken, in the light air of a chamber.
    const auto rate = [](double solar_w_per_m2, double minutes) {
        const double metabolic_w = 0.7 * 55 * 72 / 1000 / 60 * joule_per_l_o2;
        return land_sweat_l_per_h(
            {metabolic_w, 0.2 * metabolic_w, 72, 1.75, 30, 50, 0.5, solar_w_per_m2, minutes});
    };
    const double lamp = 800 * absorbed_share_of_sun(Stance::seated, 60); // lamps under the ceiling
    CHECK(rate(lamp, 23) / rate(0, 46) == Approx(46 / 23.0).epsilon(2 * 0.28));
    CHECK(rate(lamp, 23) > 1.1 * rate(0, 23));
}

// ISO 7933:2004, Annex C: the walking speed that moves air through clothes counts up to 1.5 m/s (from
// memory).
TEST_CASE("walking faster than 1.5 m/s moves no more air through clothes") {
    HeatStrainConditions c;
    c.air_c = c.radiant_c = 30;
    c.vapour_kpa = 1.5;
    c.air_speed_m_s = 3; // above any walk: the air that is felt stays the same
    c.metabolic_w_per_m2 = 200;
    c.clothing_clo = 0.6;
    c.minutes = 120;
    const auto lost_g = [&c](double walk_m_s) {
        c.walk_m_s = walk_m_s;
        return predicted_heat_strain(c).water_loss_g;
    };
    CHECK(lost_g(1.5) == lost_g(2.4));
    CHECK(lost_g(1.4) != lost_g(1.5));
}

TEST_CASE("the shadow of a body turns smoothly with the sun", "[body][heat]") {
    // Tables C1.1 of ASHRAE 55: in steps of 15 degrees no row lies more than 0.034 off the middle of its
    // neighbours, twice over; a misprint of the smallest value by half would be 0.08. From above no heading
    // counts.
    const auto factor = [](Stance posture, double high, double turned) {
        return projected_area_factor(posture, high, std::abs(turned) > 180 ? 360 - turned : std::abs(turned));
    };
    for (const Stance posture : {Stance::standing, Stance::seated})
        for (double high = 0; high <= 90; high += 15)
            for (double turned = 0; turned <= 180; turned += 15) {
                INFO(high << " degrees high, " << turned << " from the front");
                const double here = factor(posture, high, turned);
                const double beside = factor(posture, high, turned - 15) + factor(posture, high, turned + 15);
                CHECK(std::abs(beside - 2 * here) < 0.04);
                CHECK((high < 90 || here == factor(posture, 90, 0)));
            }
}

TEST_CASE("nobody sweats where the air takes more heat than the body makes (ISO 7933: no storage below zero)",
          "[body]") {
    HeatStrainConditions cold;
    cold.air_c = cold.radiant_c = 15;
    cold.vapour_kpa = 0.8;
    cold.air_speed_m_s = 3;
    cold.metabolic_w_per_m2 = 100;
    cold.clothing_clo = 0.1;
    cold.minutes = 60;
    CHECK(predicted_heat_strain(cold).sweat_w_per_m2 == 0);
}

TEST_CASE("in the edition of 2023 skin is at its equilibrium from the first minute on", "[body]") {
    // In that of 2004 it comes there from 34.1 C by a tenth or so a minute.
    const auto skin_c = [](StrainEdition edition, int minutes) {
        HeatStrainConditions hot;
        hot.edition = edition;
        hot.air_c = hot.radiant_c = 45;
        hot.vapour_kpa = 2.5;
        hot.air_speed_m_s = 0.3;
        hot.metabolic_w_per_m2 = 150;
        hot.clothing_clo = 0.5;
        hot.minutes = minutes;
        return predicted_heat_strain(hot).skin_c;
    };
    CHECK(std::abs(skin_c(StrainEdition::iso_2023, 2) - skin_c(StrainEdition::iso_2023, 1)) < 0.1);
    CHECK(skin_c(StrainEdition::iso_2004, 2) - skin_c(StrainEdition::iso_2004, 1) > 0.2);
    CHECK(skin_c(StrainEdition::iso_2023, 1) - skin_c(StrainEdition::iso_2004, 1) > 0.5);
}
