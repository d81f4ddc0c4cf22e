#include "ask/odd.hpp"

#include <cmath>
#include <fmt/format.h>

namespace tuck::ask {

namespace {

// Our choice: below these one walks, or floats.
constexpr double slow_bike_km_h = 8, slow_run_km_h = 3, slow_swim_km_h = 0.7;
// Our choice: who weighs so much in kilograms is rare on a start line, and in pounds weighs 57 kg and more.
constexpr double like_pounds = 125, kg_per_lb = 0.45359237;

double slow_km_h(LegKind leg) {
    return leg == LegKind::bike ? slow_bike_km_h : leg == LegKind::run ? slow_run_km_h : slow_swim_km_h;
}

/// As a person writes kilograms; 330 lb are 149.685.
bool is_written_in_kg(double mass_kg) {
    return std::abs(10 * mass_kg - std::round(10 * mass_kg)) < 1e-6;
}

} // namespace

std::vector<std::string> odd_notes(const Athlete& athlete, const Event& event) {
    std::vector<std::string> notes;
    if (athlete.mass_kg >= like_pounds && is_written_in_kg(athlete.mass_kg))
        notes.push_back(fmt::format("odd_mass: a body of {0:g} kg; if pounds were meant, that is {1:.0f} kg: "
                                    "write {0:g}lb",
                                    athlete.mass_kg, athlete.mass_kg * kg_per_lb));
    for (const auto& leg : event.legs) {
        if (!leg.time_s || leg.distance_m <= 0 || is_transition(leg.kind))
            continue;
        const double km_h = 3.6 * leg.distance_m / *leg.time_s;
        if (km_h < slow_km_h(leg.kind))
            notes.push_back(
                fmt::format("odd_time: {:.0f} min for {:g} km is {:.1f} km/h on the {}; if that is a "
                            "slip, mend the time",
                            *leg.time_s / 60, leg.distance_m / 1000, km_h, to_string(leg.kind)));
    }
    return notes;
}

std::string past_note(const Event& event, const std::string& today) {
    if (!event.date || *event.date >= today)
        return {};
    return fmt::format("odd_date: {} is past; the plan is as for that day", *event.date);
}

} // namespace tuck::ask
