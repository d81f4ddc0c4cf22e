// What an entry of the diary takes from elsewhere than the line: the plan of the race, the session that was
// asked for.
#pragma once

#include "io/diary_json.hpp"
#include "tuck/ask.hpp"

#include <map>
#include <nlohmann/json.hpp>
#include <string>

namespace tuck::ask {

/// The race as its plan had it, with the times that were taken, as the fields of an entry. `took`: "bike" and
/// the others, seconds. Throws Error for a time that nobody rides or runs.
io::Json race_as_planned(const Asked& asked, const Plan& plan, const std::map<std::string, double>& took);

/// The session of a document of `tuck rehearse --json`, as the fields of an entry. Throws Error.
io::Json session_as_asked(const Document& rehearsal);

/// What is left out of an entry is what was planned: "--taken all" is every feed, and food and drink that are
/// not said are the share of the feeds that was taken. `symptoms_said`: whether a mark of the gut was given.
struct Completed {
    io::Json fields;
    std::vector<std::string> notes; // on what was taken for granted
};
Completed completed(EntryKind kind, io::OptionTexts& texts, io::Json fields);

/// The distance of a sweat test that was run or swum at this pace, as typed: "5:10/km", "1:50/100m". What
/// cannot be read, a ride, and a distance beside it are faults.
void pace_as_distance(const std::string& pace, io::Json& test, std::vector<io::Fault>& faults);

} // namespace tuck::ask
