// Sizes, capacity, and the check that measures a finished card.
#include "card/card_check.hpp"
#include "card/card_rows.hpp"
#include "card/card_size.hpp"
#include "paper/legibility.hpp"
#include "paper/pdf_read.hpp"

#include "card_plans.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace tuck;
using namespace tuck::faces;
using Catch::Matchers::Contains;

namespace {

CardOptions options_for(const std::string& size) {
    const CardFormat format = card_format(size);
    CardOptions options;
    options.size = format.size;
    options.reading_distance_mm = format.distance_mm;
    options.turns = format.turns;
    options.run_only = format.run_only;
    return options;
}

} // namespace

TEST_CASE("Named sizes are those of the standards", "[card]") {
    // ISO/IEC 7810 ID-1: 85.60 x 53.98 mm. ISO 216 A4: 210 x 297 mm. US Letter: 8.5 x 11 in of 25.4 mm.
    CHECK(card_format("pocket").size.width_mm == 85.60);
    CHECK(card_format("pocket").size.height_mm == 53.98);
    CHECK(paper_of("a4").height_mm == 297);
    CHECK(paper_of("letter").width_mm == Approx(8.5 * 25.4));
    CHECK(paper_of("letter").height_mm == Approx(11 * 25.4));
    CHECK(card_format("55x90").size.width_mm == 55);
    CHECK(card_format("55x90").size.height_mm == 90);
    for (const char* bad : {"huge", "55x", "x", "nanx90", "55x90mm", ""})
        CHECK_THROWS_WITH(card_format(bad), Contains("allowed: strip, stem, pocket, wrist"));
    CHECK_THROWS_WITH(paper_of("a5"), Contains("allowed: a4, letter"));
}

TEST_CASE("As many digits stand across a card as its geometry allows", "[card]") {
    // Digits of Liberation Sans Narrow Bold across 25 and 40 mm at 600 mm, upright, at 16 and 20 minutes of
    // arc: geometry with the advance measured on Debian's file with fontTools 4.38 (0.4561 em, capital 0.688
    // em).
    CHECK(digits_across(25, cap_mm_for(16, 600, 0)) == 13);
    CHECK(digits_across(25, cap_mm_for(20, 600, 0)) == 10);
    CHECK(digits_across(40, cap_mm_for(20, 600, 0)) == 17);
}

TEST_CASE("Capacity: size, distance and tilt give rows and characters", "[card]") {
    struct Row {
        CardSize size;
        double distance_mm, tilt_deg;
        int rows, characters;
    };
    // The contract: the strip holds five rows of 14 characters at 600 mm and 30 degrees. The rest of the
    // table is our own arithmetic, kept here so that a change is seen; it is held against real cards below.
    const CardCapacity strip = card_capacity(card_format("strip").size, 600, 30);
    CHECK(strip.rows >= 5);
    CHECK(strip.characters >= 14);
    for (const Row& row :
         {Row{{45, 160}, 600, 30, 11, 14}, Row{{45, 160}, 500, 30, 17, 17}, Row{{45, 160}, 600, 0, 15, 16},
          Row{{45, 160}, 700, 45, 4, 10}, Row{{45, 60}, 600, 30, 3, 14}, Row{{85.6, 53.98}, 400, 30, 7, 44},
          Row{{32, 160}, 400, 30, 23, 14}, Row{{25, 160}, 600, 30, 8, 7}}) {
        INFO(row.size.width_mm << " x " << row.size.height_mm << " at " << row.distance_mm << ", "
                               << row.tilt_deg);
        const CardCapacity capacity = card_capacity(row.size, row.distance_mm, row.tilt_deg);
        CHECK(capacity.rows == row.rows);
        CHECK(capacity.characters == row.characters);
    }
}

TEST_CASE("A row that is wider than the card takes more of its lines", "[card]") {
    // A row is as wide as "every 15' 4 sw B1": 17 characters.
    CHECK(lines_held({5, 17}) == 5);
    CHECK(lines_held({5, 44}) == 5);
    CHECK(lines_held({5, 16}) == 2);
    CHECK(lines_held({8, 9}) == 4);
    CHECK(lines_held({8, 5}) == 2);
    CHECK(lines_held({0, 17}) == 0);
    CHECK(lines_held({5, 0}) == 0);
}

TEST_CASE("A side whose rows go on says where", "[card]") {
    // Both sides must tell, or the rows on the other one are not looked for: common practice, no source.
    Plan plan = example::long_day();
    const CardCapacity stem = card_capacity(card_format("stem").size, 600, 30);
    plan.lines.clear();
    for (int i = 0; i < 3 * stem.rows; ++i)
        plan.lines.push_back(
            example::line(2, LegKind::bike, "0:" + std::to_string(10 + i), std::to_string(i + 1) + " chews"));
    std::string text;
    for (const CardLayout& sheet : card_layouts(plan, options_for("stem")))
        for (const PlacedText& placed : sheet.texts)
            text += placed.side >= 0 ? placed.text.utf8 + "\n" : "";
    CHECK_THAT(text, Contains("BIKE goes on: side ") && Contains("BIKE, continued\n"));
    CHECK(text.find("BIKE goes on: side ") < text.find("BIKE, continued"));
}

