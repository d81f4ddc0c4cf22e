#include "sheet/sheet_pieces.hpp"

#include "paper/text_fit.hpp"

#include <algorithm>
#include <numeric>

namespace tuck::faces {
namespace {

constexpr double below_baseline_caps = 0.45;
constexpr double cell_gap_mm = 2.5;
constexpr double tick_box_caps = 1.15, indent_caps = 2.2;
constexpr double label_cap_mm = 6;
constexpr double labels_across = 3, label_gap_mm = 4, label_padding_mm = 2.5;

} // namespace

void stack(Piece& piece, const Piece& below, double x_mm) {
    const double y = piece.height_mm;
    const auto add = [&](const auto& from, auto& to) {
        for (const auto& element : from)
            to.push_back(pdf::moved(element, x_mm, y));
    };
    add(below.texts, piece.texts);
    add(below.lines, piece.lines);
    add(below.boxes, piece.boxes);
    add(below.paths, piece.paths);
    piece.height_mm += below.height_mm;
}

void put(const Piece& piece, double x_mm, double y_mm, pdf::Page& page) {
    Piece placed;
    placed.height_mm = y_mm;
    stack(placed, piece, x_mm);
    const auto move = [](auto& from, auto& to) {
        to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
    };
    move(placed.texts, page.texts);
    move(placed.lines, page.lines);
    move(placed.boxes, page.boxes);
    move(placed.paths, page.paths);
}

double SheetSetter::text_mm(Face face, const std::string& text) const {
    return fonts_.width_mm(face, cap_mm_, text);
}

Piece SheetSetter::heading(const std::string& text, double cap_mm) const {
    Piece piece;
    piece.with_next = true;
    piece.height_mm = 1.2 * cap_mm;
    const auto lines = wrap(text, width_mm_, [&](const std::string& part) {
        return fonts_.width_mm(Face::narrow_bold, cap_mm, part);
    });
    for (const std::string& line : lines) {
        piece.height_mm += 1.5 * cap_mm;
        piece.texts.push_back({0, piece.height_mm - 0.5 * cap_mm, cap_mm, Face::narrow_bold, line});
    }
    piece.lines.push_back(
        {0, piece.height_mm - 0.1 * cap_mm, width_mm_, piece.height_mm - 0.1 * cap_mm, 0.3});
    piece.height_mm += 0.3 * cap_mm;
    return piece;
}

Piece SheetSetter::paragraph(const std::string& lead, const std::string& text) const {
    Piece piece;
    const auto down = [&] {
        piece.height_mm += pitch_caps_ * cap_mm_;
        return piece.height_mm - below_baseline_caps * cap_mm_;
    };
    double indent = 0, baseline = 0;
    for (const std::string& line :
         wrap(lead, width_mm_, [&](const std::string& part) { return text_mm(Face::narrow_bold, part); })) {
        baseline = down();
        piece.texts.push_back({0, baseline, cap_mm_, Face::narrow_bold, line});
        indent = text_mm(Face::narrow_bold, line) + text_mm(Face::sans, " ");
    }
    bool beside = indent > 0;
    for (const std::string& line : wrap(
             text, width_mm_, [&](const std::string& part) { return text_mm(Face::sans, part); }, indent)) {
        if (!beside)
            baseline = down();
        if (!line.empty())
            piece.texts.push_back({beside ? indent : 0, baseline, cap_mm_, Face::sans, line});
        beside = false;
    }
    piece.height_mm += after_caps_ * cap_mm_;
    piece.with_next = text.empty();
    return piece;
}

Piece SheetSetter::boxed(const std::string& text) const {
    const double padding = 2;
    Piece inner = SheetSetter(fonts_, width_mm_ - 2 * padding, cap_mm_ * 1.15).paragraph("", text);
    Piece piece;
    piece.height_mm = padding;
    stack(piece, inner, padding);
    piece.boxes.push_back({0.3, 0.3, width_mm_ - 0.6, piece.height_mm + 0.4, 0.6});
    piece.height_mm += padding;
    return piece;
}

std::vector<Piece> SheetSetter::running(const SheetList& list) const {
    std::string all;
    for (const std::string& item : list.items)
        all += (all.empty() ? "" : " · ") + item;
    std::vector<Piece> out;
    for (const std::string& line :
         wrap(all, width_mm_, [&](const std::string& part) { return text_mm(Face::sans, part); })) {
        Piece piece;
        piece.height_mm = pitch_caps_ * cap_mm_;
        piece.texts.push_back(
            {0, piece.height_mm - below_baseline_caps * cap_mm_, cap_mm_, Face::sans, line});
        out.push_back(std::move(piece));
    }
    if (!out.empty())
        out.back().height_mm += 3 * after_caps_ * cap_mm_;
    return out;
}

std::vector<Piece> SheetSetter::list(const SheetList& list) const {
    if (list.running)
        return running(list);
    const double indent = indent_caps * cap_mm_;
    const SheetSetter inner(fonts_, width_mm_ - indent, cap_mm_, after_caps_, pitch_caps_);
    std::vector<Piece> out;
    for (const std::string& item : list.items) {
        Piece piece;
        stack(piece, inner.paragraph("", item), indent);
        if (piece.texts.empty())
            continue;
        const double baseline = piece.texts.front().baseline_mm, size = tick_box_caps * cap_mm_;
        if (list.boxes)
            piece.boxes.push_back({0.2, baseline - size, size, size, 0.25});
        else
            piece.texts.insert(piece.texts.begin(), {0.6 * cap_mm_, baseline, cap_mm_, Face::sans, "•"});
        out.push_back(std::move(piece));
    }
    return out;
}

Piece SheetSetter::row(const std::vector<std::string>& cells, const SheetTable& table, bool head) const {
    const double all = std::accumulate(table.shares.begin(), table.shares.end(), 0.0);
    const double room = width_mm_ - cell_gap_mm * static_cast<double>(table.shares.size() - 1);
    const Face face = head ? Face::narrow_bold : Face::sans;
    Piece piece;
    double x = 0, height = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const double width = room * table.shares[i] / all;
        double y = 0;
        for (const std::string& line :
             wrap(cells[i], width, [&](const std::string& part) { return text_mm(face, part); })) {
            y += pitch_caps_ * cap_mm_;
            const double at = table.numbers[i] ? x + width - text_mm(face, line) : x;
            piece.texts.push_back({at, y - below_baseline_caps * cap_mm_, cap_mm_, face, line});
        }
        height = std::max(height, y);
        x += width + cell_gap_mm;
    }
    piece.height_mm = height + 0.15 * cap_mm_;
    piece.lines.push_back({0, piece.height_mm, width_mm_, piece.height_mm, head ? 0.2 : 0.08});
    piece.height_mm += 0.15 * cap_mm_;
    piece.with_next = head;
    return piece;
}

