// The diary on the disk: JSON Lines that only grow.
#pragma once

#include "io/diary_json.hpp"
#include "io/line_log.hpp"
#include "tuck/diary.hpp"
#include "tuck/document.hpp"

#include <functional>
#include <string>
#include <vector>

namespace tuck::io {

struct DiaryFile {
    std::vector<DiaryEntry> entries;
    std::vector<Fault> bad; // of lines that cannot be read; these are left out of the entries
    std::size_t bad_lines = 0;
    std::string torn; // a last line that a crash cut short; it was never acknowledged
};

/// Every line of the diary that can be read. A missing file is an empty diary. Throws InputError for what
/// cannot be opened, and where there are lines and not one can be read.
DiaryFile read_diary(const std::string& path);
/// The same, for a text, or a file that must exist.
DiaryFile read_existing_diary(const Document& diary);

/// What the user should know of a diary that is not whole: a line each, fit for a terminal.
std::vector<std::string> notes_on(const DiaryFile& file, const std::string& path);

/// Where mend_diary puts what cannot be read.
std::string set_aside_name(const std::string& path);

/// Moves every line that cannot be read to that file, byte for byte. Returns how many. Throws InputError.
std::size_t mend_diary(const std::string& path);

struct DiaryAdded {
    int last_id = 0;           // of the last entry written
    std::string torn_moved_to; // see Appended
};

/// Told the id of the last entry once all are on the disk; what it throws takes them back.
using OnceAdded = std::function<void(int last_id)>;

/// Adds entries with the next ids, in one step. A negative `corrects` names an entry of the same batch: -1
/// the first. Throws InputError; nothing is acknowledged then.
DiaryAdded add_to_diary(const std::string& path, const std::vector<DiaryEntry>& entries,
                        const OnceAdded& told = {});
DiaryAdded add_to_diary(const std::string& path, const std::vector<DiaryEntry>& entries, FileCalls& calls,
                        const OnceAdded& told = {});

/// Entries of `from` that `into` does not hold yet, ready for add_to_diary: corrections name what they
/// correct by its place in `into` or in the batch.
std::vector<DiaryEntry> unknown_entries(const std::vector<DiaryEntry>& from,
                                        const std::vector<DiaryEntry>& into);

/// The table of all entries (RFC 4180), one column for every field that any of them has.
std::string diary_csv(const std::vector<DiaryEntry>& entries);

} // namespace tuck::io
