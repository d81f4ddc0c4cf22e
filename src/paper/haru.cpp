#include "paper/haru.hpp"

#include "paper/markup.hpp"

#include <fmt/format.h>

#include <stdexcept>
#include <utility>

namespace tuck::faces {
namespace {

/// What a code of our texts means, for copying, searching and reading aloud. Codes are UTF-16, so each stands
/// for itself; a range may not cross the first byte (ISO 32000-1, 9.10.3). libharu writes the font's CID map
/// there instead, which readers rightly complain of.
std::string to_unicode() {
    std::string map = "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
                      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
    constexpr int at_once = 64; // at most 100 ranges in a block
    for (int high = 0; high < 256; high += at_once) {
        map += fmt::format("{} beginbfrange\n", at_once);
        for (int i = high; i < high + at_once; ++i)
            map += fmt::format("<{0:02X}00> <{0:02X}FF> <{0:02X}00>\n", i);
        map += "endbfrange\n";
    }
    return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

} // namespace

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
    const auto map = static_cast<HPDF_Dict>(HPDF_Dict_GetItem(font, "ToUnicode", HPDF_OCLASS_DICT));
    if (map == nullptr || map->stream == nullptr)
        throw std::runtime_error(fmt::format("PDF: font {} has no table of its letters", file));
    HPDF_MemStream_FreeData(map->stream);
    HPDF_Dict_RemoveElement(map, "CMapName");
    require(HPDF_Stream_WriteStr(map->stream, to_unicode().c_str()), "writing a table of letters");
    return font;
}

void HaruDocument::describe(const std::string& title, const std::string& subject) {
    require(HPDF_SetInfoAttr(doc_, HPDF_INFO_TITLE, title.c_str()), "setting the title");
    require(HPDF_SetInfoAttr(doc_, HPDF_INFO_SUBJECT, subject.c_str()), "setting the subject");
    require(HPDF_SetViewerPreference(doc_, HPDF_PRINT_SCALING_NONE), "asking for no scaling");
    const HPDF_Dict catalog = doc_->catalog;
    require(HPDF_Dict_Add(catalog, "Lang", HPDF_String_New(doc_->mmgr, "en", nullptr)),
            "setting the language");
    if (const auto viewer =
            static_cast<HPDF_Dict>(HPDF_Dict_GetItem(catalog, "ViewerPreferences", HPDF_OCLASS_DICT)))
        require(HPDF_Dict_Add(viewer, "DisplayDocTitle", HPDF_Boolean_New(doc_->mmgr, HPDF_TRUE)),
                "showing the title");
    // The same for readers of XMP (ISO 16684-1). Without dates: same plan, same bytes.
    const HPDF_Dict metadata = HPDF_DictStream_New(doc_->mmgr, doc_->xref);
    require(HPDF_Dict_AddName(metadata, "Type", "Metadata"), "describing");
    require(HPDF_Dict_AddName(metadata, "Subtype", "XML"), "describing");
    const std::string xml = fmt::format(
        "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
        "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF "
        "xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\"><rdf:Description rdf:about=\"\" "
        "xmlns:dc=\"http://purl.org/dc/elements/1.1/\"><dc:format>application/pdf</"
        "dc:format><dc:language><rdf:Bag><rdf:li>en</rdf:li></rdf:Bag></"
        "dc:language><dc:title><rdf:Alt><rdf:li "
        "xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title><dc:description><rdf:Alt><rdf:li "
        "xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:description></rdf:Description></rdf:RDF></"
        "x:xmpmeta>\n<?xpacket end=\"r\"?>\n",
        escaped(title), escaped(subject));
    require(HPDF_Stream_WriteStr(metadata->stream, xml.c_str()), "describing");
    require(HPDF_Dict_Add(catalog, "Metadata", metadata), "describing");
}

void HaruDocument::require(HPDF_STATUS status, const char* doing) const {
    const HPDF_STATUS error = status != HPDF_OK ? status : HPDF_GetError(doc_);
    if (error != HPDF_OK)
        throw std::runtime_error(fmt::format("PDF: {} failed (libharu error {:#06x}, detail {})", doing,
                                             error, HPDF_GetErrorDetail(doc_)));
}

} // namespace tuck::faces
