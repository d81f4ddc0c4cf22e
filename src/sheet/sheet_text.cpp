#include "sheet/sheet.hpp"

#include "paper/text_fit.hpp"

#include <algorithm>
#include <numeric>

namespace tuck::faces {
namespace {

constexpr double width = 80;

class TextSheet {
public:
    void add(const std::string& text, const std::string& first = "") {
        const std::string indent(static_cast<std::size_t>(columns(first)), ' ');
        bool begun = false;
        for (const std::string& line : wrap(text, width - columns(first), columns)) {
            out += (begun ? indent : first) + line + "\n";
            begun = true;
        }
    }

    void add(const SheetItem& item) {
        if (const auto* part = std::get_if<SheetParagraph>(&item))
            add(part->lead.empty()   ? part->text
                : part->text.empty() ? part->lead
                                     : part->lead + " " + part->text);
        else if (const auto* list = std::get_if<SheetList>(&item))
            for (const std::string& text : list->items)
                add(text, list->boxes ? "[ ] " : "- ");
        else if (const auto* table = std::get_if<SheetTable>(&item))
            add(*table);
        else if (const auto* bands = std::get_if<SheetBands>(&item)) {
            add("Middle day, and in brackets 18 days of 20:");
            add(as_table(*bands));
        } else if (const auto* bars = std::get_if<SheetBars>(&item))
            add(as_table(*bars));
        else if (const auto* labels = std::get_if<SheetLabels>(&item))
            for (const auto& label : labels->labels)
                add(label.whose + ". " + label.text, label.name + ": ");
    }

    std::string out;

private:
    /// Short tables as columns, wide ones as one sentence for each row: "Clock 04:15, When 3 h before: ...".
    void add(const SheetTable& table) {
        std::vector<double> widths;
        for (std::size_t i = 0; i < table.heads.size(); ++i) {
            double widest = columns(table.heads[i]);
            for (const auto& row : table.rows)
                widest = std::max(widest, columns(row[i]));
            widths.push_back(widest);
        }
        const double all =
            std::accumulate(widths.begin(), widths.end(), 0.0) + 2 * (static_cast<double>(widths.size()) - 1);
        if (all > width) {
            for (const auto& row : table.rows) {
                std::string line;
                for (std::size_t i = 0; i < row.size(); ++i)
                    if (!row[i].empty())
                        line += (line.empty()                             ? ""
                                 : i + 1 < row.size() || table.numbers[i] ? ", "
                                                                          : ": ") +
                                (table.numbers[i] ? table.heads[i] + " " : "") + row[i];
                add(line, "- ");
            }
            return;
        }
        line(table.heads, table, widths);
        for (const auto& row : table.rows)
            line(row, table, widths);
    }

    void line(const std::vector<std::string>& cells, const SheetTable& table,
              const std::vector<double>& widths) {
        std::string text;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const std::string fill(static_cast<std::size_t>(widths[i] - columns(cells[i])), ' ');
            text += (i > 0 ? "  " : "") + (table.numbers[i] ? fill + cells[i] : cells[i] + fill);
        }
        text.erase(text.find_last_not_of(' ') + 1);
        out += text + "\n";
    }
};

} // namespace

std::string sheet_text(const SheetContent& content) {
    TextSheet text;
    text.add(content.title);
    text.add(content.subtitle);
    text.out += "\n";
    text.add(content.stop);
    for (const SheetSection& section : content.sections) {
        const bool pictures_only =
            std::all_of(section.items.begin(), section.items.end(), [](const SheetItem& item) {
                return std::holds_alternative<SheetTimeline>(item) ||
                       std::holds_alternative<SheetCurves>(item);
            });
        if (pictures_only)
            continue;
        text.out += "\n";
        text.add(section.title);
        for (const SheetItem& item : section.items)
            text.add(item);
    }
    text.out += "\n";
    text.add(content.foot);
    return text.out;
}

} // namespace tuck::faces
