#include "paper/text_fit.hpp"

#include "base/utf8.hpp"

#include <algorithm>
#include <locale>
#include <sstream>
#include <stdexcept>

namespace tuck::faces {
namespace {

constexpr char ellipsis[] = "…";

/// The longest beginning of `text`, in whole letters, that fits together with `tail`.
std::string beginning_that_fits(const std::string& text, const std::string& tail, double width,
                                const Measure& measure) {
    std::size_t end = text.size();
    while (end > 0 && measure(text.substr(0, end) + tail) > width)
        do
            --end;
        while (end > 0 && !begins_character(text[end]));
    return text.substr(0, end);
}

/// Adds a word that is wider than a line, in pieces; the last piece is left open for the next word.
void add_wide_word(std::string word, double width, const Measure& measure, std::vector<std::string>& lines) {
    while (measure(word) > width) {
        std::string piece = beginning_that_fits(word, "-", width, measure);
        if (piece.empty())
            throw std::runtime_error("a line is too narrow for one letter");
        const std::size_t own_hyphen = piece.rfind('-');
        if (own_hyphen != std::string::npos && own_hyphen > 0)
            piece.resize(own_hyphen + 1);
        word.erase(0, piece.size());
        lines.push_back(piece.back() == '-' ? piece : piece + "-");
    }
    lines.push_back(word);
}

std::string with_ellipsis(const std::string& text, double width, const Measure& measure) {
    std::string kept = beginning_that_fits(text, ellipsis, width, measure);
    while (!kept.empty() && (kept.back() == ' ' || kept.back() == '-'))
        kept.pop_back();
    return kept + ellipsis;
}

} // namespace

std::vector<std::string> wrap(const std::string& text, double width, const Measure& measure,
                              double first_indent) {
    std::vector<std::string> lines;
    if (first_indent > 0)
        lines.emplace_back();
    std::istringstream words(text);
    words.imbue(std::locale::classic());
    for (std::string word; words >> word;) {
        const double room = lines.size() == 1 ? width - first_indent : width;
        const std::string longer = lines.empty() || lines.back().empty() ? word : lines.back() + " " + word;
        if (!lines.empty() && measure(longer) <= room)
            lines.back() = longer;
        else
            add_wide_word(word, width, measure, lines);
    }
    return lines;
}

std::string cut(const std::string& text, double width, const Measure& measure) {
    return measure(text) <= width ? text : with_ellipsis(text, width, measure);
}

std::vector<std::string> wrap_at_most(std::size_t most, const std::string& text, double width,
                                      const Measure& measure) {
    std::vector<std::string> lines = wrap(text, width, measure);
    if (lines.size() > most) {
        lines.resize(most);
        lines.back() = with_ellipsis(lines.back(), width, measure);
    }
    return lines;
}

double columns(const std::string& text) {
    return static_cast<double>(characters(text));
}

} // namespace tuck::faces
