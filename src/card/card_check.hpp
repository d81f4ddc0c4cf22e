// The finished card measured: what the PDF holds, against the limits that it was laid out for.
#pragma once

#include "card/card.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// One figure of the file. `limit` says what is allowed and who says so.
struct CardFinding {
    std::string what, measured, limit;
    bool ok = true;
};

/// Measures the bytes of a card. `layouts`, one for each page, tell which text is a row, a label or a help
/// line, and where the card should be cut; sizes, places, words, fonts and greys are read from the file.
/// Throws std::runtime_error when the bytes are no PDF or have another number of pages.
std::vector<CardFinding> check_card(const std::string& pdf, const std::vector<CardLayout>& layouts,
                                    const CardOptions& options);

/// The findings as lines of text, faults marked, with the distance and tilt that they hold for.
std::string check_text(const std::vector<CardFinding>& findings, const CardOptions& options);

} // namespace tuck::faces
