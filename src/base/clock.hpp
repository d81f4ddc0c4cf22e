// Times as text. Nothing else in the tree turns seconds or minutes into a clock.
#pragma once

#include <string>

namespace tuck {

/// A length of time to the second: "52:30", "1:05:00".
std::string duration_text(double seconds);

/// A length of time to the minute: "0:45", "1:05".
std::string hours_text(double seconds);

/// The hour of the day so many minutes after midnight: "07:30"; the next day begins again at "00:00".
std::string hour_of_day_text(int minutes);

} // namespace tuck
