#include "outlook/drivers.hpp"

#include <algorithm>

namespace tuck::outlook {

namespace {

constexpr int steps = 24;

struct Input {
    const char* name;
    Column column;
};
constexpr Input inputs[] = {
    {"air temperature on the day", Column::air_c},
    {"humidity on the day", Column::humidity_pct},
    {"pace on the day", Column::pace_z},
    {"your sweat rate", Column::sweat_z},
    {"your sweat sodium", Column::sodium_mg_per_ml},
    {"carbohydrate share at race effort", Column::share},
    {"glycogen at the start", Column::start_muscle_g},
    {"body water at the start", Column::start_water_ml},
    {"blood sodium at the start", Column::start_sodium},
    {"what the gut takes up", Column::gut},
    {"stomach size", Column::comfort_ml},
    {"what kidney and stores hold", Column::defence},
    {"how closely the plan is drunk", Column::faithful},
    {"missed feeds", Column::missed_feeds},
    {"late feeds", Column::late_feeds},
    {"missed stations", Column::missed_stations},
};

/// The step of each day's input, 0..steps-1; all 0 where it does not vary.
std::vector<int> steps_of(const float* input, std::size_t n) {
    const auto [low, high] = std::minmax_element(input, input + n);
    const float width = *high - *low, scale = width > 0 ? static_cast<float>(steps) / width : 0.0f;
    std::vector<int> out(n);
    for (std::size_t i = 0; i < n; ++i)
        out[i] = std::min(steps - 1, static_cast<int>((input[i] - *low) * scale));
    return out;
}

struct Result {
    std::vector<double> off; // from the mean
    double total = 0;        // sum of squares
};

Result result(const DayColumns& days, Column a, Column b = Column::count) {
    Result out;
    double mean = 0;
    for (std::size_t i = 0; i < days.days(); ++i) {
        out.off.push_back(static_cast<double>(days[a][i]) +
                          (b == Column::count ? 0.0 : static_cast<double>(days[b][i])));
        mean += out.off.back();
    }
    mean /= static_cast<double>(days.days());
    for (double& off : out.off) {
        off -= mean;
        out.total += off * off;
    }
    return out;
}

double share_of(const std::vector<int>& step, const Result& y) {
    double sum[steps] = {}, count[steps] = {};
    for (std::size_t i = 0; i < step.size(); ++i) {
        sum[step[i]] += y.off[i];
        count[step[i]] += 1;
    }
    double between = 0, used = -1;
    for (int k = 0; k < steps; ++k)
        if (count[k] > 0) {
            between += sum[k] * sum[k] / count[k];
            used += 1;
        }
    const double left = static_cast<double>(step.size()) - used - 1;
    if (left <= 0 || used <= 0 || y.total <= 0)
        return 0;
    return std::clamp((between - used * (y.total - between) / left) / y.total, 0.0, 1.0);
}

} // namespace

std::vector<OutlookDriver> drivers(const DayColumns& days) {
    const auto mass = result(days, Column::mass_g), sodium = result(days, Column::serum_sodium),
               glycogen = result(days, Column::muscle_g, Column::liver_g);
    std::vector<OutlookDriver> out;
    for (const auto& [name, column] : inputs) {
        const auto step = steps_of(days[column], days.days());
        OutlookDriver driver{name, 0, share_of(step, mass), share_of(step, sodium), share_of(step, glycogen)};
        driver.share = (driver.of_mass + driver.of_sodium + driver.of_glycogen) / 3;
        out.push_back(driver);
    }
    std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
    return out;
}

} // namespace tuck::outlook
