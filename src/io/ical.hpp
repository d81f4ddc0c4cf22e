// Sessions as a calendar (iCalendar, RFC 5545).
#pragma once

#include <string>
#include <vector>

namespace tuck::io {

/// A reminder, so many minutes before the start.
struct CalendarAlarm {
    int before_min = 0;
    std::string text;
};

/// One event in floating local time: the same clock wherever the athlete is.
struct CalendarEvent {
    std::string date;  // ISO 8601
    int start_min = 0; // minutes after midnight
    int minutes = 60;
    std::string summary, description; // UTF-8; a line break in the description is kept
    std::vector<CalendarAlarm> alarms = {};
};

/// The calendar: CRLF, lines folded at 75 octets, text escaped, UIDs derived from the content, so that
/// reading it in again replaces instead of doubling. Same input, same bytes.
std::string calendar(const std::string& name, const std::vector<CalendarEvent>& events);

} // namespace tuck::io
