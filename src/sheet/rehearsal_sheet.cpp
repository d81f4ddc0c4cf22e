#include "sheet/rehearsal_sheet.hpp"

#include "paper/text_fit.hpp"
#include "say/line_words.hpp"
#include "say/plan_words.hpp"
#include "tuck/diary.hpp"

#include <fmt/format.h>

namespace tuck::faces {

namespace {

constexpr double left_mm = 15, right_mm = 195, foot_mm = 285, cap_mm = 2.4, title_cap_mm = 3.6;
constexpr double row_mm = 7.5, line_mm = 9, box_mm = 4;
constexpr double what_x = 42, first_box_x = 118, box_step = 14, why_x = 162;
constexpr double thin_mm = 0.15;

/// Pages filled from the top; a new one begins where the foot is reached.
class LogSheet {
public:
    LogSheet(const Fonts& fonts, pdf::Document& document) : fonts_(fonts), document_(document) { new_page(); }

    void title(const std::string& text) {
        for (const auto& row :
             wrap_at_most(2, text, right_mm - left_mm, measure(Face::narrow_bold, title_cap_mm))) {
            put(left_mm, title_cap_mm, Face::narrow_bold, row);
            y_ += 2 * title_cap_mm;
        }
    }
    void heading(const std::string& text) {
        need_room(3 * row_mm);
        y_ += 3;
        put(left_mm, cap_mm + 0.3, Face::narrow_bold, text);
        y_ += row_mm - 1;
    }
    /// Words and a line to write on, several beside each other.
    void blanks(const std::vector<std::string>& words) {
        need_room(line_mm);
        const double width = (right_mm - left_mm) / static_cast<double>(words.size());
        double x = left_mm;
        for (const auto& word : words) {
            put(x, cap_mm, Face::sans, word);
            const double from = x + fonts_.width_mm(Face::sans, cap_mm, word) + 2;
            page().lines.push_back({from, y_ + 1, x + width - 3, y_ + 1, thin_mm});
            x += width;
        }
        y_ += line_mm;
    }
    void feed_head() {
        put(left_mm, cap_mm, Face::narrow_bold, "when");
        put(what_x, cap_mm, Face::narrow_bold, "what");
        const char* words[] = {"taken", "half", "skipped"};
        for (int i = 0; i < 3; ++i)
            put(first_box_x + i * box_step - 2, cap_mm, Face::narrow_bold, words[i]);
        put(why_x, cap_mm, Face::narrow_bold, "why");
        y_ += row_mm;
    }
    void feed(const PlanFeed& row) {
        if (need_room(row_mm))
            feed_head();
        put(left_mm, cap_mm, Face::sans,
            fmt::format("{} {}", row.leg == LegKind::run ? "run" : "bike", time_text(row.at_s)));
        put(what_x, cap_mm, Face::sans,
            cut(say::feed(row), first_box_x - what_x - 3, measure(Face::sans, cap_mm)));
        for (int i = 0; i < 3; ++i)
            box(first_box_x + i * box_step);
        page().lines.push_back({why_x, y_ + 1, right_mm, y_ + 1, thin_mm});
        y_ += row_mm;
    }
    /// A symptom with a box for the bike and one for the run.
    void symptom(const std::string& word) {
        need_room(row_mm);
        put(left_mm, cap_mm, Face::sans, word);
        box(what_x + 10);
        box(what_x + 30);
        y_ += row_mm;
    }
    void symptom_head() {
        put(what_x + 8, cap_mm, Face::sans, "bike");
        put(what_x + 28, cap_mm, Face::sans, "run");
        y_ += row_mm - 1;
    }
    void paragraph(const std::string& text) {
        for (const auto& row : wrap(text, right_mm - left_mm, measure(Face::sans, cap_mm))) {
            need_room(5);
            put(left_mm, cap_mm, Face::sans, row);
            y_ += 5;
        }
    }

private:
    pdf::Page& page() { return document_.pages.back(); }
    Measure measure(Face face, double cap) const {
        return [this, face, cap](const std::string& text) { return fonts_.width_mm(face, cap, text); };
    }
    void new_page() {
        document_.pages.emplace_back();
        y_ = 20;
    }
    bool need_room(double height) {
        if (y_ + height <= foot_mm)
            return false;
        new_page();
        return true;
    }
    void put(double x, double cap, Face face, const std::string& text) {
        page().texts.push_back({x, y_, cap, face, text});
    }
    void box(double x) { page().boxes.push_back({x, y_ - box_mm + 0.6, box_mm, box_mm, thin_mm}); }

    const Fonts& fonts_;
    pdf::Document& document_;
    double y_ = 20;
};

void write_log(const Plan& plan, LogSheet& sheet) {
    sheet.title("Log: " + (plan.event_name.empty() ? std::string("rehearsal") : plan.event_name) +
                (plan.date.empty() ? "" : ", " + plan.date) + ", plan " + plan.version);
    sheet.blanks({"Last meal, h before", "Sleep, hours", "Caffeine", "Medicines"});
    sheet.blanks({"Weather, fan", "Start", "Bottles before, g", "and after, g"});
    sheet.heading("Feeds: tick one box each");
    sheet.feed_head();
    for (const PlanFeed& row : plan.feeds)
        sheet.feed(row);
    sheet.heading("Stomach: worst mark, 0 none to 10 worst");
    sheet.symptom_head();
    for (const auto& word : gut_symptoms())
        sheet.symptom(word);
    sheet.heading("How it went");
    sheet.blanks({"Effort, 0 to 10", "Power or heart rate", "Thirst, 0 to 10", "Stops"});
    sheet.blanks({"A sudden slump? When?", "Vomiting or blood? Stop; a doctor"});
    sheet.blanks({"Symptoms in the 24 hours after"});
    sheet.blanks({"The one change next time"});
    sheet.paragraph(
        "Up 5 to 10 g/h only after two good sessions at race effort with the run: worst mark at most "
        "3, 90 % taken. Hold at 4 or 5, down at 6 or more. Not medical advice.");
}

} // namespace

std::string rehearsal_pdf(const Plan& plan, const std::string& title, std::vector<pdf::Page> card) {
    const Fonts fonts;
    pdf::Document document{title, "One athlete's session, not medical advice", std::move(card)};
    LogSheet sheet(fonts, document);
    write_log(plan, sheet);
    return pdf::write(document);
}

} // namespace tuck::faces