TEST_CASE("As many rows as the capacity says stand on one side", "[card]") {
    for (const char* name : {"strip", "stem", "pocket"}) {
        CardOptions options = options_for(name);
        options.turns = false;
        const CardCapacity capacity =
            card_capacity(options.size, options.reading_distance_mm, options.tilt_deg);
        Plan plan = example::hot_standard();
        plan.lines.clear();
        for (int i = 0; i < capacity.rows; ++i)
            plan.lines.push_back(
                example::line(2, LegKind::bike, "0:" + std::to_string(10 + i), "3 swallows B1"));
        std::size_t rows_on_first = 0;
        const auto layouts = card_layouts(plan, options);
        for (const PlacedText& text : layouts[0].texts)
            rows_on_first += text.role == Role::row && text.side == 0;
        INFO(name << ": " << capacity.rows);
        CHECK(rows_on_first == 2 * static_cast<std::size_t>(capacity.rows));
    }
}

TEST_CASE("A finished card keeps its limits in every size, and the check sees it when it does not",
          "[card][slow]") {
    for (const char* name : {"strip", "stem", "pocket", "wrist", "60x140"})
        for (const Plan& plan : {example::sprint(), example::hot_standard()}) {
            const CardOptions options = options_for(name);
            const auto layouts = card_layouts(plan, options);
            for (const CardFinding& finding : check_card(card_pdf(layouts, options), layouts, options)) {
                INFO(name << ": " << finding.what << ": " << finding.measured << "; " << finding.limit);
                CHECK(finding.ok);
            }
        }
    const auto failures = [](const std::string& pdf, const std::vector<CardLayout>& layouts,
                             const CardOptions& options) {
        std::string all;
        for (const CardFinding& finding : check_card(pdf, layouts, options))
            all += finding.ok ? "" : finding.what + ";";
        return all;
    };
    const CardOptions options;
    const auto layouts = card_layouts(example::hot_standard(), options);
    // Seen from further away the same letters are too small.
    CardOptions far = options;
    far.reading_distance_mm = 700;
    CHECK_THAT(failures(card_pdf(layouts, options), layouts, far),
               Contains("rows: smallest") && Contains("headings") && Contains("notes and help"));
    auto moved = layouts;
    moved[0].lines.clear();
    CHECK_THAT(failures(card_pdf(moved, options), layouts, options),
               Contains("cut marks") && Contains("check bar"));
    moved = layouts;
    for (PlacedText& text : moved[0].texts)
        if (text.role == Role::row) {
            text.text.x_mm = layouts[0].sides[0].x_mm + 1;
            text.text.utf8 = "no such row of a plan";
        }
    CHECK_THAT(failures(card_pdf(moved, options), layouts, options), Contains("texts that read back") &&
                                                                         Contains("text to the cut") &&
                                                                         Contains("longest line of a row"));
    CHECK_THROWS_WITH(check_card("no PDF", layouts, options), Contains("cannot be read back"));
}

TEST_CASE("A card that may be turned is laid the way that needs fewer sides", "[card]") {
    CardOptions options = options_for("pocket");
    const auto sides = [&](const CardOptions& o) {
        std::size_t all = 0;
        for (const CardLayout& sheet : card_layouts(example::long_day(), o))
            all += sheet.sides.size();
        return all;
    };
    CardOptions upright = options, across = options;
    upright.turns = across.turns = false;
    upright.size = {53.98, 85.6};
    CHECK(sides(options) == std::min(sides(upright), sides(across)));
}

TEST_CASE("A strip for the run carries the run alone", "[card]") {
    const auto layouts = card_layouts(example::long_day(), options_for("wrist"));
    std::string text;
    for (const PlacedText& placed : layouts[0].texts)
        text += placed.side >= 0 ? placed.text.utf8 + " " : "";
    CHECK_THAT(text, Contains("RUN") && !Contains("BIKE") && !Contains("bike clock") && Contains("STOP"));
}

TEST_CASE("Cards of a squad fill the sheets in order", "[card]") {
    CardOptions options;
    options.size = {45, 160};
    CardSheets sheets(options);
    const Fonts fonts;
    CHECK(sheets.finish().empty());
    for (const Plan& plan : {example::hot_standard(), example::sprint(), example::long_day()})
        sheets.add(*CardSheets::prepare(plan, options, fonts));
    const std::string bytes = sheets.finish();
    const pdf::Found file = pdf::read(bytes);
    std::string all;
    for (const pdf::FoundPage& page : file.pages)
        for (const pdf::FoundText& text : page.texts)
            all += text.utf8 + "\n";
    const auto at = [&](const std::string& text) { return all.find(text); };
    CHECK(at("Harbour triathlon") < at("Lakeside sprint"));
    CHECK(at("Lakeside sprint") < at("Moor and coast"));
    CHECK_THAT(all, Contains("No painkillers of the NSAID kind"));
    // Six sides 45 mm wide stand edge to edge on an A4 sheet laid across; then the notes with the index.
    CHECK(file.pages.size() == 2);
    CHECK_THAT(all, Contains("Sheet of each card"));
    CHECK(file.unscaled);
    CHECK(sheets.cards() == 0);
}
