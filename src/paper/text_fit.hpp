// Breaking and cutting text to a width, whatever the width is measured in.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace tuck::faces {

/// Width of a UTF-8 text in the unit of the caller: millimetres on paper, columns in plain text.
using Measure = std::function<double(const std::string&)>;

/// Lines no wider than `width`, broken at spaces; a word that is too wide by itself is broken inside, with a
/// hyphen. The first line is shorter by `first_indent`, and empty when no word fits beside it. The text must
/// be valid UTF-8. Throws std::runtime_error when not even one letter and a hyphen fit.
std::vector<std::string> wrap(const std::string& text, double width, const Measure& measure,
                              double first_indent = 0);

/// The text itself when it fits into `width`, else its beginning and an ellipsis.
std::string cut(const std::string& text, double width, const Measure& measure);

/// At most `most` lines; the last one is cut with an ellipsis when the text goes on.
std::vector<std::string> wrap_at_most(std::size_t most, const std::string& text, double width,
                                      const Measure& measure);

/// Columns of a plain text: one for each code point.
double columns(const std::string& text);

} // namespace tuck::faces
