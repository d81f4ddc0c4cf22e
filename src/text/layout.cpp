#include "text/layout.hpp"

#include "base/utf8.hpp"

#include <algorithm>

namespace tuck::faces {

std::size_t width_of(const std::string& text) {
    return characters(text);
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
            const auto fits = first_characters(word, columns - width_of(line));
            line += fits;
            word.erase(0, fits.size());
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
