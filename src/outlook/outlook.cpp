// Ten thousand race days: run, counted, told.
#include "tuck/outlook.hpp"

#include "base/clock.hpp"
#include "outlook/drivers.hpp"
#include "outlook/engine.hpp"
#include "outlook/order.hpp"
#include "outlook/tell.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tuck {

namespace {

using namespace outlook;

constexpr double low_sodium_mmol_per_l = figure("day.low_sodium_mmol_per_l");
// Exhausted at 75 % of VO2max with 7 +- 4 mmol/kg (SE) left of 182, an ordinary store being 531 (Spencer
// 1992): a tenth of the ordinary store is as good as gone (our choice).
constexpr double gone_share = figure("day.gone_share");
constexpr double least_telling = figure("day.least_telling");

const std::vector<double> three{0.05, 0.50, 0.95};

std::vector<std::size_t> ranks(const std::vector<double>& p, std::size_t n) {
    std::vector<std::size_t> out;
    for (const double each : p)
        out.push_back(rank_of(each, n));
    return out;
}

/// Percentiles of what the days hold, times `scale`.
class Summary {
public:
    explicit Summary(std::size_t days) : days_(days), three_(ranks(three, days)) {}

    Percentiles of(const float* values, double scale) {
        picker_.pick(values, days_, three_, found_);
        return {at(0, scale), at(1, scale), at(2, scale)};
    }
    /// Half the distance between the values one binomial standard error of the rank below and above.
    Percentiles error(const float* values, double scale) {
        Percentiles out;
        for (auto [p, to] : {std::pair{0.05, &out.p05}, {0.50, &out.p50}, {0.95, &out.p95}}) {
            const double se = std::sqrt(p * (1 - p) / static_cast<double>(days_));
            picker_.pick(values, days_, ranks({p - se, p + se}, days_), found_);
            *to = std::abs(at(1, scale) - at(0, scale)) / 2;
        }
        return out;
    }

private:
    double at(std::size_t i, double scale) const { return static_cast<double>(found_[i]) * scale + 0.0; }
    std::size_t days_;
    std::vector<std::size_t> three_;
    Picker picker_;
    std::vector<float> found_;
};

std::vector<float> sum_of(const DayColumns& days, Column a, Column b) {
    std::vector<float> out(days.days());
    for (std::size_t i = 0; i < out.size(); ++i)
        out[i] = days[a][i] + days[b][i];
    return out;
}

void add_percentiles(const DayColumns& days, double mass_g, Summary& summary, PlanOutlook& out) {
    const auto both = [&](const float* values, double scale, Percentiles& p, Percentiles& error) {
        p = summary.of(values, scale);
        error = summary.error(values, scale);
    };
    const auto glycogen = sum_of(days, Column::muscle_g, Column::liver_g);
    both(days[Column::mass_g], 100 / mass_g, out.mass_change_pct, out.mass_error_pct);
    both(days[Column::water_ml], 100 / mass_g, out.water_change_pct, out.water_error_pct);
    both(days[Column::serum_sodium], 1, out.serum_sodium_mmol_per_l, out.serum_error_mmol_per_l);
    both(glycogen.data(), 1, out.glycogen_left_g, out.glycogen_error_g);
    out.drunk_ml_p50 = summary.of(days[Column::drunk_ml], 1).p50;
}

/// What the plan itself does, kept from the days on which it is drunk whole. Urine is not counted in what is
/// gained: it is the margin (practice).
struct DrunkWhole {
    explicit DrunkWhole(const DayColumns& days)
        : mass_g(sum_of(days, Column::mass_g, Column::urine_ml)),
          water_ml(sum_of(days, Column::water_ml, Column::urine_ml)),
          serum_sodium(of(days, Column::serum_sodium)), fullest_ml(of(days, Column::fullest_ml)) {}
    static std::vector<float> of(const DayColumns& days, Column column) {
        return {days[column], days[column] + days.days()};
    }
    std::vector<float> mass_g, water_ml, serum_sodium, fullest_ml;
};

/// Counts are whole numbers until the end, so that the sums are exact in any order.
void count(const DayColumns& lived, const DrunkWhole& whole, double mass_g, double gone_g, PlanOutlook& out) {
    const double one_pct_ml = 0.01 * mass_g, two_pct_ml = -0.02 * mass_g, four_pct_ml = -0.04 * mass_g;
    for (std::size_t i = 0; i < lived.days(); ++i) {
        const auto value = [&](Column c) { return static_cast<double>(lived[c][i]); };
        const bool gains = whole.water_ml[i] > 0;
        const bool whole_low = static_cast<double>(whole.serum_sodium[i]) < low_sodium_mmol_per_l;
        out.mass_gain += whole.mass_g[i] > 0;
        out.water_gain += gains;
        out.water_gain_over_1pct += static_cast<double>(whole.water_ml[i]) > one_pct_ml;
        out.water_loss_over_2pct += value(Column::water_ml) < two_pct_ml;
        out.water_loss_over_4pct += value(Column::water_ml) < four_pct_ml;
        out.low_sodium += whole_low || value(Column::serum_sodium) < low_sodium_mmol_per_l;
        out.low_sodium_by_drinking += whole_low && gains;
        out.glycogen_gone += value(Column::muscle_g) + value(Column::liver_g) < gone_g;
        out.stomach_full += whole.fullest_ml[i] > 0;
    }
    for (double* sum : {&out.mass_gain, &out.water_gain, &out.water_gain_over_1pct, &out.water_loss_over_2pct,
                        &out.water_loss_over_4pct, &out.low_sodium, &out.low_sodium_by_drinking,
                        &out.glycogen_gone, &out.stomach_full})
        *sum /= static_cast<double>(lived.days());
}

void add_chances(PlanOutlook& out) {
    const auto add = [&out](const OutlookLimit& limit, double chance, bool of_mass = false) {
        const double n = out.days, kept = (chance * n + 0.5) / (n + 1); // never a certain error of nothing
        out.chances.push_back({limit.code, limit.what, chance, std::sqrt(kept * (1 - kept) / n),
                               limit.caution, limit.refuse, limit.because, of_mass});
    };
    add(much_gain_limit, out.water_gain_over_1pct, true);
    add(low_sodium_limit, out.low_sodium_by_drinking);
    add(salty_limit, out.low_sodium);
    add(stomach_limit, out.stomach_full);
    add(water_loss_limit, out.water_loss_over_4pct, true);
    add(glycogen_limit, out.glycogen_gone);
    add(small_loss_limit, out.water_loss_over_2pct, true);
    add(water_gain_limit, out.water_gain);
    add(mass_gain_limit, out.mass_gain, true);
}

/// Moments at which a limit was nearest, of the days on which it was the nearest.
std::vector<float> moments_of(const DayColumns& days, std::size_t cause) {
    std::vector<float> out;
    for (std::size_t i = 0; i < days.days(); ++i)
        if (days[Column::worst_cause][i] == static_cast<float>(cause))
            out.push_back(days[Column::worst_min][i]);
    return out;
}

/// What tells most is what happens most often; what happens on fewer than one day in ten tells nothing.
void add_worst(const DayColumns& days, const Event& event, PlanOutlook& out) {
    const std::pair<const char*, double> causes[] = {{"water lost", out.water_loss_over_4pct},
                                                     {"a full stomach", out.stomach_full},
                                                     {"low blood sodium", out.low_sodium},
                                                     {"empty stores", out.glycogen_gone}};
    const auto most = std::max_element(std::begin(causes), std::end(causes),
                                       [](const auto& a, const auto& b) { return a.second < b.second; });
    if (most->second < least_telling)
        return;
    out.worst.cause = most->first;
    out.worst.share = most->second;
    const auto moments = moments_of(days, static_cast<std::size_t>(most - causes));
    if (moments.empty())
        return;
    std::vector<float> found;
    Picker().pick(moments.data(), moments.size(), {rank_of(0.5, moments.size())}, found);
    out.worst.at_s = 60 * static_cast<double>(found[0]);
    if (const auto start = own_start_min(event))
        out.worst.clock = hour_of_day_text(static_cast<int>(*start + out.worst.at_s / 60));
}

} // namespace

