#include "base/utf8.hpp"

#include <fmt/format.h>
#include <stdexcept>
#include <utf8.h>

namespace tuck {

namespace {

constexpr char32_t no_character = 0xffffffff;

/// The character that `text` begins with, and its bytes are cut off; no_character for a byte that begins
/// none.
char32_t take(std::string_view& text) {
    auto at = text.begin();
    try {
        const char32_t code = utf8::next(at, text.end());
        text.remove_prefix(static_cast<std::size_t>(at - text.begin()));
        return code;
    } catch (const utf8::exception&) {
        text.remove_prefix(1);
        return no_character;
    }
}

bool is_plain(char32_t c) {
    const bool control = c < 0x20 || (c >= 0x7f && c < 0xa0);
    const bool parts_lines = c == 0x2028 || c == 0x2029;
    const bool turns = (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
    return c != no_character && !control && !parts_lines && !turns;
}

} // namespace

std::vector<char32_t> code_points(std::string_view text) {
    std::vector<char32_t> out;
    const std::size_t all = text.size();
    while (!text.empty()) {
        const std::size_t at = all - text.size();
        out.push_back(take(text));
        if (out.back() == no_character)
            throw std::invalid_argument(fmt::format("not UTF-8 at byte {}", at + 1));
    }
    return out;
}

std::size_t characters(std::string_view text) {
    std::size_t count = 0;
    for (; !text.empty(); ++count)
        take(text);
    return count;
}

std::string first_characters(std::string_view text, std::size_t most) {
    std::string_view rest = text;
    for (std::size_t i = 0; i < most && !rest.empty(); ++i)
        take(rest);
    return std::string(text.substr(0, text.size() - rest.size()));
}

bool is_plain_text(std::string_view text) {
    while (!text.empty())
        if (!is_plain(take(text)))
            return false;
    return true;
}

std::string told_line(std::string_view text) {
    constexpr std::size_t most = 1000;
    auto line = shown(text);
    return characters(line) <= most ? line : first_characters(line, most) + " ...";
}

std::string shown(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::string_view before = text;
        const char32_t c = take(text);
        const auto bytes = before.substr(0, before.size() - text.size());
        if (is_plain(c))
            out += bytes;
        else if (c == no_character || c < 0x100)
            out += fmt::format("\\x{:02x}", c == no_character ? static_cast<unsigned char>(bytes[0])
                                                              : static_cast<unsigned>(c));
        else
            out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    }
    return out;
}

std::string trimmed(std::string_view text, std::string_view blanks) {
    const auto first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos)
        return {};
    return std::string(text.substr(first, text.find_last_not_of(blanks) - first + 1));
}

} // namespace tuck
