#include "sheet/sheet.hpp"

#include "paper/text_fit.hpp"
#include "sheet/sheet_pieces.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace tuck::faces {
namespace {

constexpr double margin_mm = 13, foot_mm = 12.5, gutter_mm = 10;
// From line to line of the small type: the widest with which the sheet keeps to its pages; not below 1.5
// (MIL-STD-1472, from memory).
constexpr double small_pitches_caps[] = {1.6, 1.55, 1.5};
constexpr double least_small_mm = 40; // so that no heading stands alone at the foot

/// Fills pages from top to bottom.
class Pages {
public:
    Pages(const SheetContent& content, const SheetOptions& options, const Fonts& fonts,
          double small_pitch_caps)
        : content_(content), paper_(options.paper), fonts_(fonts), small_pitch_caps_(small_pitch_caps) {
        new_page();
    }

    std::vector<pdf::Page> take() {
        number_pages();
        return std::move(pages_);
    }

    double width() const { return paper_.width_mm - 2 * margin_mm; }

    void title() {
        put_down(SheetSetter(fonts_, width(), type_.body_mm).heading(content_.title, type_.title_mm));
        put_down(SheetSetter(fonts_, width(), type_.body_mm).paragraph("", content_.subtitle));
        if (!content_.stop.empty())
            put_down(SheetSetter(fonts_, width(), type_.body_mm).boxed(content_.stop));
    }

    void whole(const SheetSection& section) {
        const std::vector<Piece> all = pieces(section, width(), type_.body_mm);
        double height = 0;
        for (const Piece& piece : all)
            height += piece.height_mm;
        if (section.new_page)
            new_page_unless_held(height);
        put_all(all);
    }

    /// Neighbouring sections of both columns, side by side; one after the other where a page cannot hold
    /// both.
    void columns(const std::vector<const SheetSection*>& sections) {
        const double column_mm = (width() - gutter_mm) / 2;
        Piece sides[2];
        bool fresh = false;
        for (const SheetSection* section : sections) {
            fresh |= section->new_page;
            for (const Piece& piece : pieces(*section, column_mm, type_.body_mm))
                stack(sides[section->place == SheetPlace::right ? 1 : 0], piece);
        }
        const double height = std::max(sides[0].height_mm, sides[1].height_mm);
        if (fresh)
            new_page_unless_held(height);
        if (height > bottom() - margin_mm) {
            for (const SheetSection* section : sections)
                whole(*section);
            return;
        }
        if (y_ + height > bottom())
            new_page();
        put(sides[0], margin_mm, y_, pages_.back());
        put(sides[1], margin_mm + column_mm + gutter_mm, y_, pages_.back());
        y_ += height;
    }

    /// Small type in two columns that run over the pages.
    void small(const SheetSection& section) {
        if ((section.new_page || y_ + least_small_mm > bottom()) && y_ > margin_mm)
            new_page();
        put_down(SheetSetter(fonts_, width(), type_.small_mm).heading(section.title, type_.head_mm));
        const double column_mm = (width() - gutter_mm) / 2;
        std::vector<Piece> all;
        for (const SheetItem& item : section.items)
            for (Piece& piece :
                 SheetSetter(fonts_, column_mm, type_.small_mm, 0.2, small_pitch_caps_).set(item))
                all.push_back(std::move(piece));
        double top = y_, y = top;
        int column = 0;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const double needed =
                all[i].height_mm + (all[i].with_next && i + 1 < all.size() ? all[i + 1].height_mm : 0);
            if (y + needed > bottom()) {
                if (++column == 2) {
                    column = 0;
                    new_page();
                    top = y_;
                }
                y = top;
            }
            put(all[i], margin_mm + column * (column_mm + gutter_mm), y, pages_.back());
            y += all[i].height_mm;
        }
        y_ = bottom();
    }

private:
    double bottom() const { return paper_.height_mm - foot_mm; }

    /// A part of the sheet begins a page, but where the page before has room for what it begins with.
    void new_page_unless_held(double height_mm) {
        if (y_ > margin_mm && y_ + height_mm > bottom())
            new_page();
    }

    void new_page() {
        pdf::Page page;
        page.width_mm = paper_.width_mm;
        page.height_mm = paper_.height_mm;
        pages_.push_back(std::move(page));
        y_ = margin_mm;
    }

