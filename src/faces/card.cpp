#include "faces/card.hpp"

#include "faces/card_blocks.hpp"
#include "faces/card_sheet.hpp"
#include "faces/legibility.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

namespace tuck::faces {
namespace {

constexpr std::size_t most_sides = 3;
constexpr double top_mm = 34, sheet_margin_mm = 12, between_sides_mm = 16, tallest_side_mm = 180;
constexpr double above_stop_mm = 0.8, comfortable_gap_mm = 0.8, widest_gap_mm = 3;
// Letters grow into free room, up to 24 minutes of arc for a row: larger is no longer recommended for text
// that is read at a glance (NUREG-0700 rev. 2, 1.3.1-4).
constexpr double growing_scales[] = {1.2, 1.15, 1.1, 1.05};

/// Where each side after the first begins, as an index into the body.
using Breaks = std::vector<std::size_t>;

TypeSizes type_sizes(const CardOptions& options, double scale) {
    const auto cap = [&](double arcmin) {
        return cap_mm_for(arcmin * scale, options.reading_distance_mm, options.tilt_deg);
    };
    return {cap(row_arcmin), cap(label_arcmin), cap(help_arcmin)};
}

void require_in_range(const char* what, double value, double least, double most, const char* unit) {
    if (!(value >= least && value <= most))
        throw std::runtime_error(fmt::format("card {}: {:g} is out of range; allowed {:g} to {:g} {}", what,
                                             value, least, most, unit));
}

void require_in_range(const CardOptions& options) {
    require_in_range("width", options.size.width_mm, 25, 180, "mm");
    require_in_range("height", options.size.height_mm, 40, tallest_side_mm, "mm");
    require_in_range("reading distance", options.reading_distance_mm, 300, 1000, "mm");
    require_in_range("tilt", options.tilt_deg, 0, 60, "degrees");
}

/// The sides of one card at one size of type.
class Sides {
public:
    Sides(const CardContent& card, const Fonts& fonts, const CardOptions& options, double scale)
        : card_(card), setter_(fonts, type_sizes(options, scale), options.size.width_mm - 2 * quiet_zone_mm),
          room_mm_(options.size.height_mm - 2 * quiet_zone_mm), body_(setter_.body(card)) {}

    const std::vector<Block>& body() const { return body_; }

    /// The blocks of one side from top to bottom; the last one is STOP.
    std::vector<Block> blocks(const Breaks& breaks, std::size_t side) const {
        const std::size_t sides = breaks.size() + 1;
        const std::string note = sides > 1 ? fmt::format("{} of {}", side + 1, sides) : "";
        std::vector<Block> column{side == 0 ? setter_.head(card_, note) : setter_.short_head(card_, note)};
        const std::size_t first = side == 0 ? 0 : breaks[side - 1];
        const std::size_t end = side < breaks.size() ? breaks[side] : body_.size();
        if (first < end && side > 0 && body_[first].section >= 0)
            column.push_back(
                setter_.heading_again(card_.sections[static_cast<std::size_t>(body_[first].section)]));
        column.insert(column.end(), body_.begin() + static_cast<long>(first),
                      body_.begin() + static_cast<long>(end));
        column.push_back(setter_.stop(card_.stop));
        if (side + 1 < sides && height_mm(column) > room_mm_)
            column.back() = setter_.stop_briefly(card_);
        return column;
    }

    /// Free height; negative: does not fit.
    double spare_mm(const Breaks& breaks, std::size_t side) const {
        return room_mm_ - height_mm(blocks(breaks, side));
    }

    bool fits(const Breaks& breaks) const {
        for (std::size_t side = 0; side <= breaks.size(); ++side)
            if (spare_mm(breaks, side) < 0)
                return false;
        return true;
    }

    /// Whether letters of this size leave air between the rows, and no sign of the STOP line is lost to them
    /// that `at_the_floor` (the same card in the smallest letters) has room for.
    bool comfortable(const Breaks& breaks, const Sides& at_the_floor) const {
        for (std::size_t side = 0; side <= breaks.size(); ++side) {
            const double gaps = static_cast<double>(blocks(breaks, side).size());
            const bool stop_shortened = !full_stop(breaks, side) && at_the_floor.full_stop(breaks, side);
            if (stop_shortened || spare_mm(breaks, side) < comfortable_gap_mm * gaps)
                return false;
        }
        return true;
    }

private:
    bool full_stop(const Breaks& breaks, std::size_t side) const {
        return blocks(breaks, side).back().height_mm == setter_.stop(card_.stop).height_mm;
    }

