#include "reference/outlook_reference.hpp"

#include "outlook/engine.hpp"
#include "reference/normal_quantile.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::reference {

namespace {

using outlook::Key;
using outlook::RaceGrid;

double z(Key key, std::uint32_t day) {
    return normal_quantile(static_cast<double>(outlook::uniform(key, day)));
}

double log_time(const RaceGrid& g, const outlook::GridLeg& leg, double air_c, std::uint32_t day) {
    const double own = z({leg.key_a, leg.key_b}, day), shared = z(g.keys[outlook::pace_v], day);
    return std::clamp(double{leg.time_log_sd} * (shared + own) * std::sqrt(0.5) +
                          air_c * double{leg.slower_per_c},
                      -0.7, 0.9);
}

class Runner {
public:
    Runner(const RaceGrid& grid, std::uint32_t day, Known known) : g(grid), n(day), known_(known) {
        using namespace outlook;
        air = z(g.keys[air_v], n) * g.air_sd_c;
        humidity = z(g.keys[humidity_v], n) * g.humidity_sd_pct;
        sweater = z(g.keys[sweat_v], n);
        salt = std::exp(z(g.keys[sodium_v], n) * g.sodium_log_sd) * g.sodium_mg_per_ml;
        share = z(g.keys[fuel_v], n) * g.share_sd;
        const double stores = std::exp(z(g.keys[stores_v], n) * g.stores_log_sd);
        out.muscle_g = stores * g.muscle_g;
        out.liver_g = stores * g.liver_g;
        const double water = z(g.keys[water_v], n);
        start_water = water * g.start_water_sd_ml;
        start_sodium =
            g.start_sodium + g.start_sodium_sd * (std::sqrt(0.75) * z(g.keys[serum_v], n) - 0.5 * water);
        gut = std::exp(z(g.keys[gut_v], n) * g.gut_log_sd) * g.gut_median;
        out.comfort_ml = std::exp(z(g.keys[stomach_v], n) * g.comfort_log_sd) * g.comfort_ml;
        faithful = static_cast<double>(uniform(g.keys[plan_v], n));
        defence = 2 * static_cast<double>(uniform(g.keys[defence_v], n));
        double total = 0;
        for (const auto& leg : g.legs) {
            times.push_back(known_.pace ? 0.0 : log_time(g, leg, air, n));
            total += double{leg.time_share} * std::exp(times.back());
        }
        if (!known_.pace)
            share += (total - 1) * (g.share_longer + (total - 1) * g.share_longer2);
        if (known_.weather)
            air = humidity = 0;
    }

    Day run() {
        for (const auto& m : g.minutes)
            step(m);
        const double water = g.body_water_ml + start_water;
        out.serum_sodium = ((start_sodium + 23.8) * water / 1000 + 1.03 * electrolytes_mmol()) /
                               ((water + out.water_ml) / 1000) -
                           23.8;
        return out;
    }

private:
    double electrolytes_mmol() const { return out.sodium_mg / 22.99 - 0.005 * out.sweat_ml + given_mmol; }

    /// Water above what the sodium in the body would hold at the start's concentration.
    double free_ml() const { return out.water_ml - 1030 * electrolytes_mmol() / (start_sodium + 23.8); }

    void hold_sodium(double minutes, double free) {
        const double usual = 0.5 * minutes;
        const double spare = (g.body_water_ml + start_water) * 1.5 / (start_sodium + 22.3);
        const double gained = std::max(0.0, std::min(free - spare, out.water_ml));
        const double let_go = std::min(gained / 90, 5.0) * defence * minutes;
        const double left = std::clamp(1 - given_mmol / 1000, 0.0, 1.0);
        const double exchanged = free > 0 ? (gained / 120 + free / 400) * left : free / 150;
        given_mmol += 0.16 * exchanged * defence * minutes - 0.064 * usual;
        out.urine_ml += usual + let_go;
        out.water_ml -= usual + let_go;
        out.mass_g -= usual + let_go;
    }

    void take(const outlook::Dose& dose, double longest) {
        const double u = static_cast<double>(outlook::uniform({dose.key_a, dose.key_b}, n));
        const bool missed = u < double{dose.missed}, late = !missed && u < double{dose.missed_or_late};
        if (missed && !dose.late)
            ++(dose.station ? out.missed_stations : out.missed_feeds);
        if (late && dose.late)
            ++out.late_feeds;
        if (missed || late != dose.late)
            return;
        const double part = dose.by_clock ? std::min(stretch, longest) : 1.0;
        double drink = part * dose.fluid;
        if (dose.plain_water) {
            const double want = std::clamp(0.5 - out.water_ml * 0.5 / (0.01 * g.mass_g), 0.0, 1.0);
            drink *= faithful + (1 - faithful) * want;
        }
        const double glucose = part * dose.glucose, fructose = part * dose.fructose;
        out.stomach_ml += drink;
        stomach_glucose += glucose;
        stomach_fructose += fructose;
        out.water_ml += drink;
        out.drunk_ml += drink;
        out.mass_g += drink + glucose + fructose;
        out.sodium_mg += part * dose.sodium;
    }

