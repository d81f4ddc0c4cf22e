#include "sheet/rehearsal_sheet.hpp"

#include "paper/text_fit.hpp"
#include "say/line_words.hpp"
#include "say/plan_words.hpp"
#include "tuck/diary.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace tuck::faces {

namespace {

constexpr double left_mm = 15, right_mm = 195, top_mm = 18, bottom_mm = 287, cap_mm = 2.3, small_cap_mm = 1.9;
constexpr double title_cap_mm = 3.4, row_mm = 6.8, line_mm = 8.2, box_mm = 3.6, thin_mm = 0.15;
constexpr double moment_mm = 12.8, bottle_x_mm = 60;
constexpr double mark_mm = 5.6, bike_marks_mm = 36, run_marks_mm = 118;

/// One page, filled from the top.
class LogSheet {
public:
    LogSheet(const Fonts& fonts, pdf::Page& page) : fonts_(fonts), page_(page) {}

    void title(const std::string& text) {
        for (const auto& row :
             wrap_at_most(2, text, right_mm - left_mm, measure(Face::narrow_bold, title_cap_mm))) {
            put(left_mm, title_cap_mm, Face::narrow_bold, row);
            y_ += 1.9 * title_cap_mm;
        }
    }
    void heading(const std::string& text) {
        y_ += 1.6;
        put(left_mm, cap_mm + 0.3, Face::narrow_bold, text);
        y_ += row_mm - 1;
    }
    /// Words and a line to write on, several beside each other.
    void blanks(const std::vector<std::string>& words) {
        const double width = (right_mm - left_mm) / static_cast<double>(words.size());
        double x = left_mm;
        for (const auto& word : words) {
            put(x, cap_mm, Face::sans, word);
            const double from = x + fonts_.width_mm(Face::sans, cap_mm, word) + 2;
            page_.lines.push_back({from, y_ + 1, x + width - 3, y_ + 1, thin_mm});
            x += width;
        }
        y_ += line_mm;
    }
    /// What a line asks for, then a box for each of its moments.
    void feeds(const Line& line) {
        const std::string where = is_transition(line.leg) ? "" : leg_name(line.leg) + ", ";
        put(left_mm, cap_mm, Face::sans,
            cut(where + say::text(line), right_mm - left_mm, measure(Face::sans, cap_mm)));
        y_ += row_mm - 1.6;
        double x = left_mm + 3;
        for (const auto& at : line.at) {
            if (x + moment_mm > right_mm) {
                x = left_mm + 3;
                y_ += row_mm - 1;
            }
            const auto text = is_transition(line.leg) ? std::string()
                              : line.by_km            ? "km " + say::km(at.km)
                                                      : say::clock(at.at_s);
            box(x);
            put(x + box_mm + 1, small_cap_mm, Face::sans, text);
            x += moment_mm + (line.by_km ? 2 : 0);
        }
        y_ += row_mm;
    }
    void bottle(const Mix& mix) {
        put(left_mm, cap_mm, Face::sans, fmt::format("{}, full: {:.0f} ml", mix.bottle, mix.volume_ml));
        double x = bottle_x_mm;
        put(x, cap_mm, Face::sans, "left:");
        x += 11;
        for (const char* word : {"full", "3/4", "1/2", "1/4", "empty"}) {
            put(x, cap_mm, Face::sans, word);
            x += 11.5;
        }
        put(x, cap_mm, Face::sans, "or");
        page_.lines.push_back({x + 5, y_ + 1, right_mm - 5, y_ + 1, thin_mm});
        put(right_mm - 4, cap_mm, Face::sans, "ml");
        y_ += row_mm;
    }
    void marks_head(const char* first, const char* second) {
        put(bike_marks_mm, cap_mm, Face::narrow_bold, first);
        put(run_marks_mm, cap_mm, Face::narrow_bold, second);
        y_ += row_mm - 1;
    }
    /// 0 to 10, to be circled.
    void marks(const std::string& word, bool bike, bool run) {
        put(left_mm, cap_mm, Face::sans, word);
        for (const auto& [x, there] : {std::pair{bike_marks_mm, bike}, std::pair{run_marks_mm, run}})
            for (int mark = 0; there && mark <= 10; ++mark)
                put(x + mark * mark_mm, cap_mm, Face::sans, fmt::format("{}", mark));
        y_ += row_mm - 0.3;
    }
    void words(const char* word, const std::vector<std::string>& choices) {
        put(left_mm, cap_mm, Face::sans, word);
        double x = bike_marks_mm;
        for (const auto& choice : choices) {
            put(x, cap_mm, Face::sans, choice);
            x += fonts_.width_mm(Face::sans, cap_mm, choice) + 6;
        }
        y_ += row_mm;
    }
    void small(const std::string& text, Face face = Face::sans) {
        for (const auto& row : wrap(text, right_mm - left_mm, measure(face, small_cap_mm))) {
            if (y_ > bottom_mm)
                return;
            put(left_mm, small_cap_mm, face, row);
            y_ += 3.9;
        }
    }

private:
    Measure measure(Face face, double cap) const {
        return [this, face, cap](const std::string& text) { return fonts_.width_mm(face, cap, text); };
    }
    void put(double x, double cap, Face face, const std::string& text) {
        page_.texts.push_back({x, y_, cap, face, text});
    }
    void box(double x) { page_.boxes.push_back({x, y_ - box_mm + 0.6, box_mm, box_mm, thin_mm}); }

