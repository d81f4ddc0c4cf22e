// The diary as text for people, at most 80 columns.
#pragma once

#include "tuck/diary.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// An entry in a line, without its note; whether it is corrected or withdrawn is said.
struct DiaryLine {
    int id = 0;
    std::string date, text, note;
};
std::vector<DiaryLine> diary_lines(const std::vector<DiaryEntry>& entries);
/// The same as text.
std::string diary_list_text(const std::vector<DiaryEntry>& entries);

/// What is known about the athlete, how well, and what to test next.
std::string diary_known_text(const Learned& learned);

/// A race in three sentences and a picture, what changes, and what is believed of the athlete after it.
std::string race_text(const RaceRecord& race, const std::vector<std::string>& changes, const Learned& after);

} // namespace tuck::faces
