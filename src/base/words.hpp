// Words that are nearly right.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace tuck {

/// Insertions, deletions and exchanges of bytes that turn `a` into `b`.
std::size_t edit_distance(const std::string& a, const std::string& b);

/// The word of `known` nearest to `word` (edit distance at most a third of its length), or empty.
std::string nearest_word(const std::string& word, const std::vector<std::string>& known);

} // namespace tuck