PlanOutlook look_ahead(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                       const Schedule& schedule) {
    PlanOutlook out;
    out.days = event.days;
    if (event.days <= 0 || body.minutes.size() == 0)
        return out;
    const auto n = static_cast<std::size_t>(event.days);
    const double mass_g = 1000 * athlete.mass_kg;
    Summary summary(n);

    const auto grid = race_grid(athlete, event, effort, body, schedule, Drinking::as_lived);
    DayColumns lived(n); // one set after the other in the same memory
    simulate(race_grid(athlete, event, effort, body, schedule, Drinking::whole), lived, best_target());
    const DrunkWhole whole(lived);
    simulate(grid, lived, best_target(), [&](std::size_t mark, const MarkColumns& at) {
        out.bands.push_back({grid.mark_s[mark], summary.of(at.mass_g, 100 / mass_g),
                             summary.of(at.glycogen_g, 1), summary.of(at.gut_ml, 1)});
    });
    const auto start = sum_of(lived, Column::start_muscle_g, Column::start_liver_g);
    out.bands.insert(out.bands.begin(), {0, {}, summary.of(start.data(), 1), {}});

    add_percentiles(lived, mass_g, summary, out);
    count(lived, whole, mass_g, gone_share * body.glycogen_start_g, out);
    add_chances(out);
    add_worst(lived, event, out);
    out.drivers = drivers(lived);
    out.sentence = sentence_of(out, athlete.health.past_eating_disorder);
    out.assumptions = assumptions_of(event);
    return out;
}

} // namespace tuck
