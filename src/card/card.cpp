#include "card/card.hpp"

#include "card/card_place.hpp"
#include "card/card_sheet.hpp"
#include "card/card_sides.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace tuck::faces {
namespace {

constexpr double top_mm = 34, notes_mm = 83, tallest_side_mm = 180;
constexpr std::size_t most_sides = 12;

void require_in_range(const char* what, double value, double least, double most, const char* unit) {
    if (!(value >= least && value <= most))
        throw std::runtime_error(fmt::format("card {}: {:g} is out of range; allowed {:g} to {:g} {}", what,
                                             value, least, most, unit));
}

void require_glyphs(const CardContent& card, const Fonts& fonts) {
    for_each_text(card, [&](const std::string& text, const char* what) {
        for (const Face face : {Face::sans, Face::narrow, Face::narrow_bold})
            fonts.require_glyphs(face, text, what);
    });
}

/// The better of two ways to lay a card that may be turned: fewer sides, else as asked.
std::optional<SetCard> set_best(const CardContent& whole, const Fonts& fonts, const CardOptions& options) {
    const auto set = [&](const CardSize& size) {
        const bool low = size.height_mm < low_card_mm;
        auto card = set_card(low ? for_low_card(whole) : whole, fonts, options, size, most_sides);
        // Brief words where they let the run go on by itself in T2, with the whole STOP on both pieces.
        if (card && !low && !card->run_apart)
            if (auto brief = set_card(in_brief(whole), fonts, options, size, card->sides.size());
                brief && brief->run_apart)
                card = std::move(brief);
        return card;
    };
    auto best = set(options.size);
    const CardSize turned{options.size.height_mm, options.size.width_mm};
    if (options.turns && turned.width_mm != turned.height_mm)
        if (auto other = set(turned); other && (!best || other->sides.size() < best->sides.size()))
            best = std::move(other);
    return best;
}

/// What a thin tube leaves of the card.
std::string on_the_tube(const CardOptions& options) {
    const double facing = facing_mm(options.size.width_mm, options.tube_mm);
    return facing < options.size.width_mm
               ? fmt::format(" ({:.0f} mm of its width face you on a tube of {:g} mm)", facing,
                             options.tube_mm)
               : "";
}

/// Fewer sides; then no leg parted; then a run that goes on by itself; then rows that stand on one line,
/// which the eye takes in at once.
bool better(const SetCard& a, const SetCard& b) {
    if (a.sides.size() != b.sides.size())
        return a.sides.size() < b.sides.size();
    if (a.parted != b.parted)
        return !a.parted;
    return a.run_apart != b.run_apart ? a.run_apart : a.row_lines < b.row_lines - 0.2;
}

} // namespace

void require_in_range(const CardOptions& options) {
    const double least_height = options.turns ? 25 : 40;
    require_in_range("width", options.size.width_mm, 25, 180, "mm");
    require_in_range("height", options.size.height_mm, least_height, tallest_side_mm, "mm");
    require_in_range("reading distance", options.reading_distance_mm, 300, 1000, "mm");
    require_in_range("tilt", options.tilt_deg, 0, 60, "degrees");
    if (options.tube_mm != 0)
        require_in_range("tube", options.tube_mm, 25, 120, "mm");
}

SetCard set_plan(const Plan& plan, const CardOptions& options, const Fonts& fonts, CardContent& content) {
    std::optional<SetCard> card;
    for (const RowForm form : {RowForm::words, RowForm::short_words, RowForm::shortest}) {
        if (form == RowForm::shortest && card && card->sides.size() < 3)
            break; // only to save a side of many
        CardContent tried = card_content(plan, options.run_only, form);
        require_glyphs(tried, fonts);
        auto set = set_best(tried, fonts, options);
        if (set && (!card || better(*set, *card))) {
            content = std::move(tried);
            card = std::move(set);
        }
    }
    if (!card)
        throw std::runtime_error(fmt::format("the card does not fit on {} sides of {:g} x {:g} mm with "
                                             "letters that can be read at {:g} mm{}; choose "
                                             "a larger card or a plan with fewer lines",
                                             most_sides, options.size.width_mm, options.size.height_mm,
                                             options.reading_distance_mm, on_the_tube(options)));
    return *card;
}

std::vector<CardLayout> card_layouts(const Plan& plan, const CardOptions& options) {
    require_in_range(options);
    return card_layouts(plan, options, Fonts(options.font_folder));
}

std::vector<CardLayout> card_layouts(const Plan& plan, const CardOptions& options, const Fonts& fonts) {
    require_in_range(options);
    CardContent content;
    const SetCard card = set_plan(plan, options, fonts, content);
    Grid places = grid(options.paper.width_mm, options.paper.height_mm - top_mm - notes_mm, card.size);
    if (card.sides.size() > places.columns && places.columns > 1)
        places.columns -= places.columns % 2; // the two sides of a fold stand in one row
    const std::size_t on_a_sheet = places.columns * places.rows;
    std::vector<CardLayout> sheets;
    for (std::size_t first = 0; first < card.sides.size(); first += on_a_sheet) {
        CardLayout layout;
        layout.sheet_width_mm = options.paper.width_mm;
        layout.sheet_height_mm = options.paper.height_mm;
        const std::size_t count = std::min(on_a_sheet, card.sides.size() - first);
        layout.sides = trims(layout.sheet_width_mm, top_mm, card.size, places, count);
        add_sheet_head(content, fonts, layout);
        for (std::size_t side = 0; side < count; ++side)
            place_side(card, first + side, layout.sides[side], static_cast<int>(side), layout);
        if (options.holes)
            for (std::size_t side = 0; side < count; ++side)
                add_holes(layout.sides[side], layout);
        if (options.glue)
            add_glue_tabs(fonts, layout);
        if (first == 0)
            add_sheet_notes(content, card.type, card.sides.size() > 1, options, fonts, layout);
        sheets.push_back(std::move(layout));
    }
    return sheets;
}

pdf::Page page_of(const CardLayout& layout) {
    pdf::Page page;
    page.width_mm = layout.sheet_width_mm;
    page.height_mm = layout.sheet_height_mm;
    page.lines = layout.lines;
    page.boxes = layout.boxes;
    page.paths = layout.paths;
    for (const PlacedText& placed : layout.texts)
        page.texts.push_back(placed.text);
    return page;
}

std::string card_pdf(const std::vector<CardLayout>& layouts, const CardOptions& options) {
    pdf::Document document;
    document.subject = "One athlete's plan for one day, not medical advice";
    document.title = layouts.at(0).title;
    for (const CardLayout& layout : layouts)
        document.pages.push_back(page_of(layout));
    return pdf::write(document, options.font_folder);
}

std::string card_pdf(const Plan& plan, const CardOptions& options) {
    return card_pdf(card_layouts(plan, options), options);
}

} // namespace tuck::faces
