// The sheet: the day in pictures, what to pack and mix, how sure it is, and why. One leaf, front and
// back, up to a standard race, two beyond; what has no room there stands in the other forms.
#pragma once

#include "paper/paper_size.hpp"
#include "paper/pdf.hpp"
#include "sheet/sheet_content.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

struct SheetOptions {
    Paper paper;
    std::string font_folder;
};

/// The pages as placed elements.
std::vector<pdf::Page> sheet_pages(const SheetContent& content, const SheetOptions& options,
                                   const Fonts& fonts);

/// The PDF. Same content, same bytes. Throws std::runtime_error (one line) when a text cannot be printed.
std::string sheet_pdf(const SheetContent& content, const SheetOptions& options = {});

/// The same words as plain text, lines of at most 80 columns; tables say what the plots show.
std::string sheet_text(const SheetContent& content);

/// The same words as one HTML page for screen readers: headings, lists, tables with heads, no pictures.
std::string sheet_html(const SheetContent& content);

} // namespace tuck::faces
