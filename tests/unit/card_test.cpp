// The card: can it be read, is everything on it once, and is nothing on it that has no business there?
#include "card/card.hpp"
#include "card/card_check.hpp"
#include "card/card_content.hpp"
#include "card/card_rows.hpp"
#include "card/card_text.hpp"
#include "paper/legibility.hpp"

#include "card_plans.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace tuck;
using namespace tuck::faces;
using Catch::Matchers::Contains;

namespace {

constexpr double rounding_mm = 1e-6;
// Depth of the descender per capital height in Liberation: (yMin of g = -0.212 em) / 0.688.
constexpr double descender_caps = 0.308;

struct Ink {
    double left, top, right, bottom;
};

Ink ink(const PlacedText& placed) {
    const pdf::Text& text = placed.text;
    return {text.x_mm, text.baseline_mm - text.cap_mm, text.x_mm + placed.width_mm,
            text.baseline_mm + descender_caps * text.cap_mm};
}

bool overlap(const Ink& a, const Ink& b) {
    return a.left < b.right - rounding_mm && b.left < a.right - rounding_mm &&
           a.top < b.bottom - rounding_mm && b.top < a.bottom - rounding_mm;
}

bool inside(const Ink& a, const Trim& trim, double margin_mm) {
    return a.left >= trim.x_mm + margin_mm - rounding_mm && a.top >= trim.y_mm + margin_mm - rounding_mm &&
           a.right <= trim.x_mm + trim.width_mm - margin_mm + rounding_mm &&
           a.bottom <= trim.y_mm + trim.height_mm - margin_mm + rounding_mm;
}

bool outside(const Ink& a, const Trim& trim) {
    return a.right <= trim.x_mm || a.left >= trim.x_mm + trim.width_mm || a.bottom <= trim.y_mm ||
           a.top >= trim.y_mm + trim.height_mm;
}

/// The texts of one role (or all) in reading order, joined by spaces. `side` -2: every side.
std::string joined(const CardLayout& layout, int side, const Role* role = nullptr) {
    std::string all;
    for (const PlacedText& placed : layout.texts)
        if ((placed.side == side || (side == -2 && placed.side >= 0)) && (!role || placed.role == *role))
            all += (all.empty() ? "" : " ") + placed.text.utf8;
    return all;
}

/// The words of all rows, bottles apart: those stand on the row or below it.
std::vector<std::string> rows_of(const Plan& plan, RowForm form) {
    std::vector<std::string> all;
    for (const int leg : {2, 4})
        for (const CardRow& row : leg_rows(plan, leg, form).rows) {
            all.push_back(row.when);
            all.push_back(row.what);
        }
    return all;
}

/// Whether the words stand in `text` in this order.
bool in_order(const std::string& text, const std::vector<std::string>& words) {
    std::size_t at = 0;
    for (const std::string& word : words) {
        at = text.find(word, at);
        if (at == std::string::npos)
            return false;
        at += word.size();
    }
    return true;
}

/// The only sheet of a card.
CardLayout card_layout(const Plan& plan, const CardOptions& options) {
    auto sheets = card_layouts(plan, options);
    REQUIRE(sheets.size() == 1);
    return sheets[0];
}

/// A card of 50 x 120 mm.
CardOptions medium() {
    CardOptions options;
    options.size = {50, 120};
    return options;
}

} // namespace

