#include "card/card_check.hpp"

#include "card/card_metrics.hpp"
#include "card/card_rows.hpp"
#include "paper/legibility.hpp"
#include "paper/pdf_read.hpp"
#include "paper/text_fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <set>
#include <sstream>
#include <stdexcept>

namespace tuck::faces {
namespace {

constexpr long longest_row_line = 24; // characters

// Coordinates in the file have five decimals of a point; capitals are measured on the font to 1/1000 em.
constexpr double place_mm = 0.01, angle_arcmin = 0.05;
constexpr double descender_caps = 0.308; // of Liberation, measured
// Words a minute in silent reading (Brysbaert 2019, from memory), for the time that one row takes.
constexpr double words_per_min = 238;

/// Vertical stem of H over the height of H, measured on Debian's font files with fontTools 4.38.
const std::map<std::string, double> stems{
    {"LiberationSans", 0.136}, {"LiberationSansNarrow", 0.111}, {"LiberationSansNarrow-Bold", 0.172}};

/// WCAG 2.2: (lighter + 0.05) / (darker + 0.05), white being 1.
double contrast_on_white(double grey) {
    const double linear = grey <= 0.04045 ? grey / 12.92 : std::pow((grey + 0.055) / 1.055, 2.4);
    return 1.05 / (linear + 0.05);
}

class Checker {
public:
    Checker(const pdf::Found& file, const pdf::FoundPage& page, const CardLayout& layout,
            const CardOptions& options)
        : page_(page), file_(file), layout_(layout), options_(options), fonts_(options.font_folder) {}

    std::vector<CardFinding> check() {
        words();
        letters(Role::row, "rows: smallest capital", row_arcmin,
                "ISO 9241-3 prefers 20 to 22' (as quoted by a maker's guide); NUREG-0700 rev. 2");
        letters(Role::label, "headings: smallest capital", label_arcmin,
                "ISO 9241-3 and NUREG-0700 rev. 2, the least for display text");
        letters(Role::help, "notes and help: smallest capital", help_arcmin, "ISO 15008, from memory");
        rows();
        stroke();
        contrast();
        trim();
        quiet_zone();
        overlaps();
        paper();
        font_files();
        return std::move(findings_);
    }

private:
    void add(std::string what, std::string measured, std::string limit, bool ok) {
        findings_.push_back({std::move(what), std::move(measured), std::move(limit), ok});
    }

    std::size_t runs() const { return std::min(page_.texts.size(), layout_.texts.size()); }

    double cap_mm(const pdf::FoundText& text) const {
        static const std::pair<const char*, Face> names[] = {{"LiberationSans", Face::sans},
                                                             {"LiberationSansNarrow", Face::narrow},
                                                             {"LiberationSansNarrow-Bold", Face::narrow_bold},
                                                             {"RobotoCondensed-Regular", Face::stand_in},
                                                             {"RobotoCondensed-Bold", Face::stand_in_bold}};
        for (const auto& [name, face] : names)
            if (text.font == name)
                return text.em_mm * fonts_.cap_per_em(face);
        return 0;
    }

    void words() {
        std::size_t same = 0;
        for (std::size_t i = 0; i < runs(); ++i)
            same += page_.texts[i].utf8 == layout_.texts[i].text.utf8;
        add("texts that read back as planned", fmt::format("{}", same),
            fmt::format("all {}", layout_.texts.size()),
            same == layout_.texts.size() && page_.texts.size() == same);
    }

    void letters(Role role, const char* what, double floor, const char* source) {
        double smallest_mm = INFINITY;
        for (std::size_t i = 0; i < runs(); ++i)
            if (layout_.texts[i].role == role && layout_.texts[i].side >= 0)
                smallest_mm = std::min(smallest_mm, cap_mm(page_.texts[i]));
        if (smallest_mm == INFINITY)
            return;
        const double angle = arcmin_of(smallest_mm, options_.reading_distance_mm, options_.tilt_deg);
        add(what, fmt::format("{:.2f} mm = {:.1f}'", smallest_mm, angle),
            fmt::format("at least {:g}' [{}]", floor, source), angle >= floor - angle_arcmin);
    }

    /// Rows as they stand on the paper: texts of one role and side on one baseline.
    std::map<std::pair<int, long>, std::string> rows_read() const {
        std::map<std::pair<int, long>, std::string> rows;
        for (std::size_t i = 0; i < runs(); ++i)
            if (layout_.texts[i].role == Role::row && layout_.texts[i].side >= 0) {
                auto& row = rows[{layout_.texts[i].side, std::lround(page_.texts[i].baseline_mm * 100)}];
                row += (row.empty() ? "" : " ") + page_.texts[i].utf8;
            }
        return rows;
    }

