#include "card/card_sheet.hpp"

#include "paper/legibility.hpp"
#include "paper/text_fit.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace tuck::faces {
namespace {

constexpr double margin_mm = 15, cap_mm = 2.1, heading_cap_mm = 2.5, title_cap_mm = 3.2, pitch_mm = 3.9,
                 paragraph_gap_mm = 1.5;
constexpr double column_gap_mm = 10, below_card_mm = 14, foot_mm = 12;
constexpr double mark_offset_mm = 2, mark_length_mm = 4, mark_width_mm = 0.1;
constexpr double fold_inset_mm = 3, fold_dash_mm = 1.5;
constexpr double check_bar_mm = 50, check_bar_y_mm = 24, squad_check_bar_y_mm = 13, outer_mark_mm = 4,
                 index_below_notes_mm = 165;
constexpr char sealing[] = "Cut along the marks and round the corners. Seal in a matte clear pouch or under "
                           "clear tape with a rim of 3 "
                           "to 5 mm all round. Laser print stands water better than ink.";

void put(CardLayout& layout, const Fonts& fonts, Face face, double cap, double x, double baseline,
         const std::string& text) {
    layout.texts.push_back(
        {Role::sheet, -1, fonts.width_mm(face, cap, text), {x, baseline, cap, face, text}});
}

void add_cut_marks(const Trim& trim, CardLayout& layout) {
    for (const int right : {0, 1})
        for (const int low : {0, 1}) {
            const double x = trim.x_mm + right * trim.width_mm, y = trim.y_mm + low * trim.height_mm;
            const double dx = right ? 1 : -1, dy = low ? 1 : -1;
            const double near = mark_offset_mm, far = mark_offset_mm + mark_length_mm;
            layout.lines.push_back({x + dx * near, y, x + dx * far, y, mark_width_mm});
            layout.lines.push_back({x, y + dy * near, x, y + dy * far, mark_width_mm});
        }
}

/// Half way between two sides of one row: folded there, they stand back to back.
void add_fold_lines(CardLayout& layout) {
    std::size_t i = 0;
    while (i + 1 < layout.sides.size()) {
        const Trim &left = layout.sides[i], &right = layout.sides[i + 1];
        const bool beside = left.y_mm == right.y_mm;
        i += beside ? 2 : 1;
        if (!beside)
            continue;
        const double x = (left.x_mm + left.width_mm + right.x_mm) / 2;
        layout.lines.push_back({x, left.y_mm + fold_inset_mm, x, left.y_mm + left.height_mm - fold_inset_mm,
                                mark_width_mm, fold_dash_mm});
    }
}

void add_check_bar(const Fonts& fonts, CardLayout& layout, double y = check_bar_y_mm) {
    const double x = margin_mm;
    layout.lines.push_back({x, y, x + check_bar_mm, y, 0.4});
    for (const double end : {x, x + check_bar_mm})
        layout.lines.push_back({end, y - 1.5, end, y + 1.5, 0.2});
    put(layout, fonts, Face::sans, cap_mm, x + check_bar_mm + 4, y + cap_mm / 2,
        fmt::format("Print at 100 %; this bar must measure {:g} mm.", check_bar_mm));
}

/// Paragraphs from the top of a column down.
class Column {
public:
    Column(CardLayout& layout, const Fonts& fonts, double x, double y)
        : layout_(layout), fonts_(fonts), x_(x), y_(y) {}

    static double width(const CardLayout& layout) {
        return (layout.sheet_width_mm - 2 * margin_mm - column_gap_mm) / 2;
    }

    void add(Face face, const std::string& text) {
        if (!add_if_room(face, text, 0))
            throw std::runtime_error("the notes do not fit on the sheet; choose a card that is less high");
    }

