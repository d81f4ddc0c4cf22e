#include "card/card_sides.hpp"

#include "card/card_metrics.hpp"
#include "paper/legibility.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>

namespace tuck::faces {
namespace {

constexpr double comfortable_gap_mm = 0.8, widest_gap_mm = 3;
// Letters grow into free room, up to 24 minutes of arc for a row: larger is no longer recommended for text
// that is read at a glance (NUREG-0700 rev. 2, 1.3.1-4).
constexpr double growing_scales[] = {1.2, 1.15, 1.1, 1.05};

// Against the costs of breaking in card_blocks.cpp: worth a break inside the help, not inside the rows.
constexpr int brief_stop_cost = 4;
// A side with rows faces the eye.
constexpr int brief_stop_on_rows_cost = 12;
// Worth a break inside the help, and a brief STOP on a front whose back says it whole.
constexpr int run_not_apart_cost = 30;

/// The whole STOP on a piece that is worn alone.
enum class Stop { not_needed, lacking, said };
constexpr std::size_t stop_states = 3;

/// Where each side after the first begins, as an index into the body.
using Breaks = std::vector<std::size_t>;

TypeSizes type_sizes(const CardOptions& options, double scale) {
    const auto cap = [&](double arcmin) {
        return cap_mm_for(arcmin * scale, options.reading_distance_mm, options.tilt_deg);
    };
    return {cap(row_arcmin), cap(label_arcmin), cap(help_arcmin)};
}

/// On a round tube letters stand no further than 45 degrees from the line that faces the eye.
double margin_mm(const CardOptions& options, const CardSize& size) {
    const double beside_mm = (size.width_mm - facing_mm(size.width_mm, options.tube_mm)) / 2;
    return std::max({quiet_zone_mm, beside_mm, options.holes ? text_beside_holes_mm : 0});
}

double height_of(const std::vector<Block>& column) {
    double height = above_stop_mm;
    for (const Block& block : column)
        height += block.height_mm;
    return height;
}

/// The sides of one card at one size of type.
class Sides {
public:
    Sides(const CardContent& card, const Fonts& fonts, const CardOptions& options, const CardSize& size,
          std::size_t early_help, double scale)
        : card_(card), low_(size.height_mm < low_card_mm),
          setter_(fonts, type_sizes(options, scale), size.width_mm - 2 * margin_mm(options, size), low_),
          room_mm_(size.height_mm - 2 * quiet_zone_mm), body_(setter_.body(card, early_help)),
          stop_(setter_.stop(card.stop)), brief_stop_(setter_.stop({"STOP", card.stop_briefly})) {
        below_mm_.push_back(0);
        for (const Block& block : body_)
            below_mm_.push_back(below_mm_.back() + block.height_mm);
        for (const CardSection& section : card.sections)
            again_mm_.push_back(setter_.heading_again(section).height_mm);
        for (const CardSection& section : card.sections)
            goes_on_mm_.push_back(setter_.goes_on(section, 9).height_mm);
    }

    const std::vector<Block>& body() const { return body_; }

    bool low() const { return low_; }

    /// Whether the signs stand whole on some side.
    bool says_stop_whole(const Breaks& breaks) const {
        for (std::size_t side = 0; side <= breaks.size(); ++side)
            if (full_stop(side == 0 ? 0 : breaks[side - 1],
                          side < breaks.size() ? breaks[side] : body_.size(), side, breaks.size() + 1))
                return true;
        return false;
    }

    /// The blocks of one side from top to bottom; the last one is STOP.
    std::vector<Block> blocks(const Breaks& breaks, std::size_t side) const {
        const std::size_t sides = breaks.size() + 1;
        const std::size_t first = side == 0 ? 0 : breaks[side - 1];
        const std::size_t end = side < breaks.size() ? breaks[side] : body_.size();
        std::vector<Block> column{head(side, sides)};
        if (const CardSection* section = continued(first))
            column.push_back(setter_.heading_again(*section));
        column.insert(column.end(), body_.begin() + static_cast<long>(first),
                      body_.begin() + static_cast<long>(end));
        if (const CardSection* section = continued(end))
            column.push_back(setter_.goes_on(*section, side + 1));
        column.push_back(stop_of(first, end, side, sides));
        return column;
    }

    /// Free height of a side that holds the blocks from `first` to before `end`; negative: does not fit.
    double spare_mm(std::size_t first, std::size_t end, std::size_t side, std::size_t sides) const {
        const double above = above_mm(first, end, side, sides);
        return room_mm_ - above - stop_of(first, end, side, sides).height_mm;
    }

