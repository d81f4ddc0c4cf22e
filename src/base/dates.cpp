#include "base/dates.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

namespace tuck {

std::optional<std::chrono::year_month_day> date_of(std::string_view iso) {
    bool shaped = iso.size() == 10;
    for (std::size_t i = 0; shaped && i < iso.size(); ++i)
        shaped = i == 4 || i == 7 ? iso[i] == '-' : iso[i] >= '0' && iso[i] <= '9';
    if (!shaped)
        return std::nullopt;
    const auto part = [&](std::size_t at, std::size_t length) {
        unsigned value = 0;
        std::from_chars(iso.data() + at, iso.data() + at + length, value);
        return value;
    };
    const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(part(0, 4))),
                                          std::chrono::month(part(5, 2)), std::chrono::day(part(8, 2))};
    return day.ok() ? std::optional(day) : std::nullopt;
}

std::string date_text(std::chrono::year_month_day day) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                       static_cast<unsigned>(day.day()));
}

std::optional<int> days_between(std::string_view from, std::string_view to) {
    const auto a = date_of(from), b = date_of(to);
    if (!a || !b)
        return std::nullopt;
    return static_cast<int>((std::chrono::sys_days(*b) - std::chrono::sys_days(*a)).count());
}

std::string date_minus(std::string_view date, int days) {
    return date_text(std::chrono::sys_days(date_of(date).value()) - std::chrono::days(days));
}

} // namespace tuck