TEST_CASE("Letters are as high as the angle asks", "[card]") {
    // Geometry, h = 2 D tan(a/2); the angles are those of ISO 9241-3 (16 and 20 to 22) as quoted by a maker's
    // guide. Heights rounded to 0.001 mm, hence half of that as tolerance.
    struct Row {
        double distance_mm, arcmin, tilt_deg, cap_mm;
    };
    for (const Row& row :
         {Row{500, 12, 0, 1.745}, Row{500, 16, 0, 2.327}, Row{500, 20, 0, 2.909}, Row{600, 12, 0, 2.094},
          Row{600, 16, 0, 2.793}, Row{600, 20, 0, 3.491}, Row{600, 22, 0, 3.840}, Row{700, 20, 0, 4.072},
          Row{800, 12, 0, 2.793}, Row{800, 20, 0, 4.654}, Row{600, 20, 30, 4.031}, Row{600, 20, 45, 4.937}})
        CHECK(cap_mm_for(row.arcmin, row.distance_mm, row.tilt_deg) == Approx(row.cap_mm).margin(0.0005));
    // NUREG-0700 rev. 2, 1.3.1-4: height = 6.283 D MA / 21600, given to four figures.
    CHECK(cap_mm_for(20, 600, 0) == Approx(6.283 * 600 * 20 / 21600).epsilon(0.0005));
    // ISO 9241-3 as a ratio: a letter of 1/155 of the distance stands for 22.18 minutes, of 1/175 for 19.64.
    CHECK(arcmin_of(600 / 155.0, 600, 0) == Approx(22.18).margin(0.005));
    CHECK(arcmin_of(600 / 175.0, 600, 0) == Approx(19.64).margin(0.005));
    CHECK(arcmin_of(2.0, 500, 0) == Approx(13.751).margin(0.0005));
}

TEST_CASE("No letter on the card is smaller than its floor", "[card]") {
    // Floors: rows 20', labels 16' (display practice, above), anything else 12' (ISO 15008, from memory).
    const auto floor = [](Role role) { return role == Role::row ? 20.0 : role == Role::label ? 16.0 : 12.0; };
    CardOptions near, far, wide;
    near.reading_distance_mm = 500;
    near.tilt_deg = 0;
    far.reading_distance_mm = 700;
    far.size = {70, 170};
    wide.size = {80, 75};
    wide.tilt_deg = 45;
    wide.reading_distance_mm = 400;
    for (const Plan& plan : {example::sprint(), example::hot_standard()})
        for (const CardOptions& options : {CardOptions{}, medium(), near, far, wide}) {
            const CardLayout layout = card_layout(plan, options);
            for (const PlacedText& placed : layout.texts)
                if (placed.side >= 0)
                    CHECK(arcmin_of(placed.text.cap_mm, options.reading_distance_mm, options.tilt_deg) >=
                          floor(placed.role) - 1e-9);
        }
    for (const PlacedText& placed : card_layout(example::long_day(), {}).texts)
        if (placed.side >= 0)
            CHECK(arcmin_of(placed.text.cap_mm, 600, 30) >= floor(placed.role) - 1e-9);
}

TEST_CASE("Everything on the card stands 3 mm inside the cut, and nothing on another thing", "[card]") {
    for (const Plan& plan : example::all()) {
        const CardLayout layout = card_layout(plan, {});
        for (std::size_t i = 0; i < layout.texts.size(); ++i) {
            const PlacedText& placed = layout.texts[i];
            INFO(placed.text.utf8);
            if (placed.side >= 0)
                CHECK(inside(ink(placed), layout.sides[static_cast<std::size_t>(placed.side)], 3));
            else
                for (const Trim& trim : layout.sides)
                    CHECK(outside(ink(placed), trim));
            for (std::size_t k = i + 1; k < layout.texts.size(); ++k) {
                INFO(layout.texts[k].text.utf8);
                CHECK_FALSE(overlap(ink(placed), ink(layout.texts[k])));
            }
            for (const pdf::Line& line : layout.lines) {
                const double half = line.width_mm / 2;
                CHECK_FALSE(overlap(ink(placed), {std::min(line.x1_mm, line.x2_mm) - half,
                                                  std::min(line.y1_mm, line.y2_mm) - half,
                                                  std::max(line.x1_mm, line.x2_mm) + half,
                                                  std::max(line.y1_mm, line.y2_mm) + half}));
            }
        }
        for (const pdf::Box& box : layout.boxes)
            CHECK(std::any_of(layout.sides.begin(), layout.sides.end(), [&](const Trim& trim) {
                const double half = box.line_mm / 2;
                return inside({box.x_mm - half, box.y_mm - half, box.x_mm + box.width_mm + half,
                               box.y_mm + box.height_mm + half},
                              trim, 3);
            }));
    }
}