    /// False, and nothing added, when the sheet would end before the text and `reserve` more lines do.
    bool add_if_room(Face face, const std::string& text, int reserve) {
        const double cap = face == Face::narrow_bold ? heading_cap_mm : cap_mm;
        const auto lines = wrap(text, width(layout_),
                                [&](const std::string& part) { return fonts_.width_mm(face, cap, part); });
        const double end = y_ + static_cast<double>(static_cast<int>(lines.size()) - 1 + reserve) * pitch_mm;
        if (end > layout_.sheet_height_mm - foot_mm)
            return false;
        for (const std::string& line : lines) {
            put(layout_, fonts_, face, cap, x_, y_, line);
            y_ += pitch_mm;
        }
        y_ += paragraph_gap_mm;
        return true;
    }

private:
    CardLayout& layout_;
    const Fonts& fonts_;
    double x_, y_;
};

std::string letters(const char* what, double cap, const CardOptions& options) {
    return fmt::format("{} {:.1f} mm = {:.1f}'", what, cap,
                       arcmin_of(cap, options.reading_distance_mm, options.tilt_deg));
}

/// Measured sizes: heights of capitals and the angle that they subtend (minutes of arc).
std::string letter_sizes(const TypeSizes& sizes, const CardOptions& options) {
    return fmt::format(
        "Letter sizes (height of a capital, and its angle at {:g} mm, card tilted {:g} degrees): {}, "
        "{}, {}. Wanted: at least {:g}', {:g}', {:g}'.",
        options.reading_distance_mm, options.tilt_deg, letters("rows", sizes.row, options),
        letters("headings", sizes.label, options), letters("help lines", sizes.help, options), row_arcmin,
        label_arcmin, help_arcmin);
}

/// Whose card this is; what had to be cut on the card itself stands here whole.
std::string whose(const CardContent& card) {
    std::string all = card.kind;
    for (const std::string& fact :
         {card.race, card.athlete, card.bib.empty() ? "" : "bib " + card.bib, card.wave})
        if (!fact.empty())
            all += (all == card.kind ? ": " : ", ") + fact;
    return all;
}

bool runs_later(const CardContent& card) {
    return std::any_of(card.sections.begin(), card.sections.end(),
                       [](const CardSection& section) { return section.leg == LegKind::run; });
}

bool any_cut(const CardLayout& layout) {
    return std::any_of(layout.texts.begin(), layout.texts.end(),
                       [](const PlacedText& text) { return text.cut; });
}

} // namespace

void add_sheet_head(const CardContent& card, const Fonts& fonts, CardLayout& layout) {
    layout.title = card.race.empty() ? card.kind : card.kind + ": " + card.race;
    double y = 12;
    for (const std::string& line :
         wrap_at_most(2, whose(card), layout.sheet_width_mm - 2 * margin_mm, [&](const std::string& part) {
             return fonts.width_mm(Face::narrow_bold, title_cap_mm, part);
         })) {
        put(layout, fonts, Face::narrow_bold, title_cap_mm, margin_mm, y, line);
        y += 1.6 * title_cap_mm;
    }
    add_check_bar(fonts, layout);
    for (const Trim& trim : layout.sides)
        add_cut_marks(trim, layout);
    add_fold_lines(layout);
}

void add_sheet_notes(const CardContent& card, const TypeSizes& sizes, bool several_sides,
                     const CardOptions& options, const Fonts& fonts, CardLayout& layout) {
    const double y = layout.sides.back().y_mm + layout.sides.back().height_mm + below_card_mm;
    Column left(layout, fonts, margin_mm, y);
    left.add(Face::narrow_bold, "Before the day");
    left.add(Face::sans, sealing);
    if (several_sides)
        left.add(
            Face::sans,
            fmt::format("Fold on the dashed line to put two sides back to back, or tape them in a row{}.",
                        runs_later(card) ? "; a side that begins with the run can be worn from T2 on" : ""));
    if (!card.bottles.empty())
        left.add(Face::sans, fmt::format("Write {} on the bottle{}.", fmt::join(card.bottles, ", "),
                                         card.bottles.size() > 1 ? "s" : ""));
    left.add(Face::sans, letter_sizes(sizes, options));

    Column right(layout, fonts, margin_mm + Column::width(layout) + column_gap_mm, y);
    right.add(Face::narrow_bold, "One athlete's plan for one day, not medical advice");
    right.add(Face::sans,
              "The event's rules and its medical staff come first. This card is for nobody else.");
    if (any_cut(layout))
        right.add(Face::sans, "What ends in … was cut to fit; it stands whole at the head of this sheet.");
    for (const std::string& caution : card.cautions)
        if (!right.add_if_room(Face::sans, caution, 2)) {
            right.add(Face::sans, "There are more cautions: read the whole plan.");
            break;
        }
}