    /// Things to keep in mind: a plus between two is none.
    static long words_in(const std::string& row) {
        std::istringstream in(row);
        return std::count_if(std::istream_iterator<std::string>(in), {},
                             [](const std::string& word) { return word != "+"; });
    }

    void rows() {
        long longest = 0, most_chunks = 0;
        double slowest_s = 0;
        for (const auto& [place, row] : rows_read()) {
            longest = std::max(longest, std::lround(columns(row)));
            const long chunks = words_in(row);
            most_chunks = std::max(most_chunks, std::min(chunks, 99L));
            slowest_s = std::max(slowest_s, static_cast<double>(chunks) * 60 / words_per_min);
        }
        if (longest == 0)
            return;
        add("longest line of a row", fmt::format("{} characters", longest),
            fmt::format("at most {} [our choice]", longest_row_line), longest <= longest_row_line);
        add("most parts in a row", fmt::format("{}", most_chunks),
            "at most 5 [Cowan 2001: 3 to 5 things at once]", most_chunks <= 5);
        add("slowest row at 238 words/min", fmt::format("{:.1f} s", slowest_s),
            "at most 2 s a glance [NHTSA 2013; Brysbaert 2019, from memory]", slowest_s <= 2);
    }

    void stroke() {
        double thinnest = INFINITY, thickest = 0;
        for (std::size_t i = 0; i < runs(); ++i)
            if (layout_.texts[i].role == Role::row && stems.count(page_.texts[i].font)) {
                thinnest = std::min(thinnest, stems.at(page_.texts[i].font));
                thickest = std::max(thickest, stems.at(page_.texts[i].font));
            }
        if (thickest > 0)
            add("rows: stem over capital", fmt::format("1/{:.1f}", 1 / thickest),
                "1/8 to 1/5, about 1/6 [DOD-HDBK-791]", thinnest >= 0.125 && thickest <= 0.2);
    }

    void contrast() {
        double worst = INFINITY;
        for (const pdf::FoundText& text : page_.texts)
            worst = std::min(worst, contrast_on_white(text.grey));
        add("lowest contrast of text", fmt::format("{:.0f}:1", worst), "at least 7:1 [WCAG 2.2, 1.4.6]",
            worst >= 7);
    }

    /// Whether a cut mark lies on this edge line: thin, straight, and outside the card.
    bool marked(double x_mm, double y_mm, bool along_x) const {
        return std::any_of(page_.lines.begin(), page_.lines.end(), [&](const pdf::FoundLine& line) {
            const double off = along_x ? std::abs(line.y1_mm - y_mm) + std::abs(line.y2_mm - y_mm)
                                       : std::abs(line.x1_mm - x_mm) + std::abs(line.x2_mm - x_mm);
            const double near = along_x ? std::min(std::abs(line.x1_mm - x_mm), std::abs(line.x2_mm - x_mm))
                                        : std::min(std::abs(line.y1_mm - y_mm), std::abs(line.y2_mm - y_mm));
            return line.width_mm < 0.15 && off < place_mm && near > 1 && near < 3;
        });
    }

    void trim() {
        std::size_t found = 0;
        for (const Trim& side : layout_.sides)
            for (const double x : {side.x_mm, side.x_mm + side.width_mm})
                for (const double y : {side.y_mm, side.y_mm + side.height_mm})
                    found += (marked(x, y, true) ? 1 : 0) + (marked(x, y, false) ? 1 : 0);
        const Trim& first = layout_.sides.at(0);
        add("cut marks", fmt::format("{}", found),
            fmt::format("{} for {} side(s) of {:g} x {:g} mm", 8 * layout_.sides.size(), layout_.sides.size(),
                        first.width_mm, first.height_mm),
            found == 8 * layout_.sides.size());
        const bool bar = std::any_of(page_.lines.begin(), page_.lines.end(), [](const pdf::FoundLine& line) {
            return line.y1_mm == line.y2_mm && std::abs(std::abs(line.x2_mm - line.x1_mm) - 50) < place_mm;
        });
        add("check bar", bar ? "50.00 mm" : "missing", "50 mm", bar);
    }