TEST_CASE("On a round tube letters stand within 45 degrees of the line that faces the eye", "[card]") {
    // Geometry: an arc of 90 degrees of a tube of diameter D is D pi / 4 wide when it lies flat.
    for (const double tube_mm : {40.0, 45.0, 50.0})
        for (const CardSize size : {CardSize{50, 120}, CardSize{45, 90}}) {
            CardOptions options;
            options.size = size;
            options.tube_mm = tube_mm;
            for (const CardLayout& layout : card_layouts(example::hot_standard(), options))
                for (const PlacedText& placed : layout.texts)
                    if (placed.side >= 0) {
                        const Trim& trim = layout.sides[static_cast<std::size_t>(placed.side)];
                        const double middle = trim.x_mm + trim.width_mm / 2;
                        const double furthest =
                            std::max(middle - placed.text.x_mm, placed.text.x_mm + placed.width_mm - middle);
                        const double angle_deg = furthest / (tube_mm / 2) * 180 / 3.14159265358979;
                        INFO(placed.text.utf8);
                        CHECK(angle_deg <= 45 + 1e-6);
                    }
        }
}

TEST_CASE("The sheet is A4 with cards true to size, cut marks outside and a bar of 50 mm", "[card]") {
    for (const Plan& plan : example::all()) {
        const CardLayout layout = card_layout(plan, {});
        CHECK(layout.sheet_width_mm == 210); // ISO 216
        CHECK(layout.sheet_height_mm == 297);
        std::size_t marks = 0, bars = 0, folds = 0;
        for (const pdf::Line& line : layout.lines) {
            const Ink extent{std::min(line.x1_mm, line.x2_mm), std::min(line.y1_mm, line.y2_mm),
                             std::max(line.x1_mm, line.x2_mm), std::max(line.y1_mm, line.y2_mm)};
            const bool off = std::all_of(layout.sides.begin(), layout.sides.end(),
                                         [&](const Trim& trim) { return outside(extent, trim); });
            marks += off && line.width_mm == 0.1 && line.dash_mm == 0;
            // Folded there, the two sides stand back to back: as far from one as from the other.
            folds += off && line.dash_mm > 0 && line.x1_mm == line.x2_mm && layout.sides.size() > 1 &&
                     line.x1_mm - (layout.sides[0].x_mm + layout.sides[0].width_mm) ==
                         Approx(layout.sides[1].x_mm - line.x1_mm);
            bars += off && extent.right - extent.left == 50;
        }
        for (const Trim& trim : layout.sides) {
            CHECK(trim.width_mm == 50);
            CHECK(trim.height_mm == 120);
        }
        CHECK(marks == 8 * layout.sides.size());
        CHECK(bars == 1);
        CHECK(folds == (layout.sides.size() > 1 ? 1 : 0));
        CHECK_THAT(joined(layout, -1), Contains("Print at 100 %; this bar must measure 50 mm."));
    }
}

TEST_CASE("The tallest card leaves room for the notes of the sheet", "[card]") {
    CardOptions options;
    options.size = {50, 180};
    Plan plan = example::long_day();
    plan.athlete_name = "Wolfeschlegelsteinhausenbergerdorff-Featherstonehaugh-Nguyen";
    const std::string sheet = joined(card_layout(plan, options), -1);
    CHECK_THAT(sheet, Contains("Seal in") && Contains("Letter sizes") && Contains("was cut to fit"));
    CHECK_THAT(sheet, Contains("not medical advice") && Contains("NSAID"));
    plan.cautions.insert(plan.cautions.end(), 30, "One caution more than the sheet has room for.");
    CHECK_THAT(joined(card_layout(plan, options), -1),
               Contains("There are more cautions: read the whole plan."));
}

TEST_CASE("Every row of the plan is on the card once, in order", "[card]") {
    const Role row = Role::row;
    for (const Plan& plan : {example::hot_standard(), example::long_day()}) {
        const std::string card = joined(card_layout(plan, {}), -2, &row);
        INFO(card);
        CHECK((in_order(card, rows_of(plan, RowForm::words)) ||
               in_order(card, rows_of(plan, RowForm::short_words))));
    }
    CHECK_THAT(joined(card_layout(example::sprint(), {}), -2, &row),
               Contains("NO FOOD NEEDED every 20' 2 sw"));
}

