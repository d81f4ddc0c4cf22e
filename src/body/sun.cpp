#include "body/sun.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace tuck::body {

namespace {

constexpr double step_deg = 15;
constexpr std::size_t heights = 7, angles = 13;
using Factors = std::array<std::array<double, heights>, angles>;

// Tables C1.1; rows by the angle from the front, columns by the sun's height, both in steps of 15 degrees.
constexpr Factors standing_factors{{{.35, .35, .314, .258, .206, .144, .082},
                                    {.342, .342, .31, .252, .2, .14, .082},
                                    {.33, .33, .3, .244, .19, .132, .082},
                                    {.31, .31, .275, .228, .175, .124, .082},
                                    {.283, .283, .251, .208, .16, .114, .082},
                                    {.252, .252, .228, .188, .15, .108, .082},
                                    {.23, .23, .214, .18, .148, .108, .082},
                                    {.242, .242, .222, .18, .153, .112, .082},
                                    {.274, .274, .245, .203, .165, .116, .082},
                                    {.304, .304, .27, .22, .174, .121, .082},
                                    {.328, .328, .29, .234, .183, .125, .082},
                                    {.344, .344, .304, .244, .19, .128, .082},
                                    {.347, .347, .308, .246, .191, .128, .082}}};
constexpr Factors seated_factors{{{.29, .324, .305, .303, .262, .224, .177},
                                  {.292, .328, .294, .288, .268, .227, .177},
                                  {.288, .332, .298, .29, .264, .222, .177},
                                  {.274, .326, .294, .289, .252, .214, .177},
                                  {.254, .308, .28, .276, .241, .202, .177},
                                  {.23, .282, .262, .26, .233, .193, .177},
                                  {.216, .26, .248, .244, .22, .186, .177},
                                  {.234, .258, .236, .227, .208, .18, .177},
                                  {.262, .26, .224, .208, .196, .176, .177},
                                  {.28, .26, .21, .192, .184, .17, .177},
                                  {.298, .256, .194, .174, .168, .168, .177},
                                  {.306, .25, .18, .156, .156, .166, .177},
                                  {.3, .24, .168, .152, .152, .164, .177}}};

constexpr double diffuse_of_direct = 0.2; // where it is not known, the standard's own
constexpr double longwave_absorptance = 0.95;
constexpr double radiant_w_per_m2_k = 6; // radiative coefficient of the standard

double effective_share(Stance posture) {
    return posture == Stance::seated ? 0.696 : 0.725;
}

const Factors& factors_of(Stance posture) {
    return posture == Stance::seated ? seated_factors : standing_factors;
}

struct Place {
    std::size_t below = 0;
    double share = 0; // of the way to the next
};
Place place_in(double deg, std::size_t count) {
    const double at = std::clamp(deg / step_deg, 0.0, static_cast<double>(count - 1));
    const auto below = std::min(static_cast<std::size_t>(at), count - 2);
    return {below, at - static_cast<double>(below)};
}

double between(double a, double b, double share) {
    return a + (b - a) * share;
}

using Means = std::array<double, heights>;

/// Over all headings: the trapezoid through the rows.
Means means_of(const Factors& rows) {
    Means means{};
    for (std::size_t height = 0; height < heights; ++height)
        for (std::size_t i = 0; i < angles; ++i) {
            const double weight = i == 0 || i + 1 == angles ? 0.5 : 1;
            means[height] += weight * rows[i][height] / (angles - 1);
        }
    return means;
}

double mean_factor(Stance posture, double altitude_deg) {
    static const Means standing = means_of(standing_factors), seated = means_of(seated_factors);
    const auto& means = posture == Stance::seated ? seated : standing;
    const Place height = place_in(altitude_deg, heights);
    return between(means[height.below], means[height.below + 1], height.share);
}

double field(Stance posture, double factor, const Sunlight& sun) {
    const double sine = std::sin(sun.altitude_deg * std::numbers::pi / 180);
    const double diffuse = diffuse_of_direct * sun.direct_w_m2;
    const double sky = 0.5 * sun.sky_seen * sun.transmittance;
    return effective_share(posture) *
           (sky * diffuse + factor * sun.transmittance * sun.body_lit * sun.direct_w_m2 +
            sky * (sun.direct_w_m2 * sine + diffuse) * sun.ground_reflectance) *
           sun.absorptance / longwave_absorptance;
}

} // namespace

double projected_area_factor(Stance posture, double altitude_deg, double from_front_deg) {
    const auto& rows = factors_of(posture);
    const Place height = place_in(altitude_deg, heights), angle = place_in(from_front_deg, angles);
    const auto along = [&](std::size_t row) {
        return between(rows[row][height.below], rows[row][height.below + 1], height.share);
    };
    return between(along(angle.below), along(angle.below + 1), angle.share);
}

SolarGain solar_gain(const Sunlight& sun) {
    const double factor = projected_area_factor(sun.posture, sun.altitude_deg, sun.from_front_deg);
    const double gained = field(sun.posture, factor, sun);
    return {gained, gained / (radiant_w_per_m2_k * effective_share(sun.posture))};
}

double absorbed_share_of_sun(Stance posture, double altitude_deg) {
    constexpr double lowest_deg = 5, ground = 0.15;
    Sunlight sun;
    sun.altitude_deg = std::clamp(altitude_deg, lowest_deg, 90.0);
    sun.direct_w_m2 = 1;
    sun.ground_reflectance = ground;
    const double global = std::sin(sun.altitude_deg * std::numbers::pi / 180) + diffuse_of_direct;
    return field(posture, mean_factor(posture, sun.altitude_deg), sun) / global;
}

} // namespace tuck::body