void add_holes(const Trim& side, CardLayout& layout) {
    constexpr int corners = 24;
    constexpr double from_end_mm = 6;
    for (const double x : {side.x_mm + hole_from_edge_mm, side.x_mm + side.width_mm - hole_from_edge_mm})
        for (const double y : {side.y_mm + from_end_mm, side.y_mm + side.height_mm - from_end_mm}) {
            pdf::Path hole;
            for (int i = 0; i <= corners; ++i) {
                const double angle = 2 * std::numbers::pi * i / corners;
                hole.points.push_back({x + hole_mm / 2 * std::sin(angle), y - hole_mm / 2 * std::cos(angle)});
            }
            hole.width_mm = 0.2;
            layout.paths.push_back(std::move(hole));
        }
}

void add_glue_tabs(const Fonts& fonts, CardLayout& layout) {
    constexpr double tab_mm = 9, slope_mm = 3;
    for (const Trim& side : layout.sides) {
        const bool first_of_row =
            std::none_of(layout.sides.begin(), layout.sides.end(), [&](const Trim& other) {
                return other.y_mm == side.y_mm && other.x_mm < side.x_mm;
            });
        if (!first_of_row || side.x_mm < tab_mm)
            continue;
        const double low = side.y_mm + side.height_mm;
        pdf::Path tab;
        tab.points = {{side.x_mm, side.y_mm + slope_mm},
                      {side.x_mm - tab_mm, side.y_mm + 2 * slope_mm},
                      {side.x_mm - tab_mm, low - 2 * slope_mm},
                      {side.x_mm, low - slope_mm}};
        tab.width_mm = mark_width_mm;
        layout.paths.push_back(tab);
        layout.lines.push_back(
            {side.x_mm, side.y_mm + slope_mm, side.x_mm, low - slope_mm, mark_width_mm, fold_dash_mm});
        put(layout, fonts, Face::sans, cap_mm, side.x_mm - tab_mm + 1, side.y_mm + side.height_mm / 2,
            "glue");
    }
}

void add_squad_head(const std::string& title, std::size_t sheet, const Fonts& fonts, CardLayout& layout) {
    const std::string line =
        fmt::format("{} · sheet {} · each card for its own athlete, not medical advice", title, sheet);
    put(layout, fonts, Face::narrow_bold, heading_cap_mm, margin_mm, 8,
        cut(line, layout.sheet_width_mm - 2 * margin_mm, [&](const std::string& part) {
            return fonts.width_mm(Face::narrow_bold, heading_cap_mm, part);
        }));
    add_check_bar(fonts, layout, squad_check_bar_y_mm);
}