TEST_CASE("The card carries what it must", "[card]") {
    for (const Plan& plan : example::all()) {
        const CardLayout layout = card_layout(plan, {});
        const std::string card = joined(layout, -2);
        for (const std::string& text :
             {plan.event_name, plan.athlete_name, plan.date, std::string("wave 3"), std::string("417"),
              "plan " + plan.version, plan.clock_note, plan.refill_note, std::string("BIKE")})
            CHECK_THAT(card, Contains(text));
        for (const IfThen& help : plan.if_then)
            CHECK(example::count(card, help.when + ": " + help.text) == 1);
        const int last = static_cast<int>(layout.sides.size()) - 1;
        CHECK_THAT(joined(layout, last), Contains(plan.stop_line));
        for (int side = 0; side <= last; ++side) {
            CHECK_THAT(joined(layout, side), Contains("STOP"));
            CHECK(example::count(joined(layout, side), "marshal or medic") == 1);
        }
        for (const std::string& caution : plan.cautions)
            CHECK_THAT(joined(layout, -1), Contains(caution));
    }
    CHECK_THAT(joined(card_layout(example::hot_standard(), {}), 0), Contains("No clock: about every 8 km."));
}

TEST_CASE("Behind the note of the clock the road needs fewer words on a low card, in either units",
          "[card]") {
    Plan plan = example::hot_standard();
    for (const std::size_t feeds : {4u, 2u})
        for (const Units units : {Units::metric, Units::imperial}) {
            plan.feeds.resize(feeds);
            plan.units = units;
            const std::string road = feeds == 4                 ? "every "
                                     : units == Units::imperial ? "mile 5 9.9."
                                                                : "km 8 16.";
            const std::string notes = for_low_card(card_content(plan)).sections.at(0).asides.at(0).text;
            CHECK_THAT(notes, Contains(plan.clock_note + ". Else " + road));
            CHECK_THAT(card_text(plan), Contains("No clock: " + (feeds == 4 ? "about " + road : road)));
        }
}

namespace {

/// A piece that is worn alone: two sides of one fold, or one side where the run's is cut off to go on in T2.
std::vector<std::vector<int>> pieces(const CardLayout& layout) {
    std::vector<std::vector<int>> all;
    const Role label = Role::label;
    for (int side = 0; side < static_cast<int>(layout.sides.size()); ++side) {
        const bool runs = joined(layout, side, &label).rfind("RUN", 0) == 0 &&
                          joined(layout, side, &label).find("continued") == std::string::npos;
        if (side % 2 == 1 && !runs)
            all.back().push_back(side);
        else
            all.push_back({side});
    }
    return all;
}

bool has_rows(const CardLayout& layout, int side) {
    const Role row = Role::row;
    return !joined(layout, side, &row).empty();
}

} // namespace

TEST_CASE("STOP stands whole on every piece that is worn alone", "[card]") {
    // What practice.md binds: confused, staggering, vomiting, headache, hands; marshal or medic; do not force
    // drink.
    const auto whole = [](const std::string& text) {
        for (const char* word : {"onfused", "staggering", "vomiting", "headache", "hands", "marshal or medic",
                                 "not force drink"})
            if (text.find(word) == std::string::npos)
                return false;
        return true;
    };
    std::size_t seen = 0, with_run_apart = 0;
    for (const CardSize size :
         {CardSize{45, 60}, {50, 120}, {85.6, 53.98}, {45, 160}, {40, 70}, {60, 60}, {35, 90}})
        for (const double tube : {0.0, 50.0})
            for (const Plan& plan : example::all()) {
                CardOptions options;
                options.size = size;
                options.tube_mm = tube;
                for (const CardLayout& layout : card_layouts(plan, options))
                    for (const auto& piece : pieces(layout)) {
                        std::string text;
                        bool rows = false;
                        for (const int side : piece) {
                            rows = rows || has_rows(layout, side);
                            text += joined(layout, side) + " ";
                            if (has_rows(layout, side))
                                CHECK_THAT(joined(layout, side), Contains("STOP"));
                        }
                        INFO(plan.event_name << " " << size.width_mm << " x " << size.height_mm << ": "
                                             << text);
                        CHECK((!rows || whole(text)));
                        seen += rows;
                        with_run_apart += piece.size() == 1 && piece[0] % 2 == 1;
                    }
            }
    CHECK(seen > 60);
    CHECK(with_run_apart > 3);
}