    std::vector<Piece> pieces(const SheetSection& section, double width_mm, double cap_mm) const {
        const SheetSetter setter(fonts_, width_mm, cap_mm);
        std::vector<Piece> all{setter.heading(section.title, type_.head_mm)};
        for (const SheetItem& item : section.items)
            for (Piece& piece : setter.set(item))
                all.push_back(std::move(piece));
        return all;
    }

    void put_all(const std::vector<Piece>& all) {
        for (std::size_t i = 0; i < all.size(); ++i) {
            const double needed =
                all[i].height_mm + (all[i].with_next && i + 1 < all.size() ? all[i + 1].height_mm : 0);
            if (y_ + needed > bottom() && y_ > margin_mm)
                new_page();
            put_down(all[i]);
        }
    }

    void put_down(const Piece& piece) {
        if (y_ + piece.height_mm > paper_.height_mm)
            throw std::runtime_error("the sheet: one part is higher than a page");
        put(piece, margin_mm, y_, pages_.back());
        y_ += piece.height_mm;
    }

    void number_pages() {
        const double baseline = paper_.height_mm - 8;
        for (std::size_t i = 0; i < pages_.size(); ++i) {
            const auto measure = [&](const std::string& text) {
                return fonts_.width_mm(Face::sans, type_.small_mm, text);
            };
            const std::string number = fmt::format("{} of {}", i + 1, pages_.size());
            const double room = width() - measure(number) - 5;
            pages_[i].texts.push_back(
                {margin_mm, baseline, type_.small_mm, Face::sans, cut(content_.foot, room, measure)});
            pages_[i].texts.push_back({paper_.width_mm - margin_mm - measure(number), baseline,
                                       type_.small_mm, Face::sans, number});
        }
    }

    const SheetContent& content_;
    Paper paper_;
    const Fonts& fonts_;
    double small_pitch_caps_;
    SheetType type_;
    std::vector<pdf::Page> pages_;
    double y_ = 0;
};

std::vector<pdf::Page> lay(const SheetContent& content, const SheetOptions& options, const Fonts& fonts,
                           double small_pitch_caps) {
    Pages pages(content, options, fonts, small_pitch_caps);
    pages.title();
    const auto& all = content.sections;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto sided = [&](std::size_t k) {
            return k < all.size() && (all[k].place == SheetPlace::left || all[k].place == SheetPlace::right);
        };
        if (all[i].place == SheetPlace::small)
            pages.small(all[i]);
        else if (!sided(i))
            pages.whole(all[i]);
        else {
            // Lefts, then rights; a left after a right begins the next pair.
            std::vector<const SheetSection*> group{&all[i]};
            while (sided(i + 1) &&
                   !(all[i].place == SheetPlace::right && all[i + 1].place == SheetPlace::left))
                group.push_back(&all[++i]);
            pages.columns(group);
        }
    }
    return pages.take();
}

} // namespace

std::vector<pdf::Page> sheet_pages(const SheetContent& content, const SheetOptions& options,
                                   const Fonts& fonts) {
    const auto fits = [&](const std::vector<pdf::Page>& pages) { return pages.size() <= content.most_pages; };
    std::vector<pdf::Page> pages;
    for (const double pitch_caps : small_pitches_caps) {
        pages = lay(content, options, fonts, pitch_caps);
        if (fits(pages))
            return pages;
    }
    const auto without = [&](std::size_t gone) {
        return lay(with_sections_gone(content, gone), options, fonts, small_pitches_caps[0]);
    };
    std::size_t least = 1, most = sections_that_may_go(content);
    while (least < most) { // the fewest that may leave
        const std::size_t middle = (least + most) / 2;
        if (fits(without(middle)))
            most = middle;
        else
            least = middle + 1;
    }
    return without(most);
}

std::string sheet_pdf(const SheetContent& content, const SheetOptions& options) {
    const Fonts fonts(options.font_folder);
    pdf::Document document;
    document.title = "Plan: " + content.title;
    document.subject = "One athlete's plan for one day, not medical advice";
    document.pages = sheet_pages(content, options, fonts);
    return pdf::write(document, options.font_folder);
}

} // namespace tuck::faces