    /// On a low card's side of help, which is the back of one with rows, the signs give way before help does:
    /// no STOP where not even the brief one has room.
    const Block& stop_of(std::size_t first, std::size_t end, std::size_t side, std::size_t sides) const {
        if (full_stop(first, end, side, sides))
            return stop_;
        const bool gives_way = low_ && sides > 1 && !has_rows(first, end) &&
                               above_mm(first, end, side, sides) + brief_stop_.height_mm > room_mm_;
        return gives_way ? no_stop_ : brief_stop_;
    }

    double spare_mm(const Breaks& breaks, std::size_t side) const {
        const std::size_t first = side == 0 ? 0 : breaks[side - 1];
        const std::size_t end = side < breaks.size() ? breaks[side] : body_.size();
        return spare_mm(first, end, side, breaks.size() + 1);
    }

    /// How a piece stands once this side is added to it: two sides of one row are folded back to back, or cut
    /// apart where the second begins with the run, which goes on in T2. Nothing: a piece with rows would be
    /// worn without the whole STOP.
    std::optional<Stop> stop_after(Stop before, std::size_t first, std::size_t end, std::size_t side,
                                   std::size_t sides) const {
        const bool second = side % 2 == 1, cut = second && body_[first].begins_run;
        if (cut && before == Stop::lacking)
            return std::nullopt;
        Stop now = second && !cut ? before : Stop::not_needed;
        if (full_stop(first, end, side, sides))
            now = Stop::said;
        else if (now != Stop::said && has_rows(first, end))
            now = Stop::lacking;
        const bool piece_ends = second || side + 1 == sides;
        if (piece_ends && now == Stop::lacking)
            return std::nullopt;
        return piece_ends ? Stop::not_needed : now;
    }

    /// Whether letters of this size leave every row its one line and air around it, and no sign of the STOP
    /// line is lost to them that `at_the_floor` (the same card in the smallest letters) has room for.
    bool comfortable(const Breaks& breaks, const Sides& at_the_floor) const {
        for (std::size_t i = 0; i < body_.size(); ++i)
            if (body_[i].is_row && body_[i].height_mm > 1.5 * at_the_floor.body_[i].height_mm)
                return false; // a row that stood on one line
        for (std::size_t i = 0; i < body_.size(); ++i)
            if (body_[i].paths.size() < at_the_floor.body_[i].paths.size())
                return false; // a dial that had room
        for (std::size_t side = 0; side <= breaks.size(); ++side) {
            const std::size_t first = side == 0 ? 0 : breaks[side - 1];
            const std::size_t end = side < breaks.size() ? breaks[side] : body_.size();
            const double gaps = static_cast<double>(end - first + 2);
            const std::size_t sides = breaks.size() + 1;
            const auto letters = [&](const Sides& some) {
                return some.full_stop(first, end, side, sides)
                           ? 2
                           : &some.stop_of(first, end, side, sides) == &some.brief_stop_;
            };
            const bool stop_shortened = letters(*this) < letters(at_the_floor);
            if (stop_shortened || spare_mm(breaks, side) < comfortable_gap_mm * gaps)
                return false;
        }
        return true;
    }

    /// The signs stand whole wherever there is room for them, and always on the last side of a high card.
    bool full_stop(std::size_t first, std::size_t end, std::size_t side, std::size_t sides) const {
        return (side + 1 == sides && !low_) ||
               above_mm(first, end, side, sides) + stop_.height_mm <= room_mm_;
    }

    bool has_rows(std::size_t first, std::size_t end) const {
        return std::any_of(body_.begin() + static_cast<long>(first), body_.begin() + static_cast<long>(end),
                           [](const Block& block) { return block.is_row; });
    }

    /// Whether the run begins inside a side, which then does not go on by itself in T2.
    bool holds_the_run_with_more(std::size_t first, std::size_t end) const {
        return std::any_of(body_.begin() + static_cast<long>(first) + 1,
                           body_.begin() + static_cast<long>(end),
                           [](const Block& block) { return block.begins_run; });
    }

    bool run_apart(const Breaks& breaks) const {
        for (std::size_t side = 0; side <= breaks.size(); ++side)
            if (holds_the_run_with_more(side == 0 ? 0 : breaks[side - 1],
                                        side < breaks.size() ? breaks[side] : body_.size()))
                return false;
        return true;
    }

    /// Whether a side that begins with this block parts the rows of a leg.
    bool parts(std::size_t first) const { return continued(first) != nullptr; }

private:
    /// A low card says race and day among the help: its rows need the room.
    bool whole_head(std::size_t side) const { return !low_ && side == 0; }

