#include "text/layout.hpp"

#include <algorithm>

namespace tuck::faces {

namespace {

bool starts_character(char c) {
    return (static_cast<unsigned char>(c) & 0xc0u) != 0x80u;
}

/// Bytes of the first `count` characters.
std::size_t bytes_of(const std::string& text, std::size_t count) {
    std::size_t i = 0;
    for (; i < text.size(); ++i)
        if (starts_character(text[i]) && count-- == 0)
            break;
    return i;
}

} // namespace

std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), starts_character));
}

std::vector<std::string> wrap(const std::string& text, std::size_t columns, const std::string& first) {
    const std::string indent(width_of(first), ' ');
    std::vector<std::string> lines;
    std::string line = first;
    bool empty = true;
    const auto flush = [&] {
        lines.push_back(line);
        line = indent;
        empty = true;
    };
    for (std::size_t at = 0; at < text.size();) {
        const auto space = std::min(text.find(' ', at), text.size());
        std::string word = text.substr(at, space - at);
        at = space + 1;
        if (!empty && width_of(line) + 1 + width_of(word) > columns)
            flush();
        while (width_of(line) + width_of(word) > columns && columns > indent.size() + 1) {
            const auto fits = bytes_of(word, columns - width_of(line));
            line += word.substr(0, fits);
            word.erase(0, fits);
            flush();
        }
        line += (empty ? "" : " ") + word;
        empty = false;
    }
    if (!empty || lines.empty())
        lines.push_back(line);
    return lines;
}

std::string padded(const std::string& text, std::size_t columns, bool right) {
    const auto width = width_of(text);
    const std::string fill(columns > width ? columns - width : 0, ' ');
    return right ? fill + text : text + fill;
}

} // namespace tuck::faces
