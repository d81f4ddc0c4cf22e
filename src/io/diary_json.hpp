// Entries of the diary as JSON, one object a line, and from the options of a command.
#pragma once

#include "io/json_reader.hpp"
#include "tuck/diary.hpp"

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace tuck::io {

inline constexpr char diary_schema[] = "tuck.diary/1";

/// One option of `tuck sweat-test` or `tuck diary add`, and the key that it fills.
struct EntryOption {
    const char *option, *help;
    std::string key;
    bool takes_no_value = false; // "--indoors" alone means yes
    std::function<Json(const std::string&)> read;
};
std::vector<EntryOption> entry_options(EntryKind kind);

/// What was typed, by option.
using OptionTexts = std::map<std::string, std::string>;

/// The options laid over `base` (the fields of an earlier entry, or nothing). An option that cannot be read
/// is a fault, and its key stays as it was.
Json laid_over(EntryKind kind, const OptionTexts& texts, Json base, std::vector<Fault>& faults);

/// Checks and reads one entry. Faults are named by option where one fills the key, else "file: place/key".
DiaryEntry entry_from(const Json& json, const std::string& file, const std::string& place = "");

/// The entry as one JSON object with every field that was given.
Json json_of(const DiaryEntry& entry);

/// "sweat_test" and the others, for choices.
const std::vector<std::pair<std::string, EntryKind>>& kind_words();

/// The entry's fields side by side, for a table: key and text. Symptoms become bike_nausea ...
std::vector<std::pair<std::string, std::string>> flat_fields(const DiaryEntry& entry);

} // namespace tuck::io
