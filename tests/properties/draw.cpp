#include "properties/draw.hpp"

#include <algorithm>

namespace tuck::properties {

namespace {

/// What is plausible within the legal range, by key; an absent key is plausible throughout.
const std::map<std::string, std::pair<double, double>>& plausible_ranges() {
    static const std::map<std::string, std::pair<double, double>> ranges{
        {"mass_kg", {40, 130}},
        {"height_m", {1.45, 2.02}},
        {"age_y", {12, 80}},
        {"temperature_c", {-10, 45}},
        {"humidity_pct", {10, 100}},
        {"wind_m_s", {0, 12}},
        {"sun_w_m2", {0, 1050}},
        {"water_temperature_c", {8, 31}},
        {"sweat_ml_per_h", {300, 2600}},
        {"sweat_sodium_mmol_per_l", {10, 110}},
        {"carb_g_per_h", {0, 120}},
        {"fluid_ml_per_h", {0, 1300}},
        {"threshold_power_w", {110, 380}},
        {"threshold_run_s_per_km", {190, 430}},
        {"critical_swim_speed_m_s", {0.6, 1.6}},
        {"morning_coffee_mg", {0, 350}},
        {"bike_bottles_ml", {400, 1000}},
        {"bottles_ml", {400, 1000}},
        {"run_flask_ml", {0, 600}},
        {"run_gels", {0, 8}},
        {"ascent_m", {0, 3000}},
        {"latitude", {-60, 70}},
        {"wave_offset_min", {0, 120}},
        {"pen_wait_min", {0, 30}},
        {"miss_chance", {0, 0.5}}};
    return ranges;
}

/// How often an optional field is there, where it is not one time in four.
const std::map<std::string, double>& chances() {
    static const std::map<std::string, double> all{// Drawn where the legs are known (see cases.cpp).
                                                   {"times", 0},
                                                   {"stations", 0},
                                                   {"course_gpx", 0},
                                                   {"course_laps", 0},
                                                   {"laps", 0},
                                                   {"lap_km", 0},
                                                   {"days", 0},
                                                   {"fill", 0.3},
                                                   {"own_lines", 0.04},
                                                   {"time", 0.15},
                                                   {"cutoff", 0.05},
                                                   {"special_needs", 0.1},
                                                   {"hourly", 0.08},
                                                   {"weather", 1},
                                                   {"kit", 0.5},
                                                   {"rehearsed", 0.6},
                                                   {"level", 0.6},
                                                   {"caffeine", 0.4},
                                                   {"serves", 0.7},
                                                   {"form", 0.8},
                                                   {"health", 0.2},
                                                   {"glucose_lowering_medicine", 0.08},
                                                   {"recent_gut_illness", 0.08},
                                                   {"sex", 0.5},
                                                   {"like", 0.3},
                                                   {"avoid", 0.2},
                                                   {"allergy", 0.2},
                                                   {"units", 0.15},
                                                   {"humidity_pct", 0.6},
                                                   {"wind_m_s", 0.6}};
    return all;
}

} // namespace

bool Drawer::wanted(const Field& f) {
    const auto known = chances().find(f.key);
    return draw_.chance(known == chances().end() ? 0.25 : known->second);
}

double Drawer::value(const Field& f, const Range& legal) {
    const double width = legal.high - legal.low;
    if (kind_ == Kind::extreme)
        switch (draw_.below(6)) {
        case 0:
            return legal.low;
        case 1:
            return legal.high;
        case 2:
            return legal.low + 1e-9 * width;
        case 3:
            return legal.high - 1e-9 * width;
        default:
            return draw_.between(legal.low, legal.high);
        }
    const auto known = plausible_ranges().find(f.key);
    const double low =
        known == plausible_ranges().end() ? legal.low : std::max(legal.low, known->second.first);
    const double high =
        known == plausible_ranges().end() ? legal.high : std::min(legal.high, known->second.second);
    const double step = high - low > 20 ? 1 : high - low > 5 ? 0.1 : 0.01; // as a person writes it
    return std::clamp(std::round(draw_.between(low, high) / step) * step, legal.low, legal.high);
}

std::string Drawer::food_word(bool one_food) {
    auto at = pantry_.foods.begin();
    std::advance(at, static_cast<std::ptrdiff_t>(draw_.below(pantry_.foods.size())));
    return one_food || draw_.chance(0.7) ? at->first : at->second.group;
}

void Drawer::own_lines(const Field& f, Event&) {
    static const std::vector<std::string> lines{"bike every 15min: 3 swallows iso",
                                                "bike every 10min: 5 swallows water",
                                                "bike 0:20 0:50: gel_25",
                                                "run each station: 2 cups water",
                                                "run every 2nd station: 1 cup water",
                                                "run km 3 6: gel_caffeine",
                                                "bike every 5min: 5 swallows iso",
                                                "in T2: gel",
                                                "bike every 20' from 0:40: 1/2 bar",
                                                "B1: water"};
    if (!wanted(f))
        return;
    out[f.key] = Json::array();
    for (auto n = 1 + draw_.below(3); n > 0; --n)
        out[f.key].push_back(draw_.pick(lines));
}

void Drawer::results(const Field& f, std::vector<RecentResult>&) {
    if (!wanted(f))
        return;
    out[f.key] = Json::array();
    for (auto n = 1 + draw_.below(kind_ == Kind::plausible ? 3 : io::most_results); n > 0; --n) {
        const auto sport_word = draw_.pick(io::sport_words());
        Drawer one(draw_, kind_, pantry_);
        one.sport = sport_word.second;
        const double longest = io::longest_leg_m(one.sport);
        one.distance_m = kind_ == Kind::extreme ? draw_.scaled(io::shortest_result_m, longest)
                                                : draw_.scaled(longest / 100, longest / 5);
        out[f.key].push_back({{"sport", sport_word.first},
                              {"distance_m", one.distance_m},
                              {"time", text_of(one.believable_s())}});
    }
}

double Drawer::believable_s() {
    const double usual_m_s = sport == Sport::swim ? 1.1 : sport == Sport::bike ? 8 : 3.2;
    const double off = kind_ == Kind::plausible ? 1.5 : 30;
    for (int tries = 0; tries < 50; ++tries) {
        const double s = std::round(distance_m / usual_m_s * draw_.scaled(1 / off, off));
        if (s >= 1 && s <= io::longest_event_s && io::unbelievable(sport, distance_m, s).empty())
            return s;
    }
    return std::clamp(std::round(distance_m / usual_m_s), 1.0, io::longest_event_s);
}

std::string Drawer::text_of(double seconds) {
    const int s = std::max(1, static_cast<int>(seconds));
    return fmt::format("{}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60);
}

} // namespace tuck::properties
