// Text as UTF-8: what is a letter, what may be shown.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace tuck {

/// False for the bytes that go on a character, after its first.
inline bool begins_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xc0u) != 0x80u;
}

/// Its characters. Throws std::invalid_argument, "not UTF-8 at byte 3".
std::vector<char32_t> code_points(std::string_view text);

/// How many characters (code points); of bytes that are not UTF-8 each counts as one.
std::size_t characters(std::string_view text);

/// The beginning of a text, at most so many characters of it, never half of one.
std::string first_characters(std::string_view text, std::size_t most);

/// Without the blanks around it.
std::string trimmed(std::string_view text, std::string_view blanks = " \t");

/// True for UTF-8 without control characters, line separators and signs that turn the direction of writing
/// (U+202A to U+202E, U+2066 to U+2069): these make a name look like another.
bool is_plain_text(std::string_view text);

/// The text as it may go to a terminal in one line: shown, and cut after a thousand letters.
std::string told_line(std::string_view text);

/// The text as it may go to a terminal: what is_plain_text refuses stands there as "\x1b" or "\u202e".
std::string shown(std::string_view text);

} // namespace tuck