    double width_mm(std::size_t i) const {
        return layout_.texts[i].width_mm * cap_mm(page_.texts[i]) / layout_.texts[i].text.cap_mm;
    }

    void quiet_zone() {
        double least = INFINITY;
        for (std::size_t i = 0; i < runs(); ++i) {
            if (layout_.texts[i].side < 0)
                continue;
            const pdf::FoundText& text = page_.texts[i];
            const Trim& side = layout_.sides[static_cast<std::size_t>(layout_.texts[i].side)];
            const double cap = cap_mm(text);
            least = std::min({least, text.x_mm - side.x_mm, text.baseline_mm - cap - side.y_mm,
                              side.x_mm + side.width_mm - text.x_mm - width_mm(i),
                              side.y_mm + side.height_mm - text.baseline_mm - descender_caps * cap});
        }
        add("text to the cut", fmt::format("{:.2f} mm", least),
            fmt::format("at least {:g} mm [our choice]", quiet_zone_mm), least >= quiet_zone_mm - place_mm);
    }

    void overlaps() {
        struct Ink {
            double left, top, right, bottom;
        };
        std::vector<Ink> inks;
        for (std::size_t i = 0; i < runs(); ++i) {
            const pdf::FoundText& text = page_.texts[i];
            const double cap = cap_mm(text);
            inks.push_back({text.x_mm, text.baseline_mm - cap, text.x_mm + width_mm(i),
                            text.baseline_mm + descender_caps * cap});
        }
        std::size_t pairs = 0;
        for (std::size_t a = 0; a < inks.size(); ++a)
            for (std::size_t b = a + 1; b < inks.size(); ++b)
                pairs += inks[a].left < inks[b].right - place_mm && inks[b].left < inks[a].right - place_mm &&
                         inks[a].top < inks[b].bottom - place_mm && inks[b].top < inks[a].bottom - place_mm;
        add("texts that touch", fmt::format("{}", pairs), "0", pairs == 0);
    }

    void paper() {
        add("paper", fmt::format("{:.1f} x {:.1f} mm", page_.width_mm, page_.height_mm),
            fmt::format("{} {:g} x {:g} mm", options_.paper.name, options_.paper.width_mm,
                        options_.paper.height_mm),
            std::abs(page_.width_mm - options_.paper.width_mm) < 0.1 &&
                std::abs(page_.height_mm - options_.paper.height_mm) < 0.1);
        add("scaling when printed", file_.unscaled ? "none asked" : "left to the viewer",
            "none [ISO 32000-1]", file_.unscaled);
    }

    void font_files() {
        std::set<std::string> used, lacking;
        for (const pdf::FoundText& text : page_.texts)
            used.insert(text.font);
        for (const pdf::FoundFont& font : page_.fonts) {
            used.insert(font.name);
            if (!font.embedded || !font.subset)
                lacking.insert(font.name);
        }
        std::string names;
        for (const std::string& name : used)
            names += (names.empty() ? "" : ", ") + name;
        add("fonts", names, "all embedded and subset", lacking.empty() && !used.empty());
    }

    const pdf::FoundPage& page_;
    const pdf::Found& file_;
    const CardLayout& layout_;
    const CardOptions& options_;
    const Fonts fonts_;
    std::vector<CardFinding> findings_;
};

} // namespace

std::vector<CardFinding> check_card(const std::string& bytes, const std::vector<CardLayout>& layouts,
                                    const CardOptions& options) {
    const pdf::Found file = pdf::read(bytes);
    if (file.pages.size() != layouts.size())
        throw std::runtime_error("PDF: another number of pages than laid out");
    std::vector<CardFinding> all;
    for (std::size_t i = 0; i < layouts.size(); ++i)
        for (CardFinding& finding : Checker(file, file.pages[i], layouts[i], options).check()) {
            if (layouts.size() > 1)
                finding.what = fmt::format("sheet {}: {}", i + 1, finding.what);
            all.push_back(std::move(finding));
        }
    return all;
}

std::string check_text(const std::vector<CardFinding>& findings, const CardOptions& options) {
    std::string out =
        fmt::format("Measured in the file, for an eye at {:g} mm and a card tilted {:g} degrees:\n",
                    options.reading_distance_mm, options.tilt_deg);
    for (const CardFinding& finding : findings)
        out += fmt::format("{} {:<38} {:<20} {}\n", finding.ok ? "  ok  " : "  NO  ", finding.what,
                           finding.measured, finding.limit);
    return out;
}

} // namespace tuck::faces
