#include "faces/fonts.hpp"

#include "faces/haru.hpp"

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
                                "LiberationSansNarrow-Bold.ttf"};
constexpr char debian_folder[] = "/usr/share/fonts/truetype/liberation";

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

/// Length of a UTF-8 sequence by its first byte; 0: no first byte.
std::size_t sequence_length(unsigned char lead) {
    if (lead < 0x80)
        return 1;
    if (lead >= 0xC2 && lead <= 0xDF)
        return 2;
    if (lead >= 0xE0 && lead <= 0xEF)
        return 3;
    if (lead >= 0xF0 && lead <= 0xF4)
        return 4;
    return 0;
}

bool is_scalar_value(char32_t c, std::size_t length) {
    constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    return c >= least[length] && c <= 0x10FFFF && (c < 0xD800 || c > 0xDFFF);
}

} // namespace

std::vector<std::string> font_folders(const std::string& extra) {
    std::vector<std::string> folders;
    if (!extra.empty())
        folders.push_back(extra);
    folders.emplace_back(debian_folder);
    return folders;
}

std::string font_file(Face face, const std::string& extra_folder) {
    std::vector<std::string> tried;
    for (const auto& folder : font_folders(extra_folder)) {
        const auto path = std::filesystem::path(folder) / file_names.at(static_cast<std::size_t>(face));
        std::error_code ignored;
        if (std::filesystem::is_regular_file(path, ignored))
            return path.string();
        tried.push_back(path.string());
    }
    throw std::runtime_error(
        fmt::format("font not found; tried {}; on Debian the package fonts-liberation brings it",
                    fmt::join(tried, ", ")));
}

std::vector<char32_t> code_points(std::string_view utf8, std::string_view what) {
    std::vector<char32_t> points;
    for (std::size_t i = 0; i < utf8.size();) {
        const auto lead = static_cast<unsigned char>(utf8[i]);
        const std::size_t length = sequence_length(lead);
        bool valid = length > 0 && i + length <= utf8.size();
        char32_t point = length == 1 ? lead : lead & (0x7Fu >> length);
        for (std::size_t k = 1; valid && k < length; ++k) {
            const auto byte = static_cast<unsigned char>(utf8[i + k]);
            valid = (byte & 0xC0) == 0x80;
            point = (point << 6) | (byte & 0x3F);
        }
        if (!valid || !is_scalar_value(point, length))
            throw std::runtime_error(fmt::format("{}: not UTF-8 at byte {}", what, i + 1));
        points.push_back(point);
        i += length;
    }
    return points;
}

void require_printable(std::string_view utf8, std::string_view what) {
    for (const char32_t point : code_points(utf8, what))
        for (const Range& range : unprintable)
            if (point >= range.first && point <= range.last)
                throw std::runtime_error(
                    fmt::format("{}: U+{:04X} is {}", what, static_cast<unsigned>(point), range.why));
}

struct Fonts::Impl {
    explicit Impl(const std::string& folder) : document(folder) {}
    mutable HaruDocument document;

    HPDF_FontDef definition(Face face) const {
        return static_cast<HPDF_FontAttr>(document.font(face)->attr)->fontdef;
    }
};

Fonts::Fonts(const std::string& extra_folder) : impl_(std::make_unique<Impl>(extra_folder)) {
    for (const Face face : {Face::sans, Face::narrow, Face::narrow_bold})
        impl_->document.font(face);
}

Fonts::~Fonts() = default;

double Fonts::cap_per_em(Face face) const {
    return HPDF_Font_GetCapHeight(impl_->document.font(face)) / 1000.0;
}

double Fonts::width_mm(Face face, double cap_mm, std::string_view utf8) const {
    const HPDF_Font font = impl_->document.font(face);
    double thousandths = 0;
    for (const char32_t point : code_points(utf8, "text"))
        thousandths += HPDF_Font_GetUnicodeWidth(font, static_cast<HPDF_UNICODE>(point));
    return thousandths / 1000.0 * cap_mm / cap_per_em(face);
}

void Fonts::require_glyphs(Face face, std::string_view utf8, std::string_view what) const {
    require_printable(utf8, what);
    for (const char32_t point : code_points(utf8, what))
        if (HPDF_TTFontDef_GetGlyphid(impl_->definition(face), static_cast<HPDF_UINT16>(point)) == 0)
            throw std::runtime_error(
                fmt::format("{}: the font has no letter for U+{:04X}; write it in other letters", what,
                            static_cast<unsigned>(point)));
}

} // namespace tuck::faces