    static double height_mm(const std::vector<Block>& column) {
        double height = above_stop_mm;
        for (const Block& block : column)
            height += block.height_mm;
        return height;
    }

    const CardContent& card_;
    Typesetter setter_;
    double room_mm_;
    std::vector<Block> body_;
};

/// How good a way to break is: cheap places first, then even sides.
std::pair<int, double> badness(const Sides& sides, const Breaks& breaks) {
    int cost = 0;
    for (const std::size_t at : breaks)
        cost += sides.body()[at].break_cost;
    double emptiest_mm = 0;
    for (std::size_t side = 0; side <= breaks.size(); ++side)
        emptiest_mm = std::max(emptiest_mm, sides.spare_mm(breaks, side));
    return {cost, emptiest_mm};
}

/// All ways to begin `count` more sides, in order of place.
std::vector<Breaks> ways_to_break(const std::vector<Block>& body, std::size_t count) {
    if (count == 0)
        return {{}};
    std::vector<Breaks> ways;
    for (const Breaks& fewer : ways_to_break(body, count - 1))
        for (std::size_t at = fewer.empty() ? 1 : fewer.back() + 1; at < body.size(); ++at)
            if (body[at].break_cost < never_break) {
                ways.push_back(fewer);
                ways.back().push_back(at);
            }
    return ways;
}

/// The fewest sides that hold the card, broken at the best places; nothing when the sheet has no room for it.
std::optional<Breaks> best_breaks(const Sides& sides, std::size_t sides_allowed) {
    for (std::size_t count = 0; count < sides_allowed; ++count) {
        std::optional<Breaks> best;
        for (const Breaks& way : ways_to_break(sides.body(), count))
            if (sides.fits(way) && (!best || badness(sides, way) < badness(sides, *best)))
                best = way;
        if (best)
            return best;
    }
    return std::nullopt;
}

/// Rules stand at the block's top; `below_rule_mm` moves the rest down.
void place(const Block& block, int side, double x_mm, double y_mm, double below_rule_mm, CardLayout& layout) {
    for (PlacedText text : block.texts) {
        text.side = side;
        text.text.x_mm += x_mm;
        text.text.baseline_mm += y_mm + below_rule_mm;
        layout.texts.push_back(std::move(text));
    }
    for (pdf::Line line : block.lines)
        layout.lines.push_back(
            {line.x1_mm + x_mm, line.y1_mm + y_mm, line.x2_mm + x_mm, line.y2_mm + y_mm, line.width_mm});
    for (pdf::Box box : block.boxes)
        layout.boxes.push_back(
            {box.x_mm + x_mm, box.y_mm + y_mm + below_rule_mm, box.width_mm, box.height_mm, box.line_mm});
}

void place_side(const Sides& sides, const Breaks& breaks, std::size_t side, CardLayout& layout) {
    const std::vector<Block> column = sides.blocks(breaks, side);
    const Trim& trim = layout.sides[side];
    const double x = trim.x_mm + quiet_zone_mm;
    const double gap =
        std::min(widest_gap_mm, sides.spare_mm(breaks, side) / static_cast<double>(column.size() - 1));
    double y = trim.y_mm + quiet_zone_mm;
    for (std::size_t i = 0; i + 1 < column.size(); ++i) {
        const double below_rule_mm = column[i].lines.empty() ? 0 : gap / 2;
        place(column[i], static_cast<int>(side), x, y, below_rule_mm, layout);
        y += column[i].height_mm + below_rule_mm + gap / 2;
    }
    // STOP stands at the foot of every side: a place that can be found without looking for it.
    const double foot = trim.y_mm + trim.height_mm - quiet_zone_mm - column.back().height_mm;
    place(column.back(), static_cast<int>(side), x, foot, 0, layout);
}

/// How many sides stand beside each other, and how many rows of them, on one sheet.
struct Grid {
    std::size_t columns = 1, rows = 1;
    std::size_t sides() const { return std::min(most_sides, columns * rows); }
};

Grid grid(const CardLayout& layout, const CardSize& size) {
    const auto how_many = [](double room_mm, double side_mm) {
        const auto fitting =
            static_cast<std::size_t>((room_mm + between_sides_mm) / (side_mm + between_sides_mm));
        return std::max<std::size_t>(1, fitting);
    };
    return {how_many(layout.sheet_width_mm - 2 * sheet_margin_mm, size.width_mm),
            how_many(tallest_side_mm, size.height_mm)};
}

std::vector<Trim> trims(const CardLayout& layout, const CardSize& size, std::size_t count) {
    const std::size_t columns = std::min(count, grid(layout, size).columns);
    const double width = static_cast<double>(columns) * (size.width_mm + between_sides_mm) - between_sides_mm;
    const double left_mm = (layout.sheet_width_mm - width) / 2;
    std::vector<Trim> all;
    for (std::size_t i = 0; i < count; ++i)
        all.push_back({left_mm + static_cast<double>(i % columns) * (size.width_mm + between_sides_mm),
                       top_mm + static_cast<double>(i / columns) * (size.height_mm + between_sides_mm),
                       size.width_mm, size.height_mm});
    return all;
}

void require_glyphs(const CardContent& card, const Fonts& fonts) {
    for_each_text(card, [&](const std::string& text, const char* what) {
        for (const Face face : {Face::sans, Face::narrow, Face::narrow_bold})
            fonts.require_glyphs(face, text, what);
    });
}

double largest_scale(const CardContent& card, const Fonts& fonts, const CardOptions& options,
                     const Breaks& breaks, const Sides& at_the_floor) {
    for (const double scale : growing_scales)
        if (Sides(card, fonts, options, scale).comfortable(breaks, at_the_floor))
            return scale;
    return 1;
}

CardLayout lay_out(const Plan& plan, const CardOptions& options, const Fonts& fonts) {
    require_in_range(options);
    const CardContent card = card_content(plan);
    require_glyphs(card, fonts);
    CardLayout layout;
    const std::size_t allowed = grid(layout, options.size).sides();
    const Sides at_the_floor(card, fonts, options, 1.0);
    const std::optional<Breaks> breaks = best_breaks(at_the_floor, allowed);
    if (!breaks)
        throw std::runtime_error(fmt::format("the card does not fit on {} side(s) of {:g} x {:g} mm with "
                                             "letters that can be read at {:g} mm; choose "
                                             "a larger card or a plan with fewer lines",
                                             allowed, options.size.width_mm, options.size.height_mm,
                                             options.reading_distance_mm));
    layout.sides = trims(layout, options.size, breaks->size() + 1);
    add_sheet_head(card, fonts, layout);
    const double scale = largest_scale(card, fonts, options, *breaks, at_the_floor);
    const Sides sides(card, fonts, options, scale);
    for (std::size_t side = 0; side < layout.sides.size(); ++side)
        place_side(sides, *breaks, side, layout);
    add_sheet_notes(card, type_sizes(options, scale), options, fonts, layout);
    return layout;
}

pdf::Page page(const CardLayout& layout) {
    pdf::Page page{layout.sheet_width_mm, layout.sheet_height_mm, {}, layout.lines, layout.boxes};
    for (const PlacedText& placed : layout.texts)
        page.texts.push_back(placed.text);
    return page;
}

} // namespace

CardLayout card_layout(const Plan& plan, const CardOptions& options) {
    return lay_out(plan, options, Fonts(options.font_folder));
}

std::string card_pdf(const Plan& plan, const CardOptions& options) {
    return cards_pdf({plan}, options);
}

std::string cards_pdf(const std::vector<Plan>& plans, const CardOptions& options) {
    const Fonts fonts(options.font_folder);
    pdf::Document document;
    document.subject = "One athlete's plan for one day, not medical advice";
    for (const Plan& plan : plans) {
        const CardLayout layout = lay_out(plan, options, fonts);
        if (document.pages.empty())
            document.title = layout.title;
        document.pages.push_back(page(layout));
    }
    if (document.pages.empty())
        throw std::runtime_error("no card: there is no plan");
    return pdf::write(document, options.font_folder);
}

} // namespace tuck::faces
