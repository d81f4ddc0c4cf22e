// Text inside HTML and SVG.
#pragma once

#include <string>

namespace tuck::faces {

/// `text` with &, <, > and " written as entities, for element content and quoted attributes.
inline std::string escaped(const std::string& text) {
    std::string out;
    for (const char c : text)
        out += c == '&'   ? "&amp;"
               : c == '<' ? "&lt;"
               : c == '>' ? "&gt;"
               : c == '"' ? "&quot;"
                          : std::string(1, c);
    return out;
}

} // namespace tuck::faces
