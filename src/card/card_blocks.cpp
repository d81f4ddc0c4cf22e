#include "card/card_blocks.hpp"

#include "paper/text_fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tuck::faces {
namespace {

constexpr double frame_padding_mm = 1.6, heavy_mm = 1.2;
constexpr double accent_caps = 0.25; // above the first line, for an accent on a capital
constexpr double bib_box_lines = 3, bib_line_mm = 0.4;
// A clock face as large as the line allows; its dots are seen from 700 mm at 5 minutes of arc.
constexpr double dial_caps = 1.2, dial_dot_caps = 0.26, dial_gap_caps = 0.3;
constexpr double least_name_mm = 6;
constexpr double bib_box_mm = 15, least_beside_bib_mm = 18, beside_bib_mm = 2;

std::string joined(const std::string& a, const std::string& b) {
    return a.empty() || b.empty() ? a + b : a + " · " + b;
}

// What one line of a row holds: three to five things at once (Cowan 2001), and no more letters than we
// choose.
constexpr std::size_t most_parts = 5;
constexpr double most_columns = 24; // "each station 1 cup water"

std::size_t parts_of(const std::string& text) {
    return 1 + static_cast<std::size_t>(std::count(text.begin(), text.end(), ' '));
}

/// Cut at blanks into lines of at most `most_parts` words.
std::vector<std::string> in_glances(const std::string& text) {
    std::vector<std::string> lines{""};
    std::size_t words = 0;
    for (const char c : text) {
        if (c == ' ' && ++words % most_parts == 0)
            lines.emplace_back();
        else
            lines.back() += c;
    }
    return lines;
}

/// Puts `below` under what is already there.
void append(Block& block, Block below) {
    for (PlacedText& placed : below.texts) {
        placed.text = pdf::moved(std::move(placed.text), 0, block.height_mm);
        block.texts.push_back(std::move(placed));
    }
    for (const pdf::Box& box : below.boxes)
        block.boxes.push_back(pdf::moved(box, 0, block.height_mm));
    for (const pdf::Path& path : below.paths)
        block.paths.push_back(pdf::moved(path, 0, block.height_mm));
    block.height_mm += below.height_mm;
}

} // namespace

double Typesetter::cap(Role role) const {
    return role == Role::row ? sizes_.row : role == Role::label ? sizes_.label : sizes_.help;
}

double Typesetter::text_width(Role role, Face face, const std::string& text) const {
    return fonts_.width_mm(face, cap(role), text);
}

Measure Typesetter::measure(Role role, Face face) const {
    return [this, role, face](const std::string& text) { return text_width(role, face, text); };
}

void Typesetter::put(Block& block, Role role, Face face, double x_mm, double baseline_mm,
                     const std::string& text) const {
    block.texts.push_back(
        {role, 0, text_width(role, face, text), {x_mm, baseline_mm, cap(role), face, text}});
}

void Typesetter::put_lines(Block& block, Role role, Face face, const std::vector<std::string>& lines) const {
    for (const std::string& line : lines) {
        block.height_mm += pitch_caps_ * cap(role);
        put(block, role, face, 0, block.height_mm - below_baseline_caps * cap(role), line);
    }
}

void Typesetter::put_paragraph(Block& block, Role role, Face face, const std::string& text) const {
    put_lines(block, role, face, wrap(text, width_mm_, measure(role, face)));
}

void Typesetter::put_lead(Block& block, Role lead_role, const CardHelp& help, double x_mm,
                          double width_mm) const {
    const double cap_help = cap(Role::help);
    const auto line_down = [&](double tallest) {
        block.height_mm += tallest + (pitch_caps_ - 1) * cap_help;
        return block.height_mm - below_baseline_caps * cap_help;
    };
    const auto leads = help.when.empty() ? std::vector<std::string>{}
                                         : wrap(help.when, width_mm, measure(lead_role, Face::narrow_bold));
    double baseline = 0, indent = 0;
    for (const std::string& lead : leads) {
        baseline = line_down(cap(lead_role));
        put(block, lead_role, Face::narrow_bold, x_mm, baseline, lead);
        indent = block.texts.back().width_mm + text_width(Role::help, Face::narrow, "  ");
        // The foot of its larger letters stays off the line below.
        block.height_mm += std::max(0.0, foot_caps * cap(lead_role) - (pitch_caps_ - 1) * cap_help);
    }
    bool beside_lead = !leads.empty();
    for (const std::string& line : wrap(help.text, width_mm, measure(Role::help, Face::narrow), indent)) {
        if (!beside_lead)
            baseline = line_down(cap_help);
        if (!line.empty())
            put(block, Role::help, Face::narrow, beside_lead ? x_mm + indent : x_mm, baseline, line);
        beside_lead = false;
    }
}

