#include "io/ical.hpp"

#include "base/hash.hpp"
#include "base/utf8.hpp"

#include <fmt/format.h>

namespace tuck::io {

namespace {

constexpr std::size_t longest_octets = 75; // RFC 5545, 3.1, without the line break

/// RFC 5545, 3.3.11.
std::string escaped(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '\\' || c == ';' || c == ',')
            out += '\\';
        out += c == '\n' ? std::string("\\n") : std::string(1, c);
    }
    return out;
}

/// Long lines go on after CRLF and a space; a character of several octets is not broken.
void put(std::string& out, const std::string& line) {
    std::size_t at = 0, room = longest_octets;
    while (line.size() - at > room) {
        std::size_t end = at + room;
        while (!begins_character(line[end]))
            --end;
        out += line.substr(at, end - at) + "\r\n ";
        at = end;
        room = longest_octets - 1; // the space counts
    }
    out += line.substr(at) + "\r\n";
}

std::string basic(const std::string& date) {
    return date.substr(0, 4) + date.substr(5, 2) + date.substr(8, 2);
}

void put_event(std::string& out, const std::string& name, const CalendarEvent& event) {
    put(out, "BEGIN:VEVENT");
    put(out, fmt::format("UID:{:016x}@tuck.invalid", fnv1a_64(name + "|" + event.date)));
    // The stamp has to be there; the day itself stands in for a clock that a pure function has not.
    put(out, fmt::format("DTSTAMP:{}T000000Z", basic(event.date)));
    put(out, fmt::format("DTSTART:{}T{:02}{:02}00", basic(event.date), event.start_min / 60,
                         event.start_min % 60));
    put(out, fmt::format("DURATION:PT{}H{}M", event.minutes / 60, event.minutes % 60));
    put(out, "SUMMARY:" + escaped(event.summary));
    if (!event.description.empty())
        put(out, "DESCRIPTION:" + escaped(event.description));
    for (const auto& alarm : event.alarms) {
        put(out, "BEGIN:VALARM");
        put(out, "ACTION:DISPLAY");
        put(out, fmt::format("TRIGGER:-PT{}M", alarm.before_min));
        put(out, "DESCRIPTION:" + escaped(alarm.text));
        put(out, "END:VALARM");
    }
    put(out, "END:VEVENT");
}

} // namespace

std::string calendar(const std::string& name, const std::vector<CalendarEvent>& events) {
    std::string out;
    put(out, "BEGIN:VCALENDAR");
    put(out, "VERSION:2.0");
    put(out, "PRODID:-//tuck//rehearsals//EN");
    for (const auto& event : events)
        put_event(out, name, event);
    put(out, "END:VCALENDAR");
    return out;
}

} // namespace tuck::io
