// What slows or speeds a leg, and the rules of the water.
#include "base/sphere.hpp"
#include "effort/estimate.hpp"
#include "effort/levels.hpp"
#include "effort/results.hpp"
#include "effort/road.hpp"
#include "effort/scaling.hpp"
#include "effort/water_rules.hpp"
#include "models/entry.hpp"

#include <stdexcept>
#include <utility>

namespace tuck::registry {
namespace {

constexpr char water_rules[] =
    "international federation, age group, the table as quoted in 2026 by a secondary source";

Level level_of(const Given& g) {
    const auto& word = g.word("level");
    return word == "beginner" ? Level::beginner
           : word == "keen"   ? Level::keen
           : word == "fast"   ? Level::fast
                              : Level::steady;
}

ModelInput level_input() {
    return word("level", {"beginner", "steady", "keen", "fast"});
}

std::vector<ModelInput> two_places() {
    return {in("lat1_deg", "deg", -90, 90), in("lon1_deg", "deg", -180, 180), in("lat2_deg", "deg", -90, 90),
            in("lon2_deg", "deg", -180, 180)};
}

double longest_swim(const Given& g) {
    const double water_c = g.temperature("water_C");
    if (water_c >= 15)
        throw std::invalid_argument("water_C: from 15 C on the temperature shortens no swim");
    return effort::longest_swim_m(water_c);
}

std::vector<Model> water_models() {
    return {
        {"wetsuit_limit",
         "Water temperature above which a wetsuit is forbidden.",
         "C",
         {in("swim_m", "m", 200, 4000)},
         water_rules,
         run<[](const Given& g) { return effort::wetsuit_limit_c(g.positive("swim_m")); }>},
        {"wetsuit_needed_below",
         "Water temperature below which a wetsuit must be worn.",
         "C",
         {},
         water_rules,
         run<[](const Given&) { return effort::wetsuit_needed_below_c; }>},
        {"longest_swim",
         "Longest swim that cold water allows; 0: none.",
         "m",
         {in("water_C", "C", 0, 14.9)},
         water_rules,
         run<longest_swim>},
        {"wetsuit_gain",
         "Gain of swimming speed by a wetsuit.",
         "1",
         {level_input()},
         "our choice by level inside Gay et al. 2022 and Cordain & Kopriva 1991",
         run<[](const Given& g) { return effort::wetsuit_gain(level_of(g)); }>},
    };
}

double level_split(const Given& g) {
    const auto times = effort::standard_times(level_of(g));
    const auto& split = g.word("split");
    return split == "swim"   ? times.swim_s
           : split == "t1"   ? times.t1_s
           : split == "bike" ? times.bike_s
           : split == "t2"   ? times.t2_s
           : split == "run"  ? times.run_s
                             : times.total_s();
}

double womens_factor(const Given& g) {
    const auto& sport = g.word("sport");
    return effort::womens_time_factor(sport == "swim"   ? Sport::swim
                                      : sport == "bike" ? Sport::bike
                                                        : Sport::run,
                                      g.positive("distance_m"), g.word("race") == "alone");
}

std::vector<Model> field_models() {
    return {
        {"level_split",
         "Time of a level over a split of the standard distance, transitions too.",
         "s",
         {level_input(), word("split", {"swim", "t1", "bike", "t2", "run", "total"})},
         effort::results_source,
         run<level_split>},
        {"womens_factor",
         "A woman's time against a man's at the same place of the field.",
         "1",
         {word("sport", {"swim", "bike", "run"}), in("distance_m", "m", 750, 180e3),
          or_else(word("race", {"triathlon", "alone"}), "triathlon")},
         "half way between open results of one country, 2023-2025, and Rust 2013 (elites, standard "
         "distance); Lepers 2019, Front Physiol 10:973 (non-elite, long distance); between them by the "
         "logarithm of the distance; a run alone: all finishers of 784 marathons, 2014-2017",
         run<womens_factor>},
        {"open_water",
         "Swim time in open water against the pool: sighting, no walls.",
         "1",
         {},
         "3-10 %, from memory",
         run<[](const Given&) { return effort::open_water_factor; }>},
    };
}

} // namespace

std::vector<Model> effort_models() {
    std::vector<Model> all = water_models();
    for (auto& model : field_models())
        all.push_back(std::move(model));
    all.push_back(
        {"great_circle", "Distance on a sphere of 6371.0088 km; within 0.56 % of the WGS84 geodesic.", "m",
         two_places(), "haversine formula; mean earth radius of the IUGG", run<[](const Given& g) {
             return great_circle_m(g.between("lat1_deg", -90, 90), g.between("lon1_deg", -180, 180),
                                   g.between("lat2_deg", -90, 90), g.between("lon2_deg", -180, 180));
         }>});
    all.push_back({"altitude_share",
                   "Share of sea-level aerobic power at an altitude, not acclimatised.",
                   "1",
                   {in("altitude_m", "m", 300, 2800)},
                   "Wehrlin & Hallen 2006, Eur J Appl Physiol 96:404 (from memory)",
                   run<[](const Given& g) {
                       return effort::aerobic_share_at_altitude(g.between("altitude_m", -500, 9000));
                   }>});
    all.push_back({"run_slope_factor",
                   "Running time on a slope against the level at the same effort.",
                   "1",
                   {in("grade", "1", -0.25, 0.45)},
                   "Minetti et al. 2002 by cost; downhill capped at 0.88 (our choice)",
                   run<[](const Given& g) { return effort::run_slope_factor(g.between("grade", -1, 1)); }>});
    all.push_back(
        {"run_off_bike",
         "Run time off the bike against the same run alone.",
         "1",
         {level_input(), in("bike_km", "km", 5, 180)},
         "our choice by level between Suriano & Bishop 2010, Hausswirth 1997 and Millet & Vleck 2000",
         run<[](const Given& g) {
             return effort::run_off_bike_factor(level_of(g), g.positive("bike_km") * 1000);
         }>});
    all.push_back({"result_spread",
                   "One SD of the log time that one result foretells.",
                   "1",
                   {in("D1_km", "km", 0.1, 300), in("D2_km", "km", 0.1, 300), in("age_days", "d", 0, 3650)},
                   "our line on the errors of Vickers & Vertosick 2016 and Smyth & Muniz-Pumares 2020",
                   run<[](const Given& g) {
                       return effort::result_log_sd(g.positive("D1_km"), g.positive("D2_km"),
                                                    g.not_negative("age_days"));
                   }>});
    return all;
}

} // namespace tuck::registry