    const Fonts& fonts_;
    pdf::Page& page_;
    double y_ = top_mm;
};

bool has(const Plan& plan, LegKind kind) {
    return std::any_of(plan.durations.begin(), plan.durations.end(),
                       [kind](const LegEffort& leg) { return leg.kind == kind; });
}

void write_log(const Rehearsal& r, const Plan& plan, const std::string& command, LogSheet& sheet) {
    sheet.title("Log: " + (plan.event_name.empty() ? std::string("rehearsal") : plan.event_name) +
                (plan.date.empty() ? "" : ", " + plan.date) + ", plan " + plan.version);
    sheet.blanks({"Day and hour", "Air, sun, wind"});
    sheet.blanks({"Last meal, hours before", "Sleep, hours", "Coffee, cups", "Medicines"});
    if (!plan.lines.empty())
        sheet.heading("Taken? A tick: all of it. A stroke: half. Empty: left out.");
    for (const auto& line : plan.lines)
        sheet.feeds(line);
    if (!plan.mix.empty())
        sheet.heading("Bottles: circle what was left");
    for (const auto& mix : plan.mix)
        sheet.bottle(mix);
    const bool bike = has(plan, LegKind::bike), run = has(plan, LegKind::run);
    sheet.heading(
        "Stomach: circle the worst. 0 none, 3 felt but no matter, 6 had to slow down, 10 had to stop.");
    sheet.marks_head(bike ? "bike" : "", run ? "run" : "");
    for (const auto& word : gut_symptoms())
        sheet.marks(word, bike, run);
    sheet.heading("How it went");
    sheet.marks("effort", bike, run);
    sheet.marks("thirst", bike, run);
    sheet.words("slump", {"no", "yes, at:"});
    sheet.words("stops", {"0", "1", "2", "3 or more"});
    sheet.words("vomit, blood", {"no", "yes: stop, and see a doctor before the next session"});
    sheet.blanks({"What was left out, and why"});
    sheet.blanks({"In the 24 hours after"});
    sheet.blanks({"The one change next time"});
    sheet.small("A step up only after two good sessions at race effort with the run: worst mark at most 3, "
                "90 % taken. Hold "
                "at 4 or 5, down at 6 or more. " +
                std::string(r.as_race_day ? "No new step after this one. " : "") + "Not medical advice.");
    sheet.small("Into the diary: " + command, Face::narrow);
}

} // namespace

std::string rehearsal_pdf(const Rehearsal& rehearsal, const Plan& plan, const std::string& title,
                          const std::string& command, std::vector<pdf::Page> card) {
    const Fonts fonts;
    pdf::Document document{title, "One athlete's session, not medical advice", std::move(card)};
    LogSheet sheet(fonts, document.pages.emplace_back());
    write_log(rehearsal, plan, command, sheet);
    return pdf::write(document);
}

} // namespace tuck::faces
