// The options that fill one entry of the diary.
#pragma once

#include "cli/command.hpp"
#include "io/diary_file.hpp"
#include "io/diary_json.hpp"

#include <optional>
#include <string>

namespace tuck::cli {

struct EntryRequest {
    io::OptionTexts texts;
    std::string date, note;
    std::string diary;   // file; empty: none
    std::string marks;   // file of a live session; empty: none
    std::string session; // file of what was asked; empty: none
    bool json = false;
    std::string athlete_file;
    std::optional<std::string> mass, height, level, sex, pace;
};

OptionTable entry_option_table(EntryKind kind, EntryRequest& request);
/// --date, --note, --diary.
OptionTable diary_options(EntryRequest& request);
/// --athlete, --height, --level: who it is, for the energy.
OptionTable person_options(EntryRequest& request);

/// Throws io::InputError with every fault, each under its option. `base`: fields of an earlier entry.
DiaryEntry entry_of(EntryKind kind, const EntryRequest& request);
DiaryEntry entry_of(EntryKind kind, const EntryRequest& request, const io::Json& base);

/// The athlete of the options; without a file one of this mass and nothing else known.
Athlete athlete_of(const EntryRequest& request, double mass_kg);

/// Today, local: "2027-05-30".
std::string today();

/// Tells on standard error that the last line of the diary was cut short; nothing when it was not.
void tell_state(const io::DiaryFile& file, const std::string& diary);

/// Adds to the diary and tells on standard error what was found torn. Returns the new number.
/// `say` is given that number once the entry is on the disk: what was said is kept, and nothing is kept where
/// nothing can be said.
int save(const std::string& diary, const DiaryEntry& entry, const io::OnceAdded& say = {});

} // namespace tuck::cli
