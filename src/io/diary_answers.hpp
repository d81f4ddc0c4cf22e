// What is known, a sweat test and the diary's commands as JSON: "tuck.learned/1", "tuck.sweat-test/1",
// "tuck.diary-answer/1".
#pragma once

#include "tuck/diary.hpp"
#include "tuck/sweat_test.hpp"

#include <string>
#include <vector>

namespace tuck::io {

/// One JSON document each, ending in a newline.
std::string learned_json(const Learned& learned);
/// `line`: the number that it was saved under; 0: it was not.
std::string sweat_test_json(const SweatTest& test, const SweatTestResult& result, int line);
/// Of `tuck diary list`: every line, and whether it counts.
std::string diary_list_json(const std::vector<DiaryEntry>& entries);
/// Of `add` and `correct`: the new line. `changes`: what a race taught, else empty.
std::string saved_json(const char* command, const DiaryEntry& entry,
                       const std::vector<std::string>& changes = {});
/// Of `import` and `mend`: how many lines.
std::string counted_json(const char* command, std::size_t lines, std::size_t of);

} // namespace tuck::io
