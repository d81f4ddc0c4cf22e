// Text in columns: wrapping and widths in characters, not bytes.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace tuck::faces {

/// Characters of UTF-8 text (every code point counts one).
std::size_t width_of(const std::string& text);

/// `text` broken at spaces into lines of at most `columns` characters; the first begins with `first`, the
/// others with as many spaces. A longer word is cut.
std::vector<std::string> wrap(const std::string& text, std::size_t columns, const std::string& first = "");

/// Padded on the right (or on the left) to `columns` characters.
std::string padded(const std::string& text, std::size_t columns, bool right = false);

} // namespace tuck::faces
