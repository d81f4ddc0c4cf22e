#include "plan/sane.hpp"

#include "tuck/error.hpp"

#include <fmt/format.h>
#include <optional>

namespace tuck::plan {

namespace {

class Checker {
public:
    void number(const char* place, double value, double low, double high, const char* unit) {
        if (value >= low && value <= high) // so that NaN is a fault
            return;
        faults_.push_back({"", place, fmt::format("{:g} is out of range", value),
                           fmt::format("{:g} to {:g} {}", low, high, unit)});
    }
    template <class Number>
    void number(const char* place, const std::optional<Number>& value, double low, double high,
                const char* unit) {
        if (value)
            number(place, *value, low, high, unit);
    }
    void fault(const char* place, const char* what) { faults_.push_back({"", place, what}); }
    void done() {
        if (!faults_.empty())
            throw Error(std::move(faults_));
    }

private:
    std::vector<Fault> faults_;
};

} // namespace

void require_sane(const Athlete& athlete, const Event& event) {
    Checker check;
    check.number("athlete.mass_kg", athlete.mass_kg, 25, 250, "kg");
    check.number("athlete.height_m", athlete.height_m, 1, 2.3, "m");
    check.number("athlete.swallow_ml", athlete.swallow_ml, 25, 50, "ml");
    check.number("athlete.rehearsed.carb_g_per_h", athlete.rehearsed.carb_g_per_h, 0, 150, "g/h");
    check.number("weather.temperature_c", event.weather.temperature_c, -20, 50, "C");
    check.number("weather.humidity_pct", event.weather.humidity_pct, 0, 100, "%");
    check.number("days", event.days, 0, 100000, "days");
    if (event.legs.empty())
        check.fault("legs", "is empty; a day has at least one leg");
    for (const auto& leg : event.legs) {
        check.number("legs.distance_m", leg.distance_m, 0, 1e6, "m");
        check.number("legs.time_s", leg.time_s, 1, 1e6, "s");
    }
    check.done();
}

} // namespace tuck::plan
