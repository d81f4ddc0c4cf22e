#include "diary/dates.hpp"

#include <charconv>
#include <chrono>
#include <fmt/format.h>

namespace tuck::diary {

namespace {

std::chrono::sys_days day_of(const std::string& date) {
    const auto part = [&](std::size_t at, std::size_t length) {
        int value = 0;
        std::from_chars(date.data() + at, date.data() + at + length, value);
        return value;
    };
    using namespace std::chrono;
    return sys_days(year(part(0, 4)) / month(static_cast<unsigned>(part(5, 2))) /
                    day(static_cast<unsigned>(part(8, 2))));
}

} // namespace

int days_between(const std::string& from, const std::string& to) {
    return static_cast<int>((day_of(to) - day_of(from)).count());
}

std::string date_minus(const std::string& date, int days) {
    const std::chrono::year_month_day out(day_of(date) - std::chrono::days(days));
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(out.year()), static_cast<unsigned>(out.month()),
                       static_cast<unsigned>(out.day()));
}

} // namespace tuck::diary
