// A page of plain text, 80 columns.
#pragma once

#include "text/layout.hpp"

#include <string>

namespace tuck::faces {

class TextPage {
public:
    void line(const std::string& text) { out_ += text + "\n"; }
    void head(const std::string& text) { line((out_.empty() ? "" : "\n") + text); }
    /// Wrapped; the first line begins with `first`.
    void item(const std::string& first, const std::string& text) {
        for (const auto& row : wrap(text, 80, first))
            line(row);
    }
    template <typename List>
    void list(const std::string& heading, const List& texts) {
        if (texts.empty())
            return;
        head(heading);
        for (const auto& text : texts)
            item("  - ", text);
    }
    std::string text() const { return out_; }

private:
    std::string out_;
};

} // namespace tuck::faces
