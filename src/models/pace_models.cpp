// Time and distance.
#include "effort/endurance.hpp"
#include "effort/scaling.hpp"
#include "models/entry.hpp"

namespace tuck::registry {
namespace {

constexpr char critical[] = "two-parameter critical speed, Jones & Vanhatalo 2017 (review); 2-15 min";
constexpr char wakayoshi[] = "Wakayoshi et al. 1993, Eur J Appl Physiol 66:90";

std::vector<ModelInput> two_trials() {
    return {in("d1_m", "m", 400, 3000), in("t1_s", "s", 120, 900), in("d2_m", "m", 800, 8000),
            in("t2_s", "s", 240, 1800)};
}

std::vector<ModelInput> two_swims() {
    return {in("t200_s", "s", 100, 400), in("t400_s", "s", 210, 900)};
}

ModelResult positive_speed(double speed) {
    return flagged(speed, speed > 0, "the longer trial must take longer");
}

ModelResult riegel_time(const Given& g) {
    const double time_s = effort::riegel_time_s(g.positive("T1_s"), g.positive("D1_km"), g.positive("D2_km"),
                                                g.between("b", 0.5, 2));
    return flagged(time_s, time_s >= 210 && time_s <= 13800, "the new time lies outside 3.5 to 230 min");
}

double swim_speed(const Given& g) {
    return effort::critical_speed_m_s(200, g.positive("t200_s"), 400, g.positive("t400_s"));
}

double swim_intercept(const Given& g) {
    return effort::critical_distance_m(200, g.positive("t200_s"), 400, g.positive("t400_s"));
}

ModelResult positive_distance(double distance_m) {
    return flagged(distance_m, distance_m >= 0, "below zero: the longer trial was the faster one");
}

ModelResult hyperbolic_swim_time(const Given& g) {
    const double time_s =
        effort::hyperbolic_time_s(g.positive("distance_m"), swim_speed(g), swim_intercept(g));
    return flagged(time_s, time_s > 0, "the longer trial must take longer");
}

} // namespace

std::vector<Model> pace_models() {
    return {
        {"riegel_time",
         "Time over another distance by a power law.",
         "s",
         {in("T1_s", "s", 210, 13800), in("D1_km", "km", 0.1, 300), in("D2_km", "km", 0.1, 300),
          or_else(in("b", "1", 1.0, 1.2), "1.06")},
         "Riegel 1981, Am Sci 69:285 (efforts of 3.5-230 min)",
         run<riegel_time>},
        {"riegel_distance",
         "Distance covered in another time by the same power law.",
         "km",
         {in("T1_s", "s", 210, 13800), in("D1_km", "km", 0.1, 300), in("T2_s", "s", 210, 13800),
          or_else(in("b", "1", 1.0, 1.2), "1.06")},
         "Riegel 1981, Am Sci 69:285, inverted",
         run<[](const Given& g) {
             return effort::riegel_distance(g.positive("T1_s"), g.positive("D1_km"), g.positive("T2_s"),
                                            g.between("b", 0.5, 2));
         }>},
        {"critical_speed", "Critical speed from two trials.", "m/s", two_trials(), critical,
         run<[](const Given& g) {
             return positive_speed(effort::critical_speed_m_s(g.positive("d1_m"), g.positive("t1_s"),
                                                              g.positive("d2_m"), g.positive("t2_s")));
         }>},
        {"distance_above_critical_speed", "Distance that can be covered above critical speed (D').", "m",
         two_trials(), critical, run<[](const Given& g) {
             return positive_distance(effort::critical_distance_m(g.positive("d1_m"), g.positive("t1_s"),
                                                                  g.positive("d2_m"), g.positive("t2_s")));
         }>},
        {"critical_swim_speed", "Critical swim speed from 200 m and 400 m.", "m/s", two_swims(), wakayoshi,
         run<[](const Given& g) { return positive_speed(swim_speed(g)); }>},
        {"critical_swim_intercept", "Distance intercept of the same line.", "m", two_swims(), wakayoshi,
         run<[](const Given& g) { return positive_distance(swim_intercept(g)); }>},
        {"hyperbolic_swim_time",
         "Swim time by the same line; too fast beyond 20 min.",
         "s",
         {in("distance_m", "m", 200, 1500), in("t200_s", "s", 100, 400), in("t400_s", "s", 210, 900)},
         wakayoshi,
         run<hyperbolic_swim_time>},
        {"log_endurance",
         "Share of maximal aerobic power that can be held for a time.",
         "%",
         {in("E_pct", "%", -10, -4), in("t_min", "min", 7, 240), or_else(in("tMAP_min", "min", 3, 10), "7")},
         "Peronnet & Thibault 1989, J Appl Physiol 67:453, simplified (from memory)",
         run<[](const Given& g) {
             return effort::log_endurance_pct(g.positive("t_min"), g["E_pct"], g.positive("tMAP_min"));
         }>},
        {"heat_factor",
         "Slowing in heat as a factor on time.",
         "1",
         {in("WBGT_C", "C", 7.5, 30), or_else(in("k", "1/C", 0.0035, 0.006), "0.0035")},
         "our line between Ely et al. 2007 and Mantzios et al. 2022",
         run<[](const Given& g) {
             return effort::heat_factor(g.temperature("WBGT_C"), g.not_negative("k"));
         }>},
    };
}

} // namespace tuck::registry