    void burn_and_sweat(const outlook::Minute& m, double minutes, double carb) {
        const double rate =
            std::max(0.0, m.sweat + air * (m.sweat_c + air * m.sweat_c2) +
                              humidity * (m.sweat_pct + humidity * m.sweat_pct2) + pace_gain * m.sweat_pace);
        const double loss = -out.water_ml / g.mass_g;
        const double sweat = rate * factor * minutes * std::clamp(1 - 5 * (loss - 0.03), 0.5, 1.0);
        out.sweat_ml += sweat;
        out.sodium_mg -= sweat * salt * (0.5 + 0.5 * rate * m.per_sweat);
        const double fat = (minutes * burn * m.energy - carb) * 4.0 / 9.74;
        const double water =
            carb * 6 * 18.015 / 180.156 + fat * 52 * 18.015 / 861.41 - minutes * burn * m.breath - sweat;
        out.water_ml += water;
        out.mass_g += water - carb - fat;
    }

    double digest(double minutes) {
        const double volume = out.stomach_ml + 40, strength = (stomach_glucose + stomach_fructose) / volume;
        const double held = std::max(0.0, 1 - out.gut_ml / 600 - (gut_glucose + gut_fructose) / 60);
        const double part =
            std::min(0.9, 0.26 * minutes * gut * held / (1 + strength * strength / (0.062 * 0.062)));
        out.gut_ml += out.stomach_ml * part;
        gut_glucose += stomach_glucose * part;
        gut_fructose += stomach_fructose * part;
        out.stomach_ml *= 1 - part;
        stomach_glucose *= 1 - part;
        stomach_fructose *= 1 - part;
        out.gut_ml -= std::min(out.gut_ml * std::min(1.0, 0.15 * minutes), gut * minutes * 1000 / 60);
        const double uptake = std::min(1.0, 0.2 * minutes);
        const double glucose = std::min(gut_glucose * uptake, gut * minutes * 1.0);
        const double fructose = std::min(gut_fructose * uptake, gut * minutes * 0.75);
        gut_glucose -= glucose;
        gut_fructose -= fructose;
        out.absorbed_g += glucose + fructose;
        return glucose + fructose;
    }

    double fuel(const outlook::Minute& m, double minutes, double absorbed) {
        const double carb =
            minutes * burn * std::clamp(m.carb + share * m.energy, 0.05 * m.energy, double{m.energy});
        const double from_food = std::min(carb, absorbed);
        const double left = (out.muscle_g + out.liver_g) / (double{g.muscle_g} + double{g.liver_g});
        const double asked = (carb - from_food) * std::min(1.0, left / 0.5);
        const double muscle = std::min(asked - std::min(0.2 * asked, out.liver_g), out.muscle_g);
        const double liver = std::min(asked - muscle, out.liver_g);
        out.liver_g += absorbed - from_food - liver;
        out.muscle_g -= muscle;
        return from_food + liver + muscle;
    }

    double thirst(const outlook::Minute& m, double minutes, double free) const {
        // What 2 mmol/L are in water, at the start's amount of it.
        const double salty = -free - (g.body_water_ml + start_water) * 2 / (start_sodium + 25.8);
        const double dry = -(start_water + out.water_ml) - 0.03 * g.mass_g;
        const double rate =
            std::max(std::min(salty / 60, double{m.thirst}), std::min(dry / 60, double{m.emergency}));
        return std::max(0.0, std::min(rate * minutes, out.comfort_ml - out.stomach_ml));
    }

    void step(const outlook::Minute& m) {
        const auto leg_index = static_cast<std::size_t>(m.leg);
        const auto& leg = g.legs[leg_index];
        if (m.starts_leg) {
            stretch = std::exp(times[leg_index]);
            burn = std::exp(-times[leg_index] * leg.burn_pace);
            pace_gain = leg.burn_pace > 0 ? (burn - 1) / leg.burn_pace : 0.0;
            factor = std::exp(sweater * (sweater > 0 ? leg.sweat_sd_up : leg.sweat_sd_down));
        }
        for (int i = 0; i < m.doses; ++i)
            take(g.doses[static_cast<std::size_t>(m.first_dose + i)], leg.longest);
        const double minutes = stretch * m.minutes;
        out.fullest_ml = std::max(out.fullest_ml, out.stomach_ml - out.comfort_ml);
        const double free = free_ml();
        const double drink = thirst(m, minutes, free);
        hold_sodium(minutes, free);
        burn_and_sweat(m, minutes, fuel(m, minutes, digest(minutes)));
        for (double* grows : {&out.stomach_ml, &out.water_ml, &out.drunk_ml, &out.mass_g})
            *grows += drink;
        out.lapsed_min += minutes;
    }

    const RaceGrid& g;
    std::uint32_t n;
    Known known_;
    double air, humidity, sweater, salt, share, start_water, start_sodium, gut, faithful, defence;
    double given_mmol = 0;
    double stretch = 1, factor = 1, burn = 1, pace_gain = 0;
    double stomach_glucose = 0, stomach_fructose = 0, gut_glucose = 0, gut_fructose = 0;
    std::vector<double> times;
    Day out;
};

} // namespace

Day simulate_day(const RaceGrid& grid, std::uint32_t day, Known known) {
    return Runner(grid, day, known).run();
}

Drawn drawn_for(const RaceGrid& g, std::uint32_t day) {
    Drawn out;
    out.air_c = z(g.keys[outlook::air_v], day) * g.air_sd_c;
    out.humidity_pct = z(g.keys[outlook::humidity_v], day) * g.humidity_sd_pct;
    for (const auto& leg : g.legs)
        out.log_time.push_back(log_time(g, leg, out.air_c, day));
    return out;
}

} // namespace tuck::reference
