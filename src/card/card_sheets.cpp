// Cards of a squad, side after side on sheets.
#include "card/card.hpp"

#include "card/card_place.hpp"
#include "card/card_sheet.hpp"

#include <fmt/format.h>

namespace tuck::faces {
namespace {

constexpr double top_mm = 27, foot_mm = 14;

/// The paper, upright or across, whichever holds more sides.
struct Sheet {
    double width_mm, height_mm;
    Grid places;
};

Sheet sheet_for(const Paper& paper, const CardSize& size) {
    const auto sheet = [&](double width, double height) {
        return Sheet{width, height, grid(width, height - top_mm - foot_mm, size)};
    };
    const Sheet upright = sheet(paper.width_mm, paper.height_mm);
    const Sheet across = sheet(paper.height_mm, paper.width_mm);
    const bool fits_across = size.height_mm <= paper.width_mm - top_mm - foot_mm;
    const auto places = [](const Sheet& s) { return s.places.columns * s.places.rows; };
    return fits_across && places(across) > places(upright) ? across : upright;
}

} // namespace

struct CardSheets::Prepared {
    SetCard card;
    std::string kind, race;
    std::vector<std::string> cautions;
};

struct CardSheets::Impl {
    explicit Impl(const CardOptions& o) : options(o), fonts(o.font_folder) {}

    void begin_sheet(const SetCard& card) {
        const Sheet sheet = sheet_for(options.paper, card.size);
        layout = {};
        layout.sheet_width_mm = sheet.width_mm;
        layout.sheet_height_mm = sheet.height_mm;
        places =
            trims(sheet.width_mm, top_mm, card.size, sheet.places, sheet.places.columns * sheet.places.rows);
        size = card.size;
    }

    void end_sheet() {
        if (layout.sides.empty())
            return;
        add_squad_head(title, writer->pages() + 1, fonts, layout);
        writer->add(page_of(layout));
        layout = {};
        places.clear();
    }

    CardOptions options;
    Fonts fonts;
    std::unique_ptr<pdf::Writer> writer; // of the volume that is being filled
    CardLayout layout;                   // of the sheet that is being filled
    std::vector<Trim> places;
    CardSize size;
    std::string title;
    std::vector<std::string> cautions;
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
    return std::make_shared<const Prepared>(
        Prepared{std::move(card), content.kind, content.race, content.cautions});
}

void CardSheets::add(const Prepared& prepared) {
    Impl& all = *impl_;
    const SetCard& card = prepared.card;
    if (all.cards++ == 0) {
        all.title = prepared.race.empty() ? prepared.kind + "s" : prepared.kind + "s: " + prepared.race;
        all.cautions = prepared.cautions;
        all.writer = std::make_unique<pdf::Writer>(
            all.title, "Each card is one athlete's plan for one day, not medical advice", all.fonts,
            all.options.font_folder);
    }
    for (std::size_t side = 0; side < card.sides.size(); ++side) {
        const bool other_way = all.size.width_mm != card.size.width_mm;
        if (all.layout.sides.size() == all.places.size() || other_way)
            all.end_sheet();
        if (all.places.empty())
            all.begin_sheet(card);
        const std::size_t place = all.layout.sides.size();
        all.layout.sides.push_back(all.places[place]);
        place_side(card, side, all.places[place], static_cast<int>(place), all.layout);
    }
}

std::size_t CardSheets::cards() const {
    return impl_->cards;
}

std::string CardSheets::finish() {
    Impl& all = *impl_;
    if (all.cards == 0)
        return "";
    all.end_sheet();
    CardLayout last;
    last.sheet_width_mm = all.options.paper.width_mm;
    last.sheet_height_mm = all.options.paper.height_mm;
    add_squad_notes(all.cautions, all.fonts, last);
    all.writer->add(page_of(last));
    std::string bytes = all.writer->finish();
    all.writer.reset();
    all.cards = 0;
    return bytes;
}

} // namespace tuck::faces
