#include "io/file_kind.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace tuck::io {

namespace {

bool begins(std::string_view text, std::string_view with) {
    return text.substr(0, with.size()) == with;
}

std::string_view without_blanks(std::string_view text) {
    if (begins(text, "\xEF\xBB\xBF"))
        text.remove_prefix(3);
    const auto first = text.find_first_not_of(" \t\r\n");
    return first == std::string_view::npos ? std::string_view() : text.substr(first);
}

} // namespace

std::string kind_of_bytes(std::string_view beginning) {
    using namespace std::string_view_literals;
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 7> magic{
        {{"%PDF"sv, "a PDF"},
         {"PK\x03\x04"sv, "a workbook of a spreadsheet, or another zip archive"},
         {"\xD0\xCF\x11\xE0"sv, "an old workbook or document"},
         {"\xFF\xD8\xFF"sv, "a picture"},
         {"\x89PNG"sv, "a picture"},
         {"\x1F\x8B"sv, "a compressed file"},
         {"GIF8"sv, "a picture"}}};
    for (const auto& [bytes, kind] : magic)
        if (begins(beginning, bytes))
            return std::string(kind);
    const auto text = without_blanks(beginning);
    if (begins(text, "<"))
        return text.substr(0, 2000).find("<gpx") != std::string_view::npos ? "a GPX course" : "XML";
    if (begins(text, "{") || begins(text, "["))
        return "JSON";
    return {};
}

std::string meant_for(std::string_view beginning, const char* wanted) {
    const auto kind = kind_of_bytes(beginning);
    if (kind.empty() || kind == wanted)
        return {};
    std::string text = "is " + kind + ", not " + wanted;
    if (kind == "a GPX course")
        text += "; a course is given with --bike-course or --run-course, or looked at with tuck course";
    else if (kind.find("workbook") != std::string::npos)
        text += "; save the sheet as CSV (UTF-8) and give that";
    else if (kind == "JSON")
        text += "; an event is given to tuck plan";
    return text;
}

} // namespace tuck::io
