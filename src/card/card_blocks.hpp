// The card's content set in type: blocks as wide as the card, of known height, not yet placed.
#pragma once

#include "card/card.hpp"
#include "card/card_content.hpp"
#include "card/card_metrics.hpp"
#include "paper/text_fit.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// Heights of capitals in millimetres.
struct TypeSizes {
    double row = 0, label = 0, help = 0;
};

/// The cost of beginning a side with a block that must stay below the one before it.
inline constexpr int never_break = 100;

/// Texts and rules placed from the block's own top left corner. A block is never split; a rule stands at its
/// top.
struct Block {
    std::vector<PlacedText> texts;
    std::vector<pdf::Line> lines;
    std::vector<pdf::Box> boxes;
    std::vector<pdf::Path> paths = {};
    double height_mm = 0;
    int break_cost = 0; // how bad it is to begin a side with this block; 0: best, never_break: not allowed
    bool is_row = false;
    bool begins_run = false; // a side that begins here is worn alone from T2 on
    int section = -1; // index of the section whose heading is repeated when a side begins here; -1: none
};

/// The first section that is read after the bike; 0 without a bike.
std::size_t after_bike(const CardContent& card);

/// Sets blocks of one width and size of type.
class Typesetter {
public:
    Typesetter(const Fonts& fonts, const TypeSizes& sizes, double width_mm, bool low)
        : fonts_(fonts), sizes_(sizes), width_mm_(width_mm), low_(low),
          pitch_caps_(low ? low_line_caps : line_caps) {}

    /// Race, athlete, day, version and the bib box. `side_note`: "1 of 2", or empty.
    Block head(const CardContent& card, const std::string& side_note) const;
    /// Whose it is, for sides without the whole head; one line for a low card's later sides (`first` false).
    /// An accent on the first line of a low card may reach into the free edge, of which it needs every tenth.
    Block short_head(const CardContent& card, const std::string& side_note, bool first) const;
    /// Everything between head and STOP, in order. `early_help`: so many lines of help stand before what is
    /// read after the bike, so that the run may have a side for itself; the others stand last.
    std::vector<Block> body(const CardContent& card, std::size_t early_help) const;
    /// The heading of a section that goes on.
    Block heading_again(const CardSection& section) const;
    /// At the foot of a side whose section goes on: "BIKE goes on: side 2".
    Block goes_on(const CardSection& section, std::size_t side) const;
    /// In a frame; on a low card, which has no room for one, below a heavy rule.
    Block stop(const CardHelp& stop) const;

private:
    double cap(Role role) const;
    double text_width(Role role, Face face, const std::string& text) const;
    Measure measure(Role role, Face face) const;
    void put(Block& block, Role role, Face face, double x_mm, double baseline_mm,
             const std::string& text) const;
    void put_lines(Block& block, Role role, Face face, const std::vector<std::string>& lines) const;
    void put_paragraph(Block& block, Role role, Face face, const std::string& text) const;
    void put_lead(Block& block, Role lead_role, const CardHelp& help, double x_mm, double width_mm) const;
    void put_row(Block& block, const CardRow& row) const;
    /// A clock face of one letter's height with the beats of a row; its right edge.
    double put_dial(Block& block, const std::vector<int>& minutes, double baseline_mm) const;
    void put_heading(Block& block, const std::string& text, const std::string& key) const;
    void put_bib(Block& block, const std::string& bib, double width_mm) const;
    void rule(Block& block, double thickness_mm) const;
    void put_cut(Block& block, Role role, std::size_t lines_at_most, const std::string& text,
                 double width_mm) const;
    /// Facts packed into lines: `narrow_mm` wide beside the bib box, which ends at `narrow_until_mm`.
    void put_facts(Block& block, const std::vector<std::string>& facts, double narrow_mm,
                   double narrow_until_mm) const;
    void add_section(const CardContent& card, std::size_t section, int break_cost,
                     std::vector<Block>& blocks) const;
    void add_lines(const std::vector<CardHelp>& lines, std::size_t from, std::size_t to, int break_cost,
                   std::vector<Block>& blocks) const;
    Block headline(const CardContent& card) const;
    Block still_matters(const std::string& text) const;
    Block heading(const CardSection& section) const;
    Block row(const CardRow& row, double rule_mm) const;
    Block note(const std::string& text) const;
    Block help(const CardHelp& line, bool first) const;

    const Fonts& fonts_;
    TypeSizes sizes_;
    double width_mm_;
    bool low_;
    double pitch_caps_;
};

} // namespace tuck::faces
