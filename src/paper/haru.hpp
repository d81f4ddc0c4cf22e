// A libharu document that cleans up after itself. Included by fonts.cpp and pdf.cpp alone.
#pragma once

#include "paper/fonts.hpp"

#include <hpdf.h>
#include <hpdf_objects.h>
#include <hpdf_streams.h>

#include <array>
#include <string>

namespace tuck::faces {

/// Owns one document. No error handler is set: libharu then returns a status and remembers it, and no
/// exception has to cross C code.
class HaruDocument {
public:
    explicit HaruDocument(std::string extra_font_folder);
    ~HaruDocument();
    HaruDocument(const HaruDocument&) = delete;
    HaruDocument& operator=(const HaruDocument&) = delete;

    HPDF_Doc get() const { return doc_; }

    /// Loads a face at first use: libharu embeds every font that was loaded, used or not.
    HPDF_Font font(Face face);

    /// Title, subject and language, in both of the format's places; asks viewers not to scale and to show the
    /// title.
    void describe(const std::string& title, const std::string& subject);

    /// Throws std::runtime_error when `status` is an error or the document remembers one.
    void require(HPDF_STATUS status, const char* doing) const;

private:
    HPDF_Doc doc_ = nullptr;
    std::string extra_font_folder_;
    std::array<HPDF_Font, 5> fonts_{};
};

} // namespace tuck::faces
