// A line of the plan in words, English where no other language is asked for.
#pragma once

#include "say/words.hpp"
#include "tuck/schedule.hpp"

#include <string>

namespace tuck::say {

/// "0:45" from 2700 s: hours and minutes on the clock of a leg.
std::string clock(double seconds);

/// A kilometre of the road to one decimal: "4", "2.5".
std::string km(double km);

/// "1/2 bar", "3 swallows", "gel" for one of it.
std::string amount(double amount, const std::string& of, Language language = Language::english);

/// One moment as its line counts it: "0:45", "km 4", or "in T1".
std::string moment(const Line& line, const LegMoment& at, Language language = Language::english);

/// Whether the line is said moment by moment, which a rider counts off, and not by a rhythm or a place.
bool has_moments(const Line& line);

/// Whether a drink is called by its bottle, because the rider has several to choose from, and not by what it
/// is.
bool by_bottle(const Line& line, const LineItem& item);

/// "1/2 bar", "3 swallows B1 then B2", "1 cup water".
std::string item(const Line& line, const LineItem& item, Language language = Language::english);

/// "every 15' from 0:30 to 2:00", "each station", "km 4 10", "0:45 1:15".
std::string when(const Line& line, Language language = Language::english);

/// "every 15'", "every 2nd station": the rhythm without its window.
std::string rhythm(const Line& line, Language language = Language::english);

/// "from 0:30", "to 2:00", "from 0:30 to 2:00"; empty where the rhythm lasts the whole leg.
std::string window(const Line& line, Language language = Language::english);

/// "1/2 bar + 3 swallows B1".
std::string what(const Line& line, Language language = Language::english);

/// "3:07 before the descent at km 67; not at 1:00: hands stay on the bar"; empty where all keeps its rhythm.
std::string beside(const Line& line, Language language = Language::english);

/// "1/2 bar + 3 swallows B1 (not at 1:00: hands stay on the bar)".
std::string what_whole(const Line& line, Language language = Language::english);

/// One feed, for a log: "half a bar + 3 swallows B1".
std::string feed(const PlanFeed& feed, Language language = Language::english);

/// The line whole: "every 15': 3 swallows B1 (not at 1:00: hands stay on the bar)".
std::string text(const Line& line, Language language = Language::english);

/// Seconds from moment to moment where they are the same to half a second; 0: not steady, or a single one.
double steady_s(const Line& line);

} // namespace tuck::say
