// Recent results: scaled to the distance, weighed against each other.
#pragma once

#include "effort/estimate.hpp"

#include <optional>

namespace tuck::effort {

/// Time over another distance by the power law. Exponents: run 1.06 (Riegel 1981) to the half marathon, 1.11
/// beyond (Vickers 2016; Blythe & Kiraly 2016); swim 1.03 and bike 1.05 (Riegel's, from memory).
double scaled_time_s(Sport sport, double time_s, double from_m, double to_m);

/// One SD of a log time that one result foretells: 0.03 for a result at the distance, growing to 0.07 at the
/// step from 10 km to the marathon (Vickers 2016; Smyth 2020), and by 0.04 a year (square root of age:
/// fitness drifts, our choice).
double result_log_sd(double from_m, double to_m, double age_days);

/// The results of a sport over a distance, weighed by 1 / SD^2: newer and nearer ones count more. Results
/// that disagree by more than their SDs widen the spread (Birge's ratio, from memory); the day's form, 2 %,
/// stays. Age counts to the race's date, else to the newest result; an undated result counts as half a year
/// old. Empty where there is no result.
std::optional<Estimate> from_results(const Athlete& athlete, const Event& event, Sport sport,
                                     double distance_m);

} // namespace tuck::effort
