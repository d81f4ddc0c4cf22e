// Ten thousand race days in whole-leg sums.
#include "tuck/outlook.hpp"

#include "body/water.hpp"
#include "outlook/draws.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <utility>
#include <vector>

namespace tuck {

namespace {

using namespace outlook;

// Spreads, one SD of the log unless said otherwise.
constexpr double share_sd =
    0.10; // carbohydrate share of energy, absolute: the honest band of carbs by intensity
constexpr double glycogen_sd =
    0.20; // starting stores (Goforth 1997: SD of muscle glycogen 30-40 %, liver steadier)
constexpr double sodium_cv = 0.35;        // sweat sodium without a test (Barnes 2019, Baker 2016: 29-54 %)
constexpr double sodium_cv_tested = 0.12; // repeats 5-16 %, Baker 2017, from memory
constexpr double gut_sd = 0.25;           // of stomach and gut limits between people, our choice
constexpr double missed_feed = 0.07; // station misses 3-10 %, dropped and forgotten food, common practice
constexpr double start_sodium = 140, start_sodium_sd = 2; // mmol/L
constexpr double gut_fluid_ml_per_h = 1000;               // intestinal uptake 0.8-1.2 L/h, coaching figures
constexpr double gut_carb_g_per_h = 90; // what mixed sugars are absorbed at, Jeukendrup 2014
constexpr double sweat_potassium_mmol_per_l = 5;
constexpr double not_sweat_g_per_kcal = 0.20; // Cheuvront & Montain 2017
// A slow day is also a cooler effort: sweat over the race grows with time to this power (our choice).
constexpr double sweat_time_power = 0.3;

enum Variable : std::uint64_t { time_v, sweat_v, sodium_v, share_v, glycogen_v, gut_v, serum_v, feed_v };

/// Sums over the race at the median duration.
struct Sums {
    double sweat_ml = 0, energy_kcal = 0;
    std::vector<std::pair<double, double>> legs; // kcal and share of each leg
    double busiest_fluid_ml = 0, busiest_carb_g = 0;

    double carb_used_g(double share_shift) const {
        double grams = 0;
        for (const auto& [kcal, share] : legs)
            grams += kcal * std::clamp(share + share_shift, 0.05, 1.0) / 4;
        return grams;
    }
};

Sums sums_of(const Effort& effort, const Body& body, const Schedule& schedule) {
    Sums sums;
    std::vector<double> starts;
    double start = 0;
    for (size_t i = 0; i < effort.legs.size(); ++i) {
        const double hours = effort.legs[i].time.p50_s / 3600;
        sums.sweat_ml += body.legs[i].sweat_ml_per_h * hours;
        sums.energy_kcal += body.legs[i].energy_kcal_per_h * hours;
        sums.legs.push_back({body.legs[i].energy_kcal_per_h * hours, body.legs[i].carb_share});
        starts.push_back(start);
        start += effort.legs[i].time.p50_s;
    }
    for (const auto& a : schedule.feeds) {
        const double from = starts[static_cast<size_t>(a.leg_index)] + a.at_s;
        double fluid = 0, carb = 0;
        for (const auto& b : schedule.feeds) {
            const double at = starts[static_cast<size_t>(b.leg_index)] + b.at_s;
            if (at >= from && at < from + 3600) {
                fluid += b.fluid_ml;
                carb += b.carb_g;
            }
        }
        sums.busiest_fluid_ml = std::max(sums.busiest_fluid_ml, fluid);
        sums.busiest_carb_g = std::max(sums.busiest_carb_g, carb);
    }
    return sums;
}

struct Eaten {
    double fluid_ml = 0, carb_g = 0, sodium_mg = 0;
};

/// What is really taken on a day that takes `stretch` times the median: bike feeds go on by the clock while
/// stock lasts (to p90), run feeds stay at their kilometres; some are missed.
Eaten eaten_on(const Schedule& schedule, const Effort& effort, double stretch, std::uint64_t seed,
               std::uint64_t day) {
    Eaten eaten;
    std::uint64_t draw = feed_v;
    for (const auto& feed : schedule.feeds) {
        if (uniform(seed, day, draw++) < missed_feed)
            continue;
        const auto& time = effort.legs[static_cast<size_t>(feed.leg_index)].time;
        if (feed.leg == LegKind::bike && feed.at_s > time.p50_s * stretch)
            continue;
        const double more =
            feed.leg == LegKind::bike ? std::clamp(stretch, 1.0, time.p90_s / time.p50_s) : 1.0;
        eaten.fluid_ml += feed.fluid_ml * more;
        eaten.carb_g += feed.carb_g * more;
        eaten.sodium_mg += feed.sodium_mg * more;
    }
    return eaten;
}

struct Day {
    double mass_change_pct, water_change_pct, serum_sodium, glycogen_left_g;
    bool stomach_full;
};

class Simulator {
public:
    Simulator(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
              const Schedule& schedule)
        : athlete_(athlete), event_(event), effort_(effort), body_(body), schedule_(schedule),
          sums_(sums_of(effort, body, schedule)) {
        const double cv = body.sodium_measured ? sodium_cv_tested : sodium_cv;
        sodium_log_sd_ = body.sodium_log_sd > 0 ? body.sodium_log_sd : std::sqrt(std::log(1 + cv * cv));
    }

