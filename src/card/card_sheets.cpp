// Cards of a squad, side after side on sheets.
#include "card/card.hpp"

#include "card/card_place.hpp"
#include "card/card_sheet.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::faces {
namespace {

constexpr double top_mm = 20, foot_mm = 8, least_margin_mm = 5;

/// Sides edge to edge: one cut parts two athletes, and no paper lies between.
struct Sheet {
    double width_mm = 0, height_mm = 0;
    std::size_t columns = 1, rows = 1;
    double left_mm = 0;

    std::size_t places() const { return columns * rows; }
    /// How many cards of `sides` sides it holds: two sides of one card stand beside each other, a third
    /// anywhere.
    std::size_t cards(std::size_t sides) const {
        return sides % 2 == 1 ? places() / sides : rows * (columns / 2) * 2 / sides;
    }
    Trim trim(std::size_t place, const CardSize& size) const {
        const std::size_t row = place / columns;
        return {left_mm + static_cast<double>(place % columns) * size.width_mm,
                top_mm + static_cast<double>(row) * size.height_mm, size.width_mm, size.height_mm};
    }
};

Sheet sheet_of(double width_mm, double height_mm, const CardSize& size) {
    const auto fitting = [](double room_mm, double side_mm) {
        return static_cast<std::size_t>(std::max(1.0, std::floor((room_mm + 1e-6) / side_mm)));
    };
    Sheet sheet{width_mm, height_mm, fitting(width_mm - 2 * least_margin_mm, size.width_mm),
                fitting(height_mm - top_mm - foot_mm, size.height_mm), 0};
    sheet.left_mm = (width_mm - static_cast<double>(sheet.columns) * size.width_mm) / 2;
    return sheet;
}

/// The paper, upright or across, whichever holds more cards of so many sides.
Sheet sheet_for(const Paper& paper, const CardSize& size, std::size_t sides) {
    const Sheet upright = sheet_of(paper.width_mm, paper.height_mm, size);
    const Sheet across = sheet_of(paper.height_mm, paper.width_mm, size);
    const bool fits_across = size.height_mm <= paper.width_mm - top_mm - foot_mm;
    return fits_across && across.cards(sides) > upright.cards(sides) ? across : upright;
}

} // namespace

struct CardSheets::Prepared {
    SetCard card;
    std::string kind, race, who;
    std::vector<std::string> cautions;
};

struct CardSheets::Impl {
    explicit Impl(const CardOptions& o) : options(o), fonts(o.font_folder) {}

    void begin_sheet(const SetCard& card) {
        sheet = sheet_for(options.paper, card.size, card.sides.size());
        layout = {};
        layout.sheet_width_mm = sheet.width_mm;
        layout.sheet_height_mm = sheet.height_mm;
        size = card.size;
        next = 0;
    }

    void end_sheet() {
        if (layout.sides.empty())
            return;
        add_squad_head(title, writer->pages() + 1, fonts, layout);
        add_cuts(size, folds, layout);
        writer->add(page_of(layout));
        layout = {};
        folds.clear();
    }

    void put(const SetCard& card, std::size_t side) {
        const Trim trim = sheet.trim(next++, size);
        layout.sides.push_back(trim);
        place_side(card, side, trim, static_cast<int>(layout.sides.size()) - 1, layout);
        if (options.holes)
            add_holes(trim, layout);
    }

    /// Whether `count` sides stand beside each other in what is left of the row.
    bool fits(std::size_t count) const {
        return next + count <= sheet.places() &&
               (count > sheet.columns || next % sheet.columns + count <= sheet.columns);
    }

    void put_pair(const SetCard& card, std::size_t first) {
        while (!fits(2) && next < sheet.places())
            ++next;
        if (next >= sheet.places()) {
            end_sheet();
            begin_sheet(card);
        }
        const Trim left = sheet.trim(next, size);
        put(card, first);
        if (sheet.columns > 1)
            folds.push_back(left);
        put_single(card, first + 1);
    }

    void put_single(const SetCard& card, std::size_t side) {
        if (next >= sheet.places()) {
            end_sheet();
            begin_sheet(card);
        }
        put(card, side);
    }

    CardOptions options;
    Fonts fonts;
    std::unique_ptr<pdf::Writer> writer; // of the volume that is being filled
    CardLayout layout;                   // of the sheet that is being filled
    Sheet sheet;
    std::size_t next = 0;    // place on it
    std::vector<Trim> folds; // left sides of pairs
    CardSize size;
    std::string title;
    std::vector<std::string> cautions;
    std::vector<std::pair<std::string, std::size_t>> index; // who, and the sheet
    std::size_t cards = 0;
};

CardSheets::CardSheets(const CardOptions& options) {
    require_in_range(options);
    impl_ = std::make_unique<Impl>(options);
}

CardSheets::~CardSheets() = default;

std::shared_ptr<const CardSheets::Prepared> CardSheets::prepare(const Plan& plan, const CardOptions& options,
                                                                const Fonts& fonts) {
    CardContent content;
    SetCard card = set_plan(plan, options, fonts, content);
    return std::make_shared<const Prepared>(Prepared{
        std::move(card), content.kind, content.race,
        content.bib.empty() ? content.athlete : content.bib + "  " + content.athlete, content.cautions});
}

std::size_t CardSheets::add(const Prepared& prepared) {
    Impl& all = *impl_;
    const SetCard& card = prepared.card;
    if (all.cards++ == 0) {
        all.title = prepared.race.empty() ? prepared.kind + "s" : prepared.kind + "s: " + prepared.race;
        all.cautions = prepared.cautions;
        all.writer = std::make_unique<pdf::Writer>(
            all.title, "Each card is one athlete's plan for one day, not medical advice", all.fonts,
            all.options.font_folder);
    }
    if (all.layout.sides.empty() || all.size.width_mm != card.size.width_mm) {
        all.end_sheet();
        all.begin_sheet(card);
    }
    // The odd side first where a pair would leave the last place of a row empty.
    const std::size_t sides = card.sides.size();
    bool single_left = sides % 2 == 1;
    for (std::size_t side = 0; side + 1 < sides; side += 2) {
        if (single_left && !all.fits(2) && all.fits(1)) {
            all.put_single(card, sides - 1);
            single_left = false;
        }
        all.put_pair(card, side);
        if (side == 0)
            all.index.emplace_back(prepared.who, all.writer->pages() + 1);
    }
    if (single_left)
        all.put_single(card, sides - 1);
    if (sides == 1)
        all.index.emplace_back(prepared.who, all.writer->pages() + 1);
    return all.index.back().second;
}

std::size_t CardSheets::cards() const {
    return impl_->cards;
}

std::string CardSheets::finish() {
    Impl& all = *impl_;
    if (all.cards == 0)
        return "";
    all.end_sheet();
    for (const CardLayout& page : squad_notes(all.cautions, all.index, all.options.paper, all.fonts))
        all.writer->add(page_of(page));
    all.index.clear();
    std::string bytes = all.writer->finish();
    all.writer.reset();
    all.cards = 0;
    return bytes;
}

} // namespace tuck::faces