void Typesetter::rule(Block& block, double thickness_mm) const {
    const double y = block.height_mm + thickness_mm / 2;
    block.lines.push_back({0, y, width_mm_, y, thickness_mm});
}

double Typesetter::put_dial(Block& block, const std::vector<int>& minutes, double baseline_mm) const {
    const double cap_mm = cap(Role::row), radius = dial_caps * cap_mm / 2, x = radius,
                 y = baseline_mm - cap_mm / 2;
    const auto round = [](double at_x, double at_y, double r, double line_mm, double fill) {
        constexpr int corners = 24;
        pdf::Path path;
        for (int i = 0; i <= corners; ++i) {
            const double angle = 2 * std::numbers::pi * i / corners;
            path.points.push_back({at_x + r * std::sin(angle), at_y - r * std::cos(angle)});
        }
        path.width_mm = line_mm;
        path.fill_grey = fill;
        return path;
    };
    block.paths.push_back(round(x, y, radius - thin_mm / 2, thin_mm, -1));
    for (const int minute : minutes) {
        const double angle = 2 * std::numbers::pi * minute / 60,
                     out = radius - thin_mm - dial_dot_caps * cap_mm / 2;
        block.paths.push_back(
            round(x + out * std::sin(angle), y - out * std::cos(angle), dial_dot_caps * cap_mm / 2, 0, 0));
    }
    return 2 * radius;
}

void Typesetter::put_row(Block& block, const CardRow& row) const {
    block.height_mm += row_gap_caps * cap(Role::row);
    const Measure width = measure(Role::row, Face::narrow_bold);
    const double gap_mm = column_gap_caps * cap(Role::row);
    const double dial_mm = row.minutes.empty() ? 0 : (dial_caps + dial_gap_caps) * cap(Role::row);
    const auto next_line = [&] {
        block.height_mm += pitch_caps_ * cap(Role::row);
        return block.height_mm - below_baseline_caps * cap(Role::row);
    };
    const auto put_right = [&](double baseline, const std::string& text) {
        put(block, Role::row, Face::narrow_bold, width_mm_ - width(text), baseline, text);
    };
    // A wide card has room for more on one line than a glance takes in.
    const auto at_a_glance = [](const std::string& left, const std::string& right) {
        return parts_of(left) + parts_of(right) <= most_parts &&
               columns(left) + 1 + columns(right) <= most_columns;
    };
    const auto beside = [&](const std::string& left, const std::string& right) {
        return at_a_glance(left, right) && width(left) + gap_mm + width(right) <= width_mm_;
    };
    const std::string whole = row.from.empty() ? row.what : row.what + " " + row.from;
    bool from_said = row.from.empty();
    if (beside(row.when, row.what)) { // "every 30'   ½ bar", and the window below
        const bool with_dial =
            dial_mm > 0 && dial_mm + width(row.when) + gap_mm + width(row.what) <= width_mm_;
        const double x = with_dial ? dial_mm : 0;
        from_said = at_a_glance(row.when, whole) && x + width(row.when) + gap_mm + width(whole) <= width_mm_;
        const double baseline = next_line();
        if (with_dial)
            put_dial(block, row.minutes, baseline);
        put(block, Role::row, Face::narrow_bold, x, baseline, row.when);
        put_right(baseline, from_said ? whole : row.what);
        if (!row.window.empty() && width(row.window) > width_mm_) {
            put_paragraph(block, Role::row, Face::narrow_bold, row.window);
        } else if (!row.window.empty()) {
            const double below = next_line();
            const double left = x + width(row.window) <= width_mm_ ? x : 0;
            put(block, Role::row, Face::narrow_bold, left, below, row.window);
            if (!from_said && left + width(row.window) + gap_mm + width(row.from) <= width_mm_) {
                put_right(below, row.from);
                from_said = true;
            }
        }
    } else {
        for (const std::string& line :
             in_glances(row.window.empty() ? row.when : row.when + " " + row.window))
            put_paragraph(block, Role::row, Face::narrow_bold, line);
        from_said = width(whole) <= width_mm_;
        const std::size_t first = block.texts.size();
        put_paragraph(block, Role::row, Face::narrow_bold, from_said ? whole : row.what);
        for (std::size_t i = first; i < block.texts.size(); ++i)
            block.texts[i].text.x_mm = width_mm_ - block.texts[i].width_mm;
    }
    if (from_said)
        return;
    for (const std::string& line : wrap(row.from, width_mm_, measure(Role::help, Face::narrow_bold))) {
        block.height_mm += pitch_caps_ * cap(Role::help);
        put(block, Role::help, Face::narrow_bold, width_mm_ - text_width(Role::help, Face::narrow_bold, line),
            block.height_mm - below_baseline_caps * cap(Role::help), line);
    }
}

