// The simulated days as columns: one array a quantity, one lane a day.
#pragma once

#include <cstddef>
#include <vector>

namespace tuck::outlook {

enum class Column : std::size_t {
    // Drawn once.
    air_c,        // above the expected
    humidity_pct, // above what the same vapour gives at that temperature
    pace_z,
    sweat_z,
    sodium_mg_per_ml, // of sweat at the expected rate
    share,            // carbohydrate share above the expected at an intensity
    share_longer,     // and by the intensity that a day of this length is raced at
    gut,              // emptying and uptake, multiple of the usual
    comfort_ml,
    defence,        // of blood sodium, by kidney and stores: multiple of the usual
    faithful,       // 0: to thirst, 1: as planned
    start_sodium,   // mmol/L
    start_water_ml, // above the usual
    start_muscle_g,
    start_liver_g,
    // The state, minute by minute.
    stretch, // of the leg: time over median time
    sweat_factor,
    burn,      // energy per minute over that of the median pace
    pace_gain, // (burn - 1) over the slope of burn in ln(pace): what sweat follows
    stomach_ml,
    stomach_glucose_g,
    stomach_fructose_g,
    gut_ml,
    gut_glucose_g,
    gut_fructose_g,
    absorbed_g,
    muscle_g,
    liver_g,
    water_ml, // in the body, gut included, above the start
    urine_ml,
    given_mmol, // sodium and potassium that stores gave, less what they took and urine held
    mass_g,     // above the start
    sodium_mg,
    sweat_ml,
    drunk_ml,
    fullest_ml,   // most that the stomach was above comfort
    lapsed_min,   // since the start
    missed_feeds, // of what is carried
    late_feeds,
    missed_stations, // feeds that a missed station took along
    worst,           // share of a limit used up, at the worst mark
    worst_min,       // and when
    worst_cause,     // 0 water, 1 stomach, 2 sodium, 3 glycogen
    serum_sodium,    // at the finish, mmol/L
    count
};

inline constexpr std::size_t lane_block = 32; // days come in blocks that every vector width divides

class DayColumns {
public:
    explicit DayColumns(std::size_t days)
        : days_(days), padded_((days + lane_block - 1) / lane_block * lane_block),
          data_(static_cast<std::size_t>(Column::count) * padded_) {}
    std::size_t days() const { return days_; }
    std::size_t padded() const { return padded_; }
    float* operator[](Column column) { return data_.data() + static_cast<std::size_t>(column) * padded_; }
    const float* operator[](Column column) const {
        return data_.data() + static_cast<std::size_t>(column) * padded_;
    }

private:
    std::size_t days_, padded_;
    std::vector<float> data_;
};

/// What is kept at a mark, for bands.
struct MarkColumns {
    float* mass_g = nullptr;
    float* glycogen_g = nullptr;
    float* gut_ml = nullptr;
};

} // namespace tuck::outlook
