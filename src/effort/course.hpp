// A bike course in few words: distance, climbing and wind, and how long it takes at a power.
#pragma once

#include "effort/power.hpp"

namespace tuck::effort {

struct Course {
    double distance_m = 0;
    double ascent_m = 0; // climbed and descended again, on slopes of 5 % (steeper where they do not fit)
    double wind_m_s = 0; // against the rider on one half, behind on the other
};

/// Time over the course at constant power, s. Descents are capped at 15 m/s (54 km/h, our choice).
double course_time_s(const Course& course, Ride ride, double power_w);

/// Power, W, with which the course takes this time (0 where it would coast even faster), to 0.01 W.
double course_power_w(const Course& course, const Ride& ride, double time_s);

} // namespace tuck::effort