void Typesetter::put_heading(Block& block, const std::string& text, const std::string& key) const {
    rule(block, thick_mm);
    block.height_mm += thick_mm + (line_caps - pitch_caps_) * cap(Role::label);
    put_paragraph(block, Role::label, Face::narrow_bold, text);
    if (key.empty())
        return;
    const double key_mm = text_width(Role::help, Face::narrow, key);
    const bool beside = text_width(Role::label, Face::narrow_bold, text) + 2 + key_mm <= width_mm_;
    if (!beside)
        block.height_mm += pitch_caps_ * cap(Role::help);
    put(block, Role::help, Face::narrow, beside ? width_mm_ - key_mm : 0,
        block.height_mm - below_baseline_caps * cap(beside ? Role::label : Role::help), key);
}

void Typesetter::put_bib(Block& block, const std::string& bib, double width_mm) const {
    const double x = width_mm_ - width_mm, height = bib_box_lines * pitch_caps_ * cap(Role::help);
    block.boxes.push_back(
        {x, bib_line_mm / 2, width_mm - bib_line_mm / 2, height - bib_line_mm, bib_line_mm});
    put(block, Role::help, Face::narrow, x + 1, 1.3 * cap(Role::help) + bib_line_mm, "bib");
    if (bib.empty())
        return;
    const Measure digits = measure(Role::label, Face::narrow_bold);
    const std::string shown = cut(bib, width_mm - 2, digits);
    put(block, Role::label, Face::narrow_bold, x + (width_mm - digits(shown)) / 2,
        height - 0.35 * cap(Role::label), shown);
    block.texts.back().cut = shown != bib;
}

void Typesetter::put_cut(Block& block, Role role, std::size_t lines_at_most, const std::string& text,
                         double width_mm) const {
    const Measure bold = measure(role, Face::narrow_bold);
    const auto lines = wrap_at_most(lines_at_most, text, width_mm, bold);
    put_lines(block, role, Face::narrow_bold, lines);
    if (!lines.empty())
        block.texts.back().cut = wrap(text, width_mm, bold) != lines;
}

void Typesetter::put_facts(Block& block, const std::vector<std::string>& facts, double narrow_mm,
                           double narrow_until_mm) const {
    const Measure plain = measure(Role::help, Face::narrow);
    std::string line;
    const auto room = [&] {
        return block.height_mm + cap(Role::help) < narrow_until_mm ? narrow_mm : width_mm_;
    };
    const auto flush = [&] {
        if (!line.empty()) {
            put_lines(block, Role::help, Face::narrow, {cut(line, room(), plain)});
            block.texts.back().cut = plain(line) > room();
        }
        line.clear();
    };
    for (const std::string& fact : facts) {
        if (plain(joined(line, fact)) > room())
            flush();
        line = joined(line, fact);
    }
    flush();
}

