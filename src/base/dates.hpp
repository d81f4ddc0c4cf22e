// Days of the calendar as text, ISO 8601: "2027-06-13".
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace tuck {

/// The day of the text; nothing where the text has another shape, or the calendar no such day.
std::optional<std::chrono::year_month_day> date_of(std::string_view iso);

std::string date_text(std::chrono::year_month_day day);

/// Days from one date to a later one (negative: earlier); nothing where one is no date.
std::optional<int> days_between(std::string_view from, std::string_view to);

/// So many days earlier. Throws std::bad_optional_access for what is no date.
std::string date_minus(std::string_view date, int days);

} // namespace tuck
