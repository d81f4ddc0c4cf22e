// A plan asked for in one line: the texts of the options, and their merge with an event file.
#pragma once

#include "io/event_file.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::io {

using OptionText = std::optional<std::string>;

/// The options as typed; empty where not given. Lists hold one text for each use of the option.
struct PlanOptions {
    OptionText athlete_file; // --athlete
    OptionText distance, legs;
    OptionText mass, height, age, sex, level, position;
    OptionText temperature, humidity, wind, wind_from, water, sun;
    OptionText bike_course, run_course; // GPX files, from the working folder
    OptionText bike_laps, run_laps;
    OptionText swim_time, t1_time, bike_time, t2_time, run_time;
    std::vector<std::string> recent_swim, recent_bike, recent_run; // "10km=52:30"
    OptionText threshold_power, threshold_pace, swim_pace;
    OptionText sweat_rate, sweat_sodium;
    OptionText caffeine; // "yes", "no" or an amount: "150mg"
    OptionText caffeine_at, carb;
    std::vector<std::string> take; // own lines
    bool fill = false;
    std::vector<std::string> like, avoid, allergy;
    OptionText hands, bottles, stations;
    OptionText rehearsed_carb, rehearsed_fluid;
    OptionText start, date, name, event_name;
    bool training = false;
    OptionText days, seed;
};

/// Event file (if any) and options as one input. What the file says an option may repeat but not contradict;
/// lists (likes, allergies, recent results) add up. Ranges are those of the files. Throws InputError with
/// every fault; the fault of an option has the option's name as its file. With the athlete's mass missing the
/// input is at fault.
EventInput plan_input(const std::optional<std::string>& event_file, const PlanOptions& options);

} // namespace tuck::io