std::vector<Piece> SheetSetter::table(const SheetTable& table) const {
    std::vector<Piece> out;
    if (table.rows.empty())
        return out;
    out.push_back(row(table.heads, table, true));
    for (const auto& cells : table.rows)
        out.push_back(row(cells, table, false));
    out.back().height_mm += after_caps_ * cap_mm_;
    return out;
}

Piece SheetSetter::label(const SheetLabels::Label& label, double width_mm) const {
    const SheetSetter inner(fonts_, width_mm - 2 * label_padding_mm, cap_mm_ * 1.1);
    Piece one;
    one.height_mm = label_padding_mm + label_cap_mm;
    one.texts.push_back({label_padding_mm, one.height_mm, label_cap_mm, Face::narrow_bold, label.name});
    one.height_mm += 0.35 * label_cap_mm;
    stack(one, inner.paragraph(label.whose, ""), label_padding_mm);
    stack(one, inner.paragraph("", label.text), label_padding_mm);
    one.height_mm += label_padding_mm;
    return one;
}

std::vector<Piece> SheetSetter::labels(const SheetLabels& labels) const {
    std::vector<Piece> out;
    const double width = (width_mm_ + label_gap_mm) / labels_across - label_gap_mm;
    const auto across = static_cast<std::size_t>(labels_across);
    for (std::size_t first = 0; first < labels.labels.size(); first += across) {
        const std::size_t end = std::min(first + across, labels.labels.size());
        const auto left = [&](std::size_t i) {
            return static_cast<double>(i - first) * (width + label_gap_mm);
        };
        Piece row;
        double height = 0;
        for (std::size_t i = first; i < end; ++i) {
            stack(row, label(labels.labels[i], width), left(i));
            height = std::max(height, row.height_mm);
            row.height_mm = 0;
        }
        for (std::size_t i = first; i < end; ++i)
            row.boxes.push_back({left(i) + 0.1, 0.1, width - 0.2, height - 0.2, 0.2, -1, 1.5});
        row.height_mm = height + 3;
        out.push_back(std::move(row));
    }
    return out;
}

std::vector<Piece> SheetSetter::set(const SheetItem& item) const {
    if (const auto* part = std::get_if<SheetParagraph>(&item))
        return part->lead.empty() && part->text.empty()
                   ? std::vector<Piece>{}
                   : std::vector<Piece>{paragraph(part->lead, part->text)};
    if (const auto* part = std::get_if<SheetList>(&item))
        return list(*part);
    if (const auto* part = std::get_if<SheetTable>(&item))
        return table(*part);
    if (const auto* part = std::get_if<SheetTimeline>(&item))
        return {timeline_piece(*part, fonts_, width_mm_, cap_mm_)};
    if (const auto* part = std::get_if<SheetCurves>(&item))
        return {curves_piece(*part, fonts_, width_mm_, cap_mm_)};
    if (const auto* part = std::get_if<SheetBands>(&item))
        return {bands_piece(*part, fonts_, width_mm_, cap_mm_)};
    if (const auto* part = std::get_if<SheetBars>(&item))
        return {bars_piece(*part, fonts_, width_mm_, cap_mm_)};
    return labels(std::get<SheetLabels>(item));
}

} // namespace tuck::faces