    Block head(std::size_t side, std::size_t sides) const {
        const std::string note = sides > 1 ? fmt::format("{} of {}", side + 1, sides) : "";
        return whole_head(side) ? setter_.head(card_, note)
                                : setter_.short_head(card_, note, !low_ || side == 0);
    }

    double head_mm(std::size_t side, std::size_t sides) const {
        double& known = head_mm_[side == 0 ? 0 : 1][sides > 1 ? 1 : 0];
        if (known < 0)
            known = head(side, sides).height_mm;
        return known;
    }

    /// The section inside which a side that begins with this block would begin; no side begins with the first
    /// row of one.
    const CardSection* continued(std::size_t first) const {
        const bool again = first > 0 && first < body_.size() && body_[first].section >= 0;
        return again ? &card_.sections[static_cast<std::size_t>(body_[first].section)] : nullptr;
    }

    double above_mm(std::size_t first, std::size_t end, std::size_t side, std::size_t sides) const {
        double height = head_mm(side, sides) + below_mm_[end] - below_mm_[first] + above_stop_mm;
        if (const CardSection* section = continued(first))
            height += again_mm_[static_cast<std::size_t>(section - card_.sections.data())];
        if (const CardSection* section = continued(end))
            height += goes_on_mm_[static_cast<std::size_t>(section - card_.sections.data())];
        return height;
    }