TEST_CASE("The run begins a side of its own where the plan needs two", "[card]") {
    CardOptions options;
    options.size = {45, 160};
    const CardLayout layout = card_layout(example::hot_standard(), options);
    REQUIRE(layout.sides.size() == 2);
    CHECK_THAT(joined(layout, 0), Contains("BIKE") && !Contains("RUN"));
    CHECK_THAT(joined(layout, 1), Contains("RUN") && !Contains("BIKE") && Contains("2 of 2"));
}

TEST_CASE("A training session has no bib box and is called what it is", "[card]") {
    Plan plan = example::sprint();
    plan.race = false;
    plan.bib.clear();
    const CardLayout layout = card_layout(plan, {});
    CHECK(layout.title == "Training card: Lakeside sprint");
    CHECK_THAT(joined(layout, -2), Contains("NO FOOD NEEDED in this session") && !Contains("bib"));
}

TEST_CASE("A side does not end with a heading", "[card]") {
    Plan plan = example::long_day();
    for (int i = 0; i < 3; ++i) {
        plan.lines.erase(plan.lines.begin());
        const CardLayout layout = card_layout(plan, {});
        for (std::size_t i_text = 0; i_text + 1 < layout.texts.size(); ++i_text)
            if (layout.texts[i_text].text.utf8 == "RUN" || layout.texts[i_text].text.utf8 == "BIKE")
                CHECK(layout.texts[i_text + 1].text.utf8 != "STOP");
    }
}

TEST_CASE("A plan without food says so loudly, and what still matters", "[card]") {
    const Plan plan = example::sprint();
    const std::string card = joined(card_layout(plan, {}), -2);
    CHECK_THAT(card, Contains("NO FOOD NEEDED on the course"));
    for (const std::string& text : plan.still_matters)
        CHECK_THAT(card, Contains(text));
}

TEST_CASE("An athlete with no amounts is not told that no food is needed", "[card]") {
    Plan plan = example::hot_standard();
    plan.lines.clear();
    plan.feeds.clear();
    const std::string card = joined(card_layout(plan, {}), -2);
    CHECK_THAT(card, Contains("NO AMOUNTS HERE") && !Contains("NO FOOD"));
}

TEST_CASE("The card does not carry mass, rates, percentages, weather or sources", "[card]") {
    for (const Plan& plan : example::all())
        for (const std::string& card : {joined(card_layout(plan, {}), -2), card_text(plan)})
            for (const char* forbidden : {"%", "g/h", "ml/h", "kg", "°C", "body mass", "Author 2011", "61",
                                          "613", "911", "6871", "8683", "drink more", "29"})
                CHECK_THAT(card, !Contains(forbidden));
}

TEST_CASE("Two runs in a day are told apart", "[card]") {
    Plan plan = example::hot_standard();
    constexpr LegKind kinds[] = {LegKind::run, LegKind::t1, LegKind::bike, LegKind::t2, LegKind::run};
    for (std::size_t i = 0; i < 5; ++i)
        plan.durations[i].kind = kinds[i];
    plan.lines = {example::line(0, LegKind::run, "km 3", "1 cup water"),
                  example::line(2, LegKind::bike, "every 15'", "3 swallows B1"),
                  example::line(4, LegKind::run, "km 2", "gel")};
    const std::string card = joined(card_layout(plan, {}), -2);
    CHECK_THAT(card, Contains("RUN 1 km 3") && Contains("RUN 2 km 2"));
}