Block Typesetter::head(const CardContent& card, const std::string& side_note) const {
    const double bib_mm = std::clamp(text_width(Role::label, Face::narrow_bold, card.bib) + 3, bib_box_mm,
                                     std::max(bib_box_mm, width_mm_ / 2));
    const double beside_mm = width_mm_ - bib_mm - beside_bib_mm;
    const bool boxed = card.bib_box && beside_mm >= least_beside_bib_mm;
    const double box_height_mm = boxed ? bib_box_lines * pitch_caps_ * cap(Role::help) : 0;
    Block who;
    if (boxed)
        put_bib(who, card.bib, bib_mm);
    put_cut(who, Role::help, 2, card.athlete, boxed ? beside_mm : width_mm_);
    std::vector<std::string> facts{card.date, card.wave, card.version, side_note};
    if (!boxed && !card.bib.empty())
        facts.insert(facts.begin(), "bib " + card.bib);
    put_facts(who, facts, beside_mm, box_height_mm);
    who.height_mm = std::max(who.height_mm, box_height_mm);
    Block block;
    block.height_mm = accent_caps * cap(Role::label);
    put_cut(block, Role::label, 2, card.race, width_mm_);
    append(block, who);
    block.height_mm += rule_gap_caps * cap(Role::help);
    return block;
}

Block Typesetter::short_head(const CardContent& card, const std::string& side_note, bool first) const {
    Block block;
    block.height_mm = low_ ? 0 : accent_caps * cap(Role::help);
    const std::string bib = card.bib.empty() ? "" : "bib " + card.bib;
    if (first) {
        put_facts(block, {card.athlete, bib, card.version, side_note}, width_mm_, 0);
    } else { // one line: whose it is, and which
        const std::string tail = joined(joined(card.athlete.empty() ? "" : bib, card.version), side_note);
        const Measure plain = measure(Role::help, Face::narrow);
        const std::string who = card.athlete.empty() ? bib : card.athlete;
        const double room = width_mm_ - plain(joined(" ", tail));
        const bool name_fits = room > least_name_mm;
        const std::string shown = name_fits ? cut(who, room, plain) : "";
        put_facts(block, {joined(shown, tail)}, width_mm_, 0);
        block.texts.back().cut = block.texts.back().cut || (name_fits && shown != who);
    }
    block.height_mm += rule_gap_caps * cap(Role::help);
    return block;
}

Block Typesetter::heading_again(const CardSection& section) const {
    Block block;
    put_heading(block, section.heading + ", continued", section.key);
    return block;
}

Block Typesetter::goes_on(const CardSection& section, std::size_t side) const {
    return note(fmt::format("{} goes on: side {}", section.heading, side + 1));
}

Block Typesetter::headline(const CardContent& card) const {
    Block block;
    rule(block, thick_mm);
    block.height_mm += thick_mm;
    put_paragraph(block, Role::row, Face::narrow_bold, card.headline);
    put_paragraph(block, Role::label, Face::narrow_bold, card.headline_detail);
    return block;
}

Block Typesetter::still_matters(const std::string& text) const {
    Block block;
    block.height_mm += paragraph_gap_caps * cap(Role::help);
    put_paragraph(block, Role::help, Face::narrow, text);
    return block;
}

Block Typesetter::heading(const CardSection& section) const {
    Block block;
    put_heading(block, section.heading, section.key);
    for (const CardNote& note : section.notes_before)
        put_paragraph(block, Role::help, Face::narrow, note.text);
    return block;
}

Block Typesetter::row(const CardRow& row, double rule_mm) const {
    Block block;
    rule(block, rule_mm);
    put_row(block, row);
    return block;
}

Block Typesetter::note(const std::string& text) const {
    Block block;
    rule(block, thin_mm);
    block.height_mm += rule_gap_caps * cap(Role::help);
    put_paragraph(block, Role::help, Face::narrow_bold, text);
    return block;
}

