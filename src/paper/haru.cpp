#include "paper/haru.hpp"

#include <fmt/format.h>

#include <stdexcept>
#include <utility>

namespace tuck::faces {

HaruDocument::HaruDocument(std::string extra_font_folder)
    : doc_(HPDF_New(nullptr, nullptr)), extra_font_folder_(std::move(extra_font_folder)) {
    if (doc_ == nullptr)
        throw std::runtime_error("PDF: no memory for a document");
    // Once per document: a second call leaves libharu in an error state that it does not report.
    if (const HPDF_STATUS status = HPDF_UseUTFEncodings(doc_); status != HPDF_OK) {
        HPDF_Free(doc_);
        throw std::runtime_error("PDF: this libharu has no UTF-8 encoder");
    }
}

HaruDocument::~HaruDocument() {
    HPDF_Free(doc_);
}

HPDF_Font HaruDocument::font(Face face) {
    HPDF_Font& font = fonts_.at(static_cast<std::size_t>(face));
    if (font != nullptr)
        return font;
    const std::string file = font_file(face, extra_font_folder_);
    const char* name = HPDF_LoadTTFontFromFile(doc_, file.c_str(), HPDF_TRUE);
    if (name != nullptr)
        font = HPDF_GetFont(doc_, name, "UTF-8");
    if (font == nullptr)
        throw std::runtime_error(
            fmt::format("PDF: font {} cannot be used (libharu error {:#06x})", file, HPDF_GetError(doc_)));
    return font;
}

void HaruDocument::require(HPDF_STATUS status, const char* doing) const {
    const HPDF_STATUS error = status != HPDF_OK ? status : HPDF_GetError(doc_);
    if (error != HPDF_OK)
        throw std::runtime_error(fmt::format("PDF: {} failed (libharu error {:#06x}, detail {})", doing,
                                             error, HPDF_GetErrorDetail(doc_)));
}

} // namespace tuck::faces
