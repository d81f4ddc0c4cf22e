// The road-cycling power balance, term by term, and its inverse.
#include "effort/power.hpp"
#include "effort/power_terms.hpp"
#include "models/entry.hpp"

namespace tuck::registry {
namespace {

constexpr char martin[] = "Martin et al. 1998, J Appl Biomech 14:276";

ModelInput speed_input() {
    return in("Vg_m_s", "m/s", 0, 25);
}
ModelInput mass_input() {
    return in("mass_kg", "kg", 40, 150);
}
ModelInput grade_input() {
    return or_else(in("grade", "1", -0.25, 0.25), "0");
}

std::vector<ModelInput> ride_inputs(ModelInput first) {
    return {std::move(first),
            mass_input(),
            or_else(in("CdA_m2", "m2", 0.15, 0.6), "0.35"),
            or_else(in("Crr", "1", 0.002, 0.01), "0.005"),
            grade_input(),
            or_else(in("headwind_m_s", "m/s", -12, 12), "0"),
            or_else(in("rho_kg_m3", "kg/m3", 0.8, 1.4), "1.2"),
            or_else(in("efficiency", "1", 0.95, 0.99), "0.976")};
}

effort::Ride ride(const Given& g) {
    effort::Ride r;
    r.mass_kg = g.positive("mass_kg");
    r.cda_m2 = g.not_negative("CdA_m2");
    r.crr = g.not_negative("Crr");
    r.grade = g.between("grade", -1, 1);
    r.wind_m_s = g.between("headwind_m_s", -60, 60);
    r.air_density = g.positive("rho_kg_m3");
    r.drive_efficiency = g.between("efficiency", 0.5, 1);
    return r;
}

ModelResult ride_speed(const Given& g) {
    const double speed = effort::ride_speed_m_s(ride(g), g.not_negative("power_w"));
    return flagged(speed, speed < 25, "faster than a rider should let it run");
}

double ride_time(const Given& g) {
    return g.positive("distance_m") / effort::ride_speed_m_s(ride(g), g.not_negative("power_w"));
}

std::vector<ModelInput> ride_time_inputs() {
    std::vector<ModelInput> inputs = ride_inputs(in("power_w", "W", 50, 500));
    inputs.push_back(in("distance_m", "m", 100, 300000));
    return inputs;
}

std::vector<ModelInput> wind_inputs() {
    return {speed_input(), in("wind_m_s", "m/s", 0, 15), in("wind_from_deg", "deg", 0, 360),
            in("travel_deg", "deg", 0, 360)};
}

std::vector<Model> terms() {
    return {
        {"air_speed_along_road", "Air speed met along the direction of travel.", "m/s", wind_inputs(), martin,
         run<[](const Given& g) {
             return effort::air_speed_along_m_s(g.not_negative("Vg_m_s"), g.not_negative("wind_m_s"),
                                                g["wind_from_deg"], g["travel_deg"]);
         }>},
        {"yaw_angle", "Angle between travel and the air met.", "deg", wind_inputs(), martin,
         run<[](const Given& g) {
             return effort::yaw_deg(g.not_negative("Vg_m_s"), g.not_negative("wind_m_s"), g["wind_from_deg"],
                                    g["travel_deg"]);
         }>},
        {"aerodynamic_power",
         "Power against the air.",
         "W",
         {in("rho_kg_m3", "kg/m3", 0.8, 1.4), in("CdA_m2", "m2", 0.15, 0.6),
          or_else(in("Fw_m2", "m2", 0, 0.01), "0.0044"), in("Va_m_s", "m/s", -12, 30), speed_input()},
         martin,
         run<[](const Given& g) {
             return effort::aerodynamic_power_w(g.positive("rho_kg_m3"),
                                                g.not_negative("CdA_m2") + g.not_negative("Fw_m2"),
                                                g["Va_m_s"], g.not_negative("Vg_m_s"));
         }>},
        {"rolling_power",
         "Power against rolling resistance.",
         "W",
         {mass_input(), in("Crr", "1", 0.002, 0.01), grade_input(), speed_input()},
         martin,
         run<[](const Given& g) {
             return effort::rolling_power_w(g.positive("mass_kg"), g.not_negative("Crr"), g["grade"],
                                            g.not_negative("Vg_m_s"));
         }>},
        {"bearing_power",
         "Power lost in the wheel bearings.",
         "W",
         {speed_input()},
         martin,
         run<[](const Given& g) { return effort::bearing_power_w(g.not_negative("Vg_m_s")); }>},
        {"potential_power",
         "Power to climb.",
         "W",
         {mass_input(), in("grade", "1", -0.25, 0.25), speed_input()},
         martin,
         run<[](const Given& g) {
             return effort::potential_power_w(g.positive("mass_kg"), g["grade"], g.not_negative("Vg_m_s"));
         }>},
        {"kinetic_power",
         "Mean power to change speed.",
         "W",
         {mass_input(), or_else(in("inertia_kg_m2", "kg m2", 0.05, 0.3), "0.14"),
          or_else(in("radius_m", "m", 0.25, 0.36), "0.311"), in("Vi_m_s", "m/s", 0, 25),
          in("Vf_m_s", "m/s", 0, 25), in("dt_s", "s", 0.1, 3600)},
         martin,
         run<[](const Given& g) {
             return effort::kinetic_power_w(g.positive("mass_kg"), g.not_negative("inertia_kg_m2"),
                                            g.positive("radius_m"), g["Vi_m_s"], g["Vf_m_s"],
                                            g.positive("dt_s"));
         }>},
    };
}

} // namespace

std::vector<Model> ride_models() {
    std::vector<Model> all = terms();
    all.push_back(
        {"ride_power", "Rider's power at a steady speed.", "W", ride_inputs(speed_input()), martin,
         run<[](const Given& g) { return effort::ride_power_w(ride(g), g.not_negative("Vg_m_s")); }>});
    all.push_back({"ride_speed", "Steady speed at a power: the inverse of ride_power.", "m/s",
                   ride_inputs(in("power_w", "W", 50, 500)), martin, run<ride_speed>});
    all.push_back({"ride_time", "Time over a distance at a power in steady conditions.", "s",
                   ride_time_inputs(), martin, run<ride_time>});
    return all;
}

} // namespace tuck::registry