    Day day(std::uint64_t n) const {
        const auto z = [this, n](Variable v) { return normal(event_.seed, n, v); };
        const double stretch = std::exp(effort_.total_log_sd * z(time_v));
        const Eaten eaten = eaten_on(schedule_, effort_, stretch, event_.seed, n);
        const double sweater = z(sweat_v);
        const double sweat_sd = sweater > 0 ? body_.sweat_log_sd_up : body_.sweat_log_sd;
        const double sweat_l =
            sums_.sweat_ml / 1000 * std::exp(sweat_sd * sweater) * std::pow(stretch, sweat_time_power);
        const double sodium_mmol_l =
            body_.sweat_sodium_mg_per_l / body::mg_per_mmol_sodium * std::exp(sodium_log_sd_ * z(sodium_v));
        const double water_l = eaten.fluid_ml / 1000 - sweat_l;
        const double mass_kg =
            water_l + eaten.carb_g / 1000 - not_sweat_g_per_kcal * sums_.energy_kcal / 1000;
        Day out{};
        out.mass_change_pct = 100 * mass_kg / athlete_.mass_kg;
        out.water_change_pct = 100 * water_l / athlete_.mass_kg;
        const double na_k = eaten.sodium_mg / body::mg_per_mmol_sodium -
                            sweat_l * (sodium_mmol_l + sweat_potassium_mmol_per_l);
        out.serum_sodium = body::serum_sodium_mmol_per_l(start_sodium + start_sodium_sd * z(serum_v),
                                                         body_.total_body_water_l, na_k, water_l);
        const double gut = std::exp(gut_sd * z(gut_v));
        const double absorbed =
            std::min(eaten.carb_g, gut_carb_g_per_h * gut * effort_.total.p50_s * stretch / 3600);
        out.glycogen_left_g = body_.glycogen_start_g * std::exp(glycogen_sd * z(glycogen_v)) -
                              sums_.carb_used_g(share_sd * z(share_v)) + absorbed;
        out.stomach_full = sums_.busiest_fluid_ml > gut_fluid_ml_per_h * gut ||
                           sums_.busiest_carb_g > gut_carb_g_per_h * gut;
        return out;
    }

private:
    const Athlete& athlete_;
    const Event& event_;
    const Effort& effort_;
    const Body& body_;
    const Schedule& schedule_;
    Sums sums_;
    double sodium_log_sd_ = 0;
};

Percentiles percentiles_of(std::vector<double>& values) {
    const auto at = [&values](double p) {
        const auto nth =
            values.begin() + static_cast<std::ptrdiff_t>(p * static_cast<double>(values.size() - 1));
        std::nth_element(values.begin(), nth, values.end());
        return *nth;
    };
    return {at(0.05), at(0.50), at(0.95)};
}

std::string chance_text(double chance) {
    return chance < 0.005   ? "under 1 in 200"
           : chance > 0.995 ? "almost every day"
                            : fmt::format("{:.0f} in 100", 100 * chance);
}

std::string sentence_of(const PlanOutlook& outlook, const Athlete& athlete) {
    const bool hide = athlete.health.past_eating_disorder;
    const std::string sodium =
        fmt::format("blood sodium near {:.0f} mmol/L", outlook.serum_sodium_mmol_per_l.p50);
    const std::string gain =
        fmt::format("more water in the body than at the start: {}", chance_text(outlook.water_gain));
    if (hide)
        return fmt::format("With only what is planned: {}; {}.", sodium, gain);
    return fmt::format("With only what is planned, probably {:.1f} % lighter at the finish ({:.1f} to {:.1f} "
                       "%), {}; {}.",
                       std::max(0.0, -outlook.mass_change_pct.p50),
                       std::max(0.0, -outlook.mass_change_pct.p95),
                       std::max(0.0, -outlook.mass_change_pct.p05), sodium, gain);
}

} // namespace

PlanOutlook look_ahead(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                       const Schedule& schedule) {
    PlanOutlook out;
    out.days = event.days;
    if (event.days <= 0)
        return out;
    const Simulator simulator(athlete, event, effort, body, schedule);
    const auto n = static_cast<size_t>(event.days);
    std::vector<double> mass, sodium, glycogen;
    mass.reserve(n);
    sodium.reserve(n);
    glycogen.reserve(n);
    for (size_t i = 0; i < n; ++i) {
        const Day day = simulator.day(i);
        mass.push_back(day.mass_change_pct);
        sodium.push_back(day.serum_sodium);
        glycogen.push_back(std::max(0.0, day.glycogen_left_g));
        out.mass_gain += day.mass_change_pct > 0;
        out.water_gain += day.water_change_pct > 0;
        out.water_loss_over_2pct += day.water_change_pct < -2;
        out.water_loss_over_4pct += day.water_change_pct < -4;
        out.low_sodium += day.serum_sodium < 135;
        out.low_sodium_by_drinking += day.serum_sodium < 135 && day.water_change_pct > 0;
        out.glycogen_gone += day.glycogen_left_g < 0;
        out.stomach_full += day.stomach_full;
    }
    for (double* count :
         {&out.mass_gain, &out.water_gain, &out.water_loss_over_2pct, &out.water_loss_over_4pct,
          &out.low_sodium, &out.low_sodium_by_drinking, &out.glycogen_gone, &out.stomach_full})
        *count /= event.days; // counted as whole numbers, so that the sum is exact
    out.mass_change_pct = percentiles_of(mass);
    out.serum_sodium_mmol_per_l = percentiles_of(sodium);
    out.glycogen_left_g = percentiles_of(glycogen);
    out.sentence = sentence_of(out, athlete);
    return out;
}

} // namespace tuck
