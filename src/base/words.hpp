// Words that are nearly right.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace tuck {

/// Insertions, deletions and exchanges of bytes that turn `a` into `b`.
std::size_t edit_distance(const std::string& a, const std::string& b);

/// The word of `known` nearest to `word` (edit distance at most a third of its length), or empty. Never one
/// whose unit is another: mass_lb is not mass_kg.
std::string nearest_word(const std::string& word, const std::vector<std::string>& known);

/// The word of `known` that is meant: itself, in other case, with blanks for hyphens, or by another name of
/// the trade
/// ("olympic", "soy"). Empty: none.
std::string meant_word(const std::string& word, const std::vector<std::string>& known);

/// What may be meant, for the end of a fault: the words that `word` is a part of, else the nearest one:
/// "; did you mean \"banana_ripe\"?", "; which one: gel_25, gel_large?". Empty: nothing is near.
std::string hint_for(const std::string& word, const std::vector<std::string>& known);

} // namespace tuck
