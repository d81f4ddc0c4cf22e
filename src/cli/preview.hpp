// A card to look at without printing.
#pragma once

#include "card/card.hpp"

#include <string>

namespace tuck::cli {

/// Throws io::InputError when `file` ends neither in .svg nor in .png. Empty: no preview.
void require_preview_name(const std::string& file);

/// The bytes of that file: the first page of the card, as SVG, or as PNG at 200 dpi made from the PDF by
/// `pdftoppm`. Throws io::InputError where that program is missing or fails.
std::string preview_of(const std::string& file, const std::string& pdf, const faces::CardLayout& first_page);

} // namespace tuck::cli