Block Typesetter::help(const CardHelp& line, bool first) const {
    Block block;
    if (first) {
        block.height_mm += rule_gap_caps * cap(Role::help);
        rule(block, thick_mm);
        block.height_mm += thick_mm + rule_gap_caps * cap(Role::help);
    }
    put_lead(block, Role::help, line, 0, width_mm_);
    block.height_mm += paragraph_gap_caps * cap(Role::help);
    return block;
}

std::size_t after_bike(const CardContent& card) {
    std::size_t after = 0;
    for (std::size_t s = 0; s < card.sections.size(); ++s)
        if (card.sections[s].leg == LegKind::bike)
            after = s + 1;
    return after;
}

namespace {

constexpr int before_row = 20, before_more_help = 4, before_first_section = 3, before_asides = 3,
              before_help = 2, before_section = 1;

void add(std::vector<Block>& blocks, Block block, int break_cost, int section = -1) {
    block.break_cost = break_cost;
    block.section = section;
    blocks.push_back(std::move(block));
}

} // namespace

void Typesetter::add_section(const CardContent& card, std::size_t s, int break_cost,
                             std::vector<Block>& blocks) const {
    const CardSection& section = card.sections[s];
    const bool headed = !is_transition(section.leg); // else its rows say "in T2" themselves
    if (headed)
        add(blocks, heading(section), break_cost);
    for (std::size_t r = 0; r < section.rows.size(); ++r) {
        const bool first = r == 0, begins = first && !headed;
        add(blocks, row(section.rows[r], begins ? thick_mm : thin_mm),
            begins  ? break_cost
            : first ? never_break
                    : before_row,
            first ? -1 : static_cast<int>(s));
        blocks.back().is_row = true;
    }
    for (const CardNote& after : section.notes_after)
        add(blocks, note(after.text), never_break);
    add_lines(section.asides, 0, section.asides.size(), before_asides, blocks);
}

void Typesetter::add_lines(const std::vector<CardHelp>& lines, std::size_t from, std::size_t to,
                           int break_cost, std::vector<Block>& blocks) const {
    for (std::size_t i = from; i < to; ++i)
        add(blocks, help(lines[i], i == from), i == from ? break_cost : before_more_help);
}

std::vector<Block> Typesetter::body(const CardContent& card, std::size_t early_help) const {
    std::vector<Block> blocks;
    if (!card.headline.empty()) {
        add(blocks, headline(card), never_break);
        blocks.back().is_row = true; // it is worn like rows
    }
    for (std::size_t i = 0; i < card.still_matters.size(); ++i)
        add(blocks, still_matters(card.still_matters[i]), i == 0 ? never_break : before_more_help);
    // The run strip goes on in T2: what follows the bike is the best place to begin a side.
    const std::size_t later = after_bike(card);
    for (std::size_t s = 0; s < card.sections.size(); ++s) {
        const bool begins = s > 0 && s == later;
        if (begins)
            add_lines(card.if_then, 0, early_help, before_help, blocks);
        const std::size_t first = blocks.size();
        add_section(card, s, s == 0 ? before_first_section : begins ? 0 : before_section, blocks);
        if (first < blocks.size())
            blocks[first].begins_run = begins;
    }
    for (const std::string& text : card.loose_notes)
        add(blocks, note(text), never_break);
    add_lines(card.if_then, early_help, card.if_then.size(), before_help, blocks);
    return blocks;
}

Block Typesetter::stop(const CardHelp& stop) const {
    Block block;
    if (low_) {
        rule(block, heavy_mm);
        block.height_mm += heavy_mm + rule_gap_caps * cap(Role::help);
        const double top_mm = block.height_mm;
        put_lead(block, Role::label, stop, 0, width_mm_);
        block.height_mm = std::max(block.height_mm, top_mm + (1 + below_baseline_caps) * cap(Role::label));
        return block;
    }
    block.height_mm = frame_padding_mm / 2;
    put_lead(block, Role::label, stop, frame_padding_mm, width_mm_ - 2 * frame_padding_mm);
    block.height_mm += frame_padding_mm / 2;
    block.boxes.push_back(
        {thick_mm / 2, thick_mm / 2, width_mm_ - thick_mm, block.height_mm - thick_mm, thick_mm});
    return block;
}

} // namespace tuck::faces
