// The sheet as HTML for screen readers. The paper is the PDF.
#include "paper/markup.hpp"
#include "sheet/sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace tuck::faces {
namespace {

constexpr char style[] =
    "body{font:1rem/1.5 sans-serif;max-width:50rem;margin:1rem auto;padding:0 1rem;color:#000;"
    "background:#fff}table{border-collapse:collapse}th,td{border-bottom:1px solid #767676;"
    "padding:.2rem .6rem;text-align:left;vertical-align:top}td.n,th.n{text-align:right}"
    ".stop{border:3px solid #000;padding:.5rem 1rem}";

std::string html(const SheetParagraph& part) {
    if (part.lead.empty() && part.text.empty())
        return "";
    if (part.text.empty())
        return "<h3>" + escaped(part.lead) + "</h3>\n";
    return "<p>" + (part.lead.empty() ? "" : "<strong>" + escaped(part.lead) + "</strong> ") +
           escaped(part.text) + "</p>\n";
}

std::string html(const SheetList& list) {
    std::string out = "<ul>\n";
    for (const std::string& item : list.items)
        out += "<li>" + escaped(item) + "</li>\n";
    return list.items.empty() ? "" : out + "</ul>\n";
}

std::string html(const SheetTable& table, const std::string& caption) {
    if (table.rows.empty())
        return "";
    std::string out = "<table>\n<caption>" + escaped(caption) + "</caption>\n<tr>";
    const auto number = [&](std::size_t i) { return table.numbers[i] ? " class=\"n\"" : ""; };
    for (std::size_t i = 0; i < table.heads.size(); ++i)
        out += fmt::format("<th scope=\"col\"{}>{}</th>", number(i), escaped(table.heads[i]));
    out += "</tr>\n";
    for (const auto& row : table.rows) {
        out += "<tr>";
        for (std::size_t i = 0; i < row.size(); ++i)
            out += i == 0 ? fmt::format("<th scope=\"row\">{}</th>", escaped(row[i]))
                          : fmt::format("<td{}>{}</td>", number(i), escaped(row[i]));
        out += "</tr>\n";
    }
    return out + "</table>\n";
}

std::string html(const SheetLabels& labels) {
    std::string out = "<dl>\n";
    for (const auto& label : labels.labels)
        out += fmt::format("<dt>{}</dt><dd>{}</dd>\n", escaped(label.name),
                           escaped(label.whose.empty() ? label.text : label.whose + ". " + label.text));
    return out + "</dl>\n";
}

std::string html(const SheetItem& item, const std::string& caption) {
    if (const auto* paragraph = std::get_if<SheetParagraph>(&item))
        return html(*paragraph);
    if (const auto* list = std::get_if<SheetList>(&item))
        return html(*list);
    if (const auto* table = std::get_if<SheetTable>(&item))
        return html(*table, caption);
    if (const auto* bands = std::get_if<SheetBands>(&item))
        return html(as_table(*bands), "Middle day, and in brackets 18 days of 20");
    if (const auto* bars = std::get_if<SheetBars>(&item))
        return html(as_table(*bars), bars->title);
    if (const auto* labels = std::get_if<SheetLabels>(&item))
        return html(*labels);
    return "";
}

} // namespace

std::string sheet_html(const SheetContent& content) {
    std::string out =
        fmt::format("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                    "<meta name=\"viewport\" content=\"width=device-width\">\n"
                    "<title>Plan: {0}</title>\n<style>{1}</style>\n</head>\n<body>\n<main>\n"
                    "<h1>{0}</h1>\n<p>{2}</p>\n<p class=\"stop\">{3}</p>\n",
                    escaped(content.title), style, escaped(content.subtitle), escaped(content.stop));
    for (const SheetSection& section : content.sections) {
        std::string body;
        for (const SheetItem& item : section.items)
            body += html(item, section.title);
        if (!body.empty())
            out += "<section>\n<h2>" + escaped(section.title) + "</h2>\n" + body + "</section>\n";
    }
    return out + "<p>" + escaped(content.foot) + "</p>\n</main>\n</body>\n</html>\n";
}

} // namespace tuck::faces