    const CardContent& card_;
    bool low_;
    Typesetter setter_;
    double room_mm_;
    std::vector<Block> body_;
    Block stop_, brief_stop_, no_stop_;
    std::vector<double> below_mm_; // height of all blocks before each
    std::vector<double> again_mm_,
        goes_on_mm_; // of each section: its heading, and its foot, where it goes on
    mutable double head_mm_[2][2] = {{-1, -1}, {-1, -1}};
};

/// How good a way to break is: cheap places first, then even sides.
struct Badness {
    int cost = 0;
    double emptiest_mm = std::numeric_limits<double>::infinity();
    bool operator<(const Badness& other) const {
        return cost != other.cost ? cost < other.cost : emptiest_mm < other.emptiest_mm;
    }
};

struct Broken {
    Breaks breaks;
    Badness badness;
};

/// The best way to put the body on exactly `sides` sides: for each side, each end and what its piece still
/// lacks, the best first block.
std::optional<Broken> breaks_for(const Sides& sides, std::size_t count) {
    const std::size_t blocks = sides.body().size();
    struct Way {
        Badness badness;
        std::size_t first = 0, before = 0; // the side's first block, and how its piece stood before it
        bool any = false;
    };
    using Ways = std::array<Way, stop_states>;
    std::vector<std::vector<Ways>> best(count, std::vector<Ways>(blocks + 1));
    const auto add = [&](std::size_t side, std::size_t first, std::size_t end, std::size_t before) {
        const Way* way_before = side == 0 ? nullptr : &best[side - 1][first][before];
        if (way_before && !way_before->any)
            return;
        const auto stop = sides.stop_after(static_cast<Stop>(before), first, end, side, count);
        const double spare = sides.spare_mm(first, end, side, count);
        if (!stop || spare < 0)
            return;
        int cost = side == 0 ? 0 : sides.body()[first].break_cost;
        if (count > 1 && sides.holds_the_run_with_more(first, end))
            cost += run_not_apart_cost;
        if (!sides.full_stop(first, end, side, count))
            cost += sides.has_rows(first, end) ? brief_stop_on_rows_cost : brief_stop_cost;
        const Badness badness{cost + (way_before ? way_before->badness.cost : 0),
                              std::max(spare, way_before ? way_before->badness.emptiest_mm : 0)};
        Way& way = best[side][end][static_cast<std::size_t>(*stop)];
        if (!way.any || badness < way.badness)
            way = {badness, first, before, true};
    };
    for (std::size_t side = 0; side < count; ++side)
        for (std::size_t end = side + 1 == count ? blocks : 1; end <= blocks; ++end)
            for (std::size_t first = 0; first < end; ++first)
                if ((side == 0) == (first == 0) &&
                    (side == 0 || sides.body()[first].break_cost < never_break))
                    for (std::size_t before = 0; before < (side == 0 ? 1 : stop_states); ++before)
                        add(side, first, end, before);
    const Way* way = &best[count - 1][blocks][static_cast<std::size_t>(Stop::not_needed)];
    if (!way->any)
        return std::nullopt;
    Broken out{Breaks(count - 1), way->badness};
    for (std::size_t side = count - 1; side > 0; --side) {
        out.breaks[side - 1] = way->first;
        way = &best[side - 1][way->first][way->before];
    }
    return out;
}

std::optional<Broken> best_breaks(const Sides& sides, std::size_t most_sides) {
    for (std::size_t count = 1; count <= most_sides; ++count)
        if (auto broken = breaks_for(sides, count); broken && sides.says_stop_whole(broken->breaks))
            return broken;
    return std::nullopt;
}

/// How many lines of help stand before the run, and where the sides begin.
struct Arrangement {
    std::size_t early_help = 0;
    Broken broken;
    Sides sides;
};

/// Rules stand at the block's top; `below_rule_mm` moves the rest down.
void place(const Block& block, int side, double x_mm, double y_mm, double below_rule_mm, CardLayout& layout) {
    for (PlacedText placed : block.texts) {
        placed.side = side;
        placed.text = pdf::moved(std::move(placed.text), x_mm, y_mm + below_rule_mm);
        layout.texts.push_back(std::move(placed));
    }
    for (const pdf::Line& line : block.lines)
        layout.lines.push_back(pdf::moved(line, x_mm, y_mm));
    for (const pdf::Box& box : block.boxes)
        layout.boxes.push_back(pdf::moved(box, x_mm, y_mm + below_rule_mm));
    for (const pdf::Path& path : block.paths)
        layout.paths.push_back(pdf::moved(path, x_mm, y_mm + below_rule_mm));
}

} // namespace

std::optional<SetCard> set_card(const CardContent& content, const Fonts& fonts, const CardOptions& options,
                                const CardSize& size, std::size_t most_sides) {
    const auto sides_with = [&](std::size_t early_help, double scale) {
        return Sides(content, fonts, options, size, early_help, scale);
    };
    // Fewer sides first, then the better breaks, then less help before the run.
    std::optional<Arrangement> chosen;
    const bool runs_later = after_bike(content) > 0 && after_bike(content) < content.sections.size();
    for (std::size_t early = 0; early <= (runs_later ? content.if_then.size() : 0); ++early) {
        const Sides sides = sides_with(early, 1);
        const std::size_t most = chosen ? chosen->broken.breaks.size() + 1 : most_sides;
        const auto broken = best_breaks(sides, most);
        if (!broken)
            continue;
        if (!chosen || broken->breaks.size() < chosen->broken.breaks.size() ||
            broken->badness < chosen->broken.badness)
            chosen.emplace(Arrangement{early, *broken, sides});
        if (chosen->broken.breaks.empty())
            break;
    }
    if (!chosen)
        return std::nullopt;
    const Breaks& breaks = chosen->broken.breaks;
    SetCard out;
    out.size = size;
    out.type = type_sizes(options, 1.0);
    out.margin_mm = margin_mm(options, size);
    out.race = content.race;
    out.athlete = content.athlete;
    out.run_apart = breaks.empty() || chosen->sides.run_apart(breaks);
    out.parted = std::any_of(breaks.begin(), breaks.end(),
                             [&](std::size_t first) { return chosen->sides.parts(first); });
    for (const Block& block : chosen->sides.body())
        out.row_lines += block.is_row ? block.height_mm / (line_caps * out.type.row) : 0;
    const auto take = [&](const Sides& sides) {
        for (std::size_t side = 0; side <= breaks.size(); ++side)
            out.sides.push_back(sides.blocks(breaks, side));
    };
    for (const double scale : growing_scales) {
        const Sides larger = sides_with(chosen->early_help, scale);
        if (!larger.comfortable(breaks, chosen->sides))
            continue;
        out.type = type_sizes(options, scale);
        take(larger);
        return out;
    }
    take(chosen->sides);
    return out;
}

void place_side(const SetCard& card, std::size_t side, const Trim& trim, int number, CardLayout& layout) {
    const std::vector<Block>& column = card.sides[side];
    const double x = trim.x_mm + card.margin_mm;
    const double spare = trim.height_mm - 2 * quiet_zone_mm - height_of(column);
    const double gap = std::min(widest_gap_mm, spare / static_cast<double>(column.size() - 1));
    double y = trim.y_mm + quiet_zone_mm;
    for (std::size_t i = 0; i + 1 < column.size(); ++i) {
        const double below_rule_mm = column[i].lines.empty() ? 0 : gap / 2;
        place(column[i], number, x, y, below_rule_mm, layout);
        y += column[i].height_mm + below_rule_mm + gap / 2;
    }
    // STOP stands at the foot of every side: a place that can be found without looking for it.
    const double foot = trim.y_mm + trim.height_mm - quiet_zone_mm - column.back().height_mm;
    place(column.back(), number, x, foot, 0, layout);
}

} // namespace tuck::faces
