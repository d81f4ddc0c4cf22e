#include "base/clock.hpp"

#include <cmath>
#include <fmt/format.h>

namespace tuck {

std::string duration_text(double seconds) {
    const long s = std::lround(seconds);
    return s >= 3600 ? fmt::format("{}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60)
                     : fmt::format("{}:{:02}", s / 60, s % 60);
}

std::string hours_text(double seconds) {
    const long minutes = std::lround(seconds / 60);
    return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

std::string hour_of_day_text(int minutes) {
    return fmt::format("{:02}:{:02}", minutes / 60 % 24, minutes % 60);
}

} // namespace tuck
