#include "paper/fonts.hpp"

#include "base/utf8.hpp"

#include "paper/haru.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <hpdf_font.h>
#include <hpdf_fontdef.h>

#include <algorithm>
#include <filesystem>
#include <stdexcept>

namespace tuck::faces {
namespace {

constexpr std::array file_names{"LiberationSans-Regular.ttf", "LiberationSansNarrow-Regular.ttf",
                                "LiberationSansNarrow-Bold.ttf", "RobotoCondensed-Regular.ttf",
                                "RobotoCondensed-Bold.ttf"};
constexpr char debian_folder[] = "/usr/share/fonts/truetype/liberation";
constexpr char stand_in_folder[] = "/usr/share/fonts/truetype/roboto/unhinted";

struct Range {
    char32_t first, last;
    const char* why;
};

// Blocks of the Unicode standard that cannot be set by placing one glyph after the other.
constexpr Range unprintable[] = {
    {0x0000, 0x001F, "a control character"},
    {0x007F, 0x009F, "a control character"},
    {0x00AD, 0x00AD, "a formatting character"},
    {0x0300, 0x036F, "a combining mark (write letter and accent as one character)"},
    {0x0590, 0x08FF, "from a right-to-left script, which cannot be set"},
    {0x1AB0, 0x1AFF, "a combining mark"},
    {0x1DC0, 0x1DFF, "a combining mark"},
    {0x200B, 0x200F, "a formatting character"},
    {0x2028, 0x202E, "a formatting character"},
    {0x2060, 0x206F, "a formatting character"},
    {0x20D0, 0x20FF, "a combining mark"},
    {0xD800, 0xF8FF, "a private or surrogate code"},
    {0xFB1D, 0xFDFF, "from a right-to-left script, which cannot be set"},
    {0xFE00, 0xFE0F, "a formatting character"},
    {0xFE20, 0xFE2F, "a combining mark"},
    {0xFE70, 0xFEFF, "from a right-to-left script or a byte order mark"},
    {0xFFF0, 0x10FFFF, "outside the characters that the PDF writer can set"},
};

/// Printable ASCII alone: every face has it.
bool is_plain(std::string_view utf8) {
    return std::all_of(utf8.begin(), utf8.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

bool is_stand_in(Face face) {
    return face == Face::stand_in || face == Face::stand_in_bold;
}

Face stand_in_for(Face face) {
    return face == Face::narrow_bold ? Face::stand_in_bold : Face::stand_in;
}

} // namespace

std::vector<std::string> font_folders(const std::string& extra, Face face) {
    std::vector<std::string> folders;
    if (!extra.empty())
        folders.push_back(extra);
    folders.emplace_back(is_stand_in(face) ? stand_in_folder : debian_folder);
    return folders;
}

std::string font_file(Face face, const std::string& extra_folder) {
    std::vector<std::string> tried;
    for (const auto& folder : font_folders(extra_folder, face)) {
        const auto path = std::filesystem::path(folder) / file_names.at(static_cast<std::size_t>(face));
        std::error_code ignored;
        if (std::filesystem::is_regular_file(path, ignored))
            return path.string();
        tried.push_back(path.string());
    }
    throw std::runtime_error(fmt::format("font not found; tried {}; on Debian the package {} brings it",
                                         fmt::join(tried, ", "),
                                         is_stand_in(face) ? "fonts-roboto-unhinted" : "fonts-liberation"));
}

std::vector<char32_t> code_points(std::string_view utf8, std::string_view what) {
    try {
        return tuck::code_points(utf8);
    } catch (const std::invalid_argument& error) {
        throw std::runtime_error(fmt::format("{}: {}", what, error.what()));
    }
}

void require_printable(std::string_view utf8, std::string_view what) {
    if (is_plain(utf8))
        return;
    for (const char32_t point : code_points(utf8, what))
        for (const Range& range : unprintable)
            if (point >= range.first && point <= range.last)
                throw std::runtime_error(
                    fmt::format("{}: U+{:04X} is {}", what, static_cast<unsigned>(point), range.why));
}

struct Fonts::Impl {
    explicit Impl(const std::string& folder) : document(folder) {}

    /// Advance of a character in thousandths of an em; negative: the face has no glyph for it. Asking libharu
    /// costs a search each time, so answers are kept.
    float advance(Face face, char32_t point) {
        auto& known = advances.at(static_cast<std::size_t>(face));
        if (known.empty())
            known.assign(0x10000, unknown);
        float& advance = known[point & 0xFFFF];
        if (advance == unknown) {
            const HPDF_Font font = document.font(face);
            const HPDF_FontDef definition = static_cast<HPDF_FontAttr>(font->attr)->fontdef;
            const auto code = static_cast<HPDF_UINT16>(point);
            advance = HPDF_TTFontDef_GetGlyphid(definition, code) == 0
                          ? no_glyph
                          : static_cast<float>(HPDF_Font_GetUnicodeWidth(font, code));
        }
        return advance;
    }

    double cap_per_em(Face face) {
        double& known = caps.at(static_cast<std::size_t>(face));
        if (known == 0)
            known = HPDF_Font_GetCapHeight(document.font(face)) / 1000.0;
        return known;
    }

    /// Sum of the advances; negative when a glyph is missing.
    double advance(Face face, const std::vector<char32_t>& points, std::size_t first, std::size_t end) {
        double sum = 0;
        for (std::size_t i = first; i < end; ++i) {
            const float one = advance(face, points[i]);
            if (one < 0)
                return one;
            sum += one;
        }
        return sum;
    }

    static constexpr float unknown = -2, no_glyph = -1;
    HaruDocument document;
    std::array<std::vector<float>, file_names.size()> advances;
    std::array<double, file_names.size()> caps{};
};

Fonts::Fonts(const std::string& extra_folder) : impl_(std::make_unique<Impl>(extra_folder)) {
    for (const Face face : {Face::sans, Face::narrow, Face::narrow_bold})
        impl_->document.font(face);
}

Fonts::~Fonts() = default;

double Fonts::cap_per_em(Face face) const {
    return impl_->cap_per_em(face);
}

double Fonts::width_mm(Face face, double cap_mm, std::string_view utf8) const {
    if (is_plain(utf8)) {
        double sum = 0;
        for (const char c : utf8)
            sum += impl_->advance(face, static_cast<char32_t>(c));
        return sum / 1000.0 / impl_->cap_per_em(face) * cap_mm;
    }
    const std::vector<char32_t> points = code_points(utf8, "text");
    double caps = 0; // width in capitals
    for (std::size_t first = 0; first < points.size();) {
        const auto blank = std::find(points.begin() + static_cast<long>(first), points.end(), U' ');
        const auto end = static_cast<std::size_t>(blank - points.begin()) + (blank != points.end() ? 1 : 0);
        Face used = face;
        double sum = impl_->advance(face, points, first, end);
        if (sum < 0) {
            used = stand_in_for(face);
            sum = std::max(0.0, impl_->advance(used, points, first, end));
        }
        caps += sum / impl_->cap_per_em(used);
        first = end;
    }
    return caps / 1000.0 * cap_mm;
}

std::vector<Fonts::Run> Fonts::runs(Face face, std::string_view utf8) const {
    if (is_plain(utf8))
        return {{face, utf8}};
    std::vector<Run> out;
    for (std::size_t first = 0; first < utf8.size();) {
        const std::size_t blank = utf8.find(' ', first);
        const std::size_t end = blank == std::string_view::npos ? utf8.size() : blank + 1;
        const auto points = code_points(utf8.substr(first, end - first), "text");
        const Face used = impl_->advance(face, points, 0, points.size()) < 0 ? stand_in_for(face) : face;
        if (out.empty() || out.back().face != used)
            out.push_back({used, utf8.substr(first, end - first)});
        else
            out.back().text = {out.back().text.data(), out.back().text.size() + (end - first)};
        first = end;
    }
    return out.empty() ? std::vector<Run>{{face, utf8}} : out;
}

void Fonts::require_glyphs(Face face, std::string_view utf8, std::string_view what) const {
    if (is_plain(utf8))
        return;
    require_printable(utf8, what);
    for (const char32_t point : code_points(utf8, what))
        if (impl_->advance(face, point) < 0 && impl_->advance(stand_in_for(face), point) < 0)
            throw std::runtime_error(
                fmt::format("{}: the font has no letter for U+{:04X}; write it in other letters", what,
                            static_cast<unsigned>(point)));
    // The stand-in carries whole words.
    for (const Run& run : runs(face, utf8))
        if (run.face != face)
            for (const char32_t point : code_points(run.text, what))
                if (impl_->advance(run.face, point) < 0)
                    throw std::runtime_error(fmt::format(
                        "{}: no font has all letters of \"{}\"; write it in other letters", what, run.text));
}

} // namespace tuck::faces
