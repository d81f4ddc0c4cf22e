// What all simulated days share: the minutes of the median day, its feeds, and the spreads of what varies.
#pragma once

#include "tuck/body.hpp"
#include "tuck/schedule.hpp"

#include <cstdint>
#include <vector>

namespace tuck::outlook {

/// What is drawn once a day, each from its own stream of numbers. Legs and feeds have streams of their own.
enum Variable : std::uint32_t {
    air_v,      // air temperature
    humidity_v, // beyond what the temperature does to it at the same vapour
    pace_v,     // what all legs share
    sweat_v,
    sodium_v,
    fuel_v,    // carbohydrate share at the intensity
    stores_v,  // glycogen at the start
    water_v,   // body water at the start
    serum_v,   // serum sodium at the start
    gut_v,     // emptying and uptake
    stomach_v, // volume that is comfortable
    plan_v,    // how closely water that is not food is drunk as planned
    defence_v, // of blood sodium, by kidney and stores
    first_leg_v = 32,
    first_feed_v = 4096,
    first_station_v = 1 << 20,
    stations_of_a_leg = 1 << 12,
};

/// One minute of the median day (the last of a leg may be shorter). A day of another pace stretches it.
struct Minute {
    float minutes = 0;                   // its length
    float sweat = 0;                     // ml/min of the median athlete in the expected weather
    float sweat_c = 0, sweat_c2 = 0;     // change per C, and its bend
    float sweat_pct = 0, sweat_pct2 = 0; // per % of humidity, and its bend
    float sweat_pace = 0;                // and per unit of ln(pace), at the median pace
    float per_sweat = 0;                 // 1 / sweat; 0 where there is next to none
    float carb = 0, energy = 0;          // g/min burnt; if carbohydrate were the only fuel
    float breath = 0;                    // ml/min of water
    float thirst = 0, emergency = 0;     // ml/min at most: where there is water; anywhere, when dry
    int leg = 0;
    int first_dose = 0, doses = 0;          // feeds taken at its start
    bool starts_leg = false, marks = false; // marks: percentiles are taken at its end
};

struct GridLeg {
    float time_log_sd = 0, slower_per_c = 0; // of ln(time)
    float time_share = 0;                    // of the median day
    float burn_pace = 0, per_burn_pace = 0;  // change of ln(power) per unit of ln(pace); its inverse, or 0
    float sweat_sd_down = 0, sweat_sd_up = 0;
    float longest = 1;                  // stretch that the supplies still cover (p90 / p50)
    std::uint32_t key_a = 0, key_b = 0; // of its own draw
};

/// A feed at its minute, or somewhat later on the days when it is late. What a station hands out is missed
/// with that station, and all of its feeds together; it is never late, for the station stands where it does.
struct Dose {
    bool late = false, by_clock = false, plain_water = false, station = false;
    float missed = 0, missed_or_late = 0;                   // chances
    float fluid = 0, glucose = 0, fructose = 0, sodium = 0; // ml, g, g, mg
    std::uint32_t key_a = 0, key_b = 0;
};

struct Key {
    std::uint32_t a = 0, b = 0;
};

/// How the planned drink is drunk.
enum class Drinking {
    as_lived, // to thirst: some water is left, some feeds missed or late, more is drunk where there is water
    whole     // everything that the plan says, on time, and nothing else: what the plan itself would do
};

struct RaceGrid {
    std::vector<Minute> minutes;
    std::vector<GridLeg> legs;
    std::vector<Dose> doses;
    std::vector<double> mark_s; // on the clock of the median day
    Key keys[first_leg_v];

    float air_sd_c = 0, humidity_sd_pct = 0;
    float sodium_log_sd = 0, sodium_mg_per_ml = 0, share_sd = 0;
    float muscle_g = 0, liver_g = 0, stores_log_sd = 0;
    float start_sodium = 0, start_sodium_sd = 0, start_water_sd_ml = 0;
    float gut_log_sd = 0, gut_median = 1, comfort_ml = 0, comfort_log_sd = 0;
    float mass_g = 0, body_water_ml = 0;
    float dry_per_ml = 0, left_per_ml = 0; // of sweat and of planned water, per ml of water in the body
    // Carbohydrate share on a longer day: x (a + x b), x = total time over median - 1.
    float share_longer = 0, share_longer2 = 0;
    float given_per_g = 0; // of what is asked of the stores, per g that is left
};

/// `drinking` decides on thirst, missed and late feeds; everything else is the same, draw for draw.
RaceGrid race_grid(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                   const Schedule& schedule, Drinking drinking);

} // namespace tuck::outlook