TEST_CASE("Long names are cut with an ellipsis and stand whole on the sheet", "[card]") {
    Plan plan = example::hot_standard();
    plan.event_name = "The very long name of an invented race around the large lake"; // 60 characters
    plan.athlete_name = "Wolfeschlegelsteinhausenbergerdorff-Featherstonehaugh-Nguyen";
    const CardLayout layout = card_layout(plan, {});
    CHECK(std::count_if(layout.texts.begin(), layout.texts.end(),
                        [](const PlacedText& t) { return t.cut; }) >= 1);
    CHECK_THAT(joined(layout, 0), Contains("…"));
    CHECK_THAT(joined(layout, -1), Contains("What ends in … was cut to fit"));
    CHECK_THAT(joined(layout, -1), Contains(plan.event_name));
}

TEST_CASE("Long words and long lines of a plan are wrapped and never cut", "[card]") {
    Plan plan = example::sprint();
    plan.lines = {example::line(2, LegKind::bike, "0:10 0:20 0:30",
                                "Rosinenschneckenhaselnussriegelstückchen + 3 swallows B1")};
    std::string rows;
    const auto layouts = card_layouts(plan, {});
    for (const PlacedText& placed : layouts[0].texts)
        if (placed.role == Role::row)
            rows += placed.text.utf8;
    rows.erase(std::remove_if(rows.begin(), rows.end(), [](char c) { return c == '-' || c == ' '; }),
               rows.end());
    for (const char* text : {"0:10", "0:20", "0:30", "Rosinenschneckenhaselnussriegelstückchen+3sw"})
        CHECK_THAT(rows, Contains(text));
}

TEST_CASE("A card that cannot be read or must not be printed is refused in one line", "[card]") {
    const auto message = [](const Plan& plan, const CardOptions& options) {
        try {
            card_pdf(plan, options);
        } catch (const std::runtime_error& error) {
            return std::string(error.what());
        }
        return std::string("printed");
    };
    Plan plan = example::hot_standard();
    plan.refused = true;
    CHECK_THAT(message(plan, {}), Contains("refused"));
    CHECK_THROWS_WITH(card_text(plan), Contains("refused"));
    plan = example::hot_standard();
    plan.stop_line.clear();
    CHECK_THAT(message(plan, {}), Contains("STOP"));
    plan = example::hot_standard();
    plan.athlete_name = "Zo\xEB";
    CHECK(message(plan, {}) == "athlete name: not UTF-8 at byte 3");
    plan.athlete_name = "a\x1B[31m";
    CHECK(message(plan, {}) == "athlete name: U+001B is a control character");
    plan.athlete_name = "\xF0\x9F\x9A\xB4";
    CHECK_THAT(message(plan, {}), Contains("athlete name") && Contains("U+1F6B4"));
    plan.athlete_name = "\xE6\x9D\xB1\xE4\xBA\xAC";
    CHECK_THAT(message(plan, {}), Contains("athlete name") && Contains("no letter for U+6771"));

    plan = example::hot_standard();
    CardOptions options;
    options.size = {30, 50};
    CHECK_THAT(message(plan, options), Contains("does not fit") && Contains("30 x 50 mm"));
    options.size = {500, 120};
    CHECK_THAT(message(plan, options), Contains("card width") && Contains("allowed 25 to 180 mm"));
    options = {};
    options.reading_distance_mm = std::nan("");
    CHECK_THAT(message(plan, options), Contains("reading distance") && Contains("allowed 300 to 1000 mm"));
    options = {};
    options.tilt_deg = 90;
    CHECK_THAT(message(plan, options), Contains("allowed 0 to 60 degrees"));
    for (int i = 0; i < 400; ++i)
        plan.lines.push_back(example::line(4, LegKind::run, "km " + std::to_string(i), "2 swallows water"));
    CHECK_THAT(message(plan, {}), Contains("does not fit") && !Contains("\n"));
}

TEST_CASE("A card is a small PDF, the same every time", "[card]") {
    for (const Plan& plan : example::all()) {
        const std::string bytes = card_pdf(plan);
        CHECK(bytes.rfind("%PDF-", 0) == 0);
        CHECK(bytes.size() < 100'000);
        CHECK(bytes == card_pdf(plan));
    }
}
