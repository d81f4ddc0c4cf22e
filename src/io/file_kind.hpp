// Files taken for what they are, by their first bytes.
#pragma once

#include <string>
#include <string_view>

namespace tuck::io {

/// "a PDF", "a GPX course or other XML", "JSON", "a workbook of a spreadsheet" ...; empty: plain text, or not
/// known.
std::string kind_of_bytes(std::string_view beginning);

/// What to do with such a file instead: "this is a GPX course: give it as --bike-course"; empty: nothing to
/// say.
std::string meant_for(std::string_view beginning, const char* wanted);

} // namespace tuck::io
