#include "effort/water_rules.hpp"

#include <fmt/format.h>
#include <limits>

namespace tuck::effort {

namespace {

constexpr char edition[] =
    "international age-group rules, the table as quoted in 2026 by a secondary source; the "
    "event's own rules come first";

} // namespace

double wetsuit_limit_c(double swim_m) {
    return swim_m <= 1500 ? 22 : 24.6;
}

double longest_swim_m(double water_c) {
    return water_c < 12   ? 0
           : water_c < 13 ? 750
           : water_c < 14 ? 1500
           : water_c < 15 ? 3000
                          : std::numeric_limits<double>::infinity();
}

double wetsuit_gain(Level level) {
    switch (level) {
    case Level::fast:
        return 0.03;
    case Level::keen:
        return 0.04;
    case Level::beginner:
        return 0.07;
    default:
        return 0.05;
    }
}

std::vector<Warning> water_warnings(double water_c, double swim_m) {
    std::vector<Warning> out;
    const double longest = longest_swim_m(water_c);
    if (longest <= 0)
        out.push_back(
            {"swim_cancelled", Severity::caution,
             fmt::format("Water of {:.1f} C: below 12 C there is no swim ({}). The plan still counts it.",
                         water_c, edition)});
    else if (longest < swim_m)
        out.push_back(
            {"swim_shortened", Severity::caution,
             fmt::format("Water of {:.1f} C: a swim of at most {:.0f} m is allowed ({}). The plan counts "
                         "the whole {:.0f} m.",
                         water_c, longest, edition, swim_m)});
    if (water_c > wetsuit_limit_c(swim_m))
        out.push_back({"wetsuit_forbidden", Severity::note,
                       fmt::format("Water of {:.1f} C: no wetsuit above {:g} C over {:.0f} m ({}).", water_c,
                                   wetsuit_limit_c(swim_m), swim_m, edition)});
    else if (water_c < wetsuit_needed_below_c && longest > 0)
        out.push_back({"wetsuit_needed", Severity::note,
                       fmt::format("Water of {:.1f} C: below {:g} C a wetsuit must be worn ({}).", water_c,
                                   wetsuit_needed_below_c, edition)});
    return out;
}

} // namespace tuck::effort
