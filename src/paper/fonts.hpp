// The letters that may stand on paper: font files, how wide a text is, and which texts can be set at all.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace tuck::faces {

/// The faces in use. Narrow is for the card, where width is short; its bold has a stem of 1/6 of the
/// capital, what DOD-HDBK-791 (6-5.3.2) asks of dark letters on a light ground.
///
/// The last two stand in for words with letters that Liberation has not got (Vietnamese): libharu 2.3 draws
/// their letters whole, while it loses accents of DejaVu's. They are loaded when a word asks for them.
enum class Face { sans, narrow, narrow_bold, stand_in, stand_in_bold };

/// Folders that are searched for the font files, in order: `extra` (the `fonts` folder of an installed tree;
/// may be empty), then Debian's fonts-liberation, or fonts-roboto-unhinted for the stand-ins.
std::vector<std::string> font_folders(const std::string& extra, Face face = Face::sans);

/// Path of a face's file. Throws std::runtime_error that names every place tried.
std::string font_file(Face face, const std::string& extra_folder);

/// The code points of a UTF-8 text. Throws std::runtime_error, which begins with `what` (the name of the
/// field), when the bytes are not UTF-8 (RFC 3629: overlong forms and surrogates count as invalid).
std::vector<char32_t> code_points(std::string_view utf8, std::string_view what);

/// Throws std::runtime_error, which begins with `what`, when a text cannot be printed one letter after the
/// other: invalid UTF-8, control and formatting characters, combining marks, right-to-left scripts.
void require_printable(std::string_view utf8, std::string_view what);

/// Widths and capital heights of the faces as the PDF writer will draw them.
class Fonts {
public:
    /// A part of a text that is set in one face.
    struct Run {
        Face face;
        std::string_view text;
    };

    /// Throws std::runtime_error when a font file is not found or cannot be read.
    explicit Fonts(const std::string& extra_folder = {});
    ~Fonts();
    Fonts(const Fonts&) = delete;
    Fonts& operator=(const Fonts&) = delete;

    /// Height of a capital H for a font of size 1. Truncated to 1/1000, so a letter is never smaller than
    /// asked.
    double cap_per_em(Face face) const;

    /// Width in millimetres of a text whose capitals are `cap_mm` high. The text must be valid UTF-8.
    double width_mm(Face face, double cap_mm, std::string_view utf8) const;

    /// The text in the face asked for, but for words that need a stand-in. At least one run.
    std::vector<Run> runs(Face face, std::string_view utf8) const;

    /// Throws std::runtime_error, which begins with `what`, when the text is not printable (see above) or
    /// neither the face nor its stand-in has a glyph for one of its characters: the box that a viewer
    /// would show says nothing.
    void require_glyphs(Face face, std::string_view utf8, std::string_view what) const;

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace tuck::faces