void add_cuts(const CardSize& size, const std::vector<Trim>& folds, CardLayout& layout) {
    const auto is_fold = [&](double x, double y) {
        return std::any_of(folds.begin(), folds.end(), [&](const Trim& left) {
            return std::abs(left.x_mm + left.width_mm - x) < 0.01 && std::abs(left.y_mm - y) < 0.01;
        });
    };
    for (const Trim& side : layout.sides) {
        const double right = side.x_mm + side.width_mm, low = side.y_mm + side.height_mm;
        for (const double y : {side.y_mm, low})
            layout.lines.push_back({side.x_mm, y, right, y, mark_width_mm});
        for (const double x : {side.x_mm, right}) {
            if (is_fold(x, side.y_mm)) {
                if (x == right)
                    layout.lines.push_back(
                        {x, side.y_mm + fold_inset_mm, x, low - fold_inset_mm, mark_width_mm, fold_dash_mm});
            } else {
                layout.lines.push_back({x, side.y_mm, x, low, mark_width_mm});
            }
        }
    }
    // Marks beyond the outer edges, for a guillotine.
    double left = layout.sheet_width_mm, top = layout.sheet_height_mm, right = 0, low = 0;
    for (const Trim& side : layout.sides) {
        left = std::min(left, side.x_mm);
        top = std::min(top, side.y_mm);
        right = std::max(right, side.x_mm + size.width_mm);
        low = std::max(low, side.y_mm + size.height_mm);
    }
    for (const Trim& side : layout.sides) {
        for (const double y : {side.y_mm, side.y_mm + size.height_mm}) {
            layout.lines.push_back({left - outer_mark_mm, y, left - 1, y, mark_width_mm});
            layout.lines.push_back({right + 1, y, right + outer_mark_mm, y, mark_width_mm});
        }
        for (const double x : {side.x_mm, side.x_mm + size.width_mm}) {
            layout.lines.push_back({x, top - outer_mark_mm, x, top - 1, mark_width_mm});
            layout.lines.push_back({x, low + 1, x, low + outer_mark_mm, mark_width_mm});
        }
    }
}

std::vector<CardLayout> squad_notes(const std::vector<std::string>& cautions,
                                    const std::vector<std::pair<std::string, std::size_t>>& index,
                                    const Paper& paper, const Fonts& fonts) {
    const auto page = [&] {
        CardLayout layout;
        layout.sheet_width_mm = paper.width_mm;
        layout.sheet_height_mm = paper.height_mm;
        return layout;
    };
    std::vector<CardLayout> pages{page()};
    CardLayout& first = pages.front();
    Column left(first, fonts, margin_mm, 20);
    left.add(Face::narrow_bold, "With every card");
    left.add(Face::sans, sealing);
    left.add(Face::sans,
             "Cards stand in the order of the roster. Cut on the lines, fold on the dashed ones: then "
             "two sides of one athlete stand back to back.");
    Column right(first, fonts, margin_mm + Column::width(first) + column_gap_mm, 20);
    right.add(Face::narrow_bold, "Say this to every athlete");
    for (const std::string& caution : cautions)
        right.add(Face::sans, caution);
    // Who is on which sheet, in columns: below the notes, and on pages of its own where they are too many.
    constexpr std::size_t columns = 3;
    const double column_mm = (paper.width_mm - 2 * margin_mm) / columns;
    std::size_t rows = 0, on_page = 0;
    double top_mm = index_below_notes_mm;
    const auto begin = [&] {
        put(pages.back(), fonts, Face::narrow_bold, heading_cap_mm, margin_mm, top_mm, "Sheet of each card");
        rows = static_cast<std::size_t>((paper.height_mm - top_mm - foot_mm) / pitch_mm) - 1;
        on_page = 0;
    };
    if (!index.empty())
        begin();
    for (const auto& [who, sheet] : index) {
        if (on_page == columns * rows) {
            pages.push_back(page());
            top_mm = 20;
            begin();
        }
        const auto column = on_page / rows;
        const double x = margin_mm + static_cast<double>(column) * column_mm,
                     y = top_mm + static_cast<double>(on_page % rows + 1) * pitch_mm + 1;
        put(pages.back(), fonts, Face::sans, cap_mm, x, y, fmt::format("{}", sheet));
        put(pages.back(), fonts, Face::sans, cap_mm, x + 10, y,
            cut(who, column_mm - 14,
                [&](const std::string& part) { return fonts.width_mm(Face::sans, cap_mm, part); }));
        ++on_page;
    }
    return pages;
}

} // namespace tuck::faces
