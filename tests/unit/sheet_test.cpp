// The sheet: everything on it once, nothing over another thing, and the sums of the day.
#include "io/event_file.hpp"
#include "io/pantry.hpp"
#include "places.hpp"
#include "sheet/sheet.hpp"
#include "tuck/compose.hpp"

#include "say/line_words.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace tuck;
using namespace tuck::faces;
using Catch::Matchers::Contains;

namespace {

Plan sample(const std::string& name) {
    auto input = io::read_event(std::string(places::samples()) + "/" + name + ".json");
    input.event.days = 200;
    return compose_plan(input.athlete, input.event, io::load_pantry(places::foods()));
}

/// The feet of the pages last: a text may go on on the next page.
std::string words(const std::vector<pdf::Page>& pages) {
    std::string all, feet;
    for (const pdf::Page& page : pages)
        for (const pdf::Text& text : page.texts)
            (text.baseline_mm < page.height_mm - 10 ? all : feet) += text.utf8 + " ";
    return all + feet;
}

/// Words without the places where lines were broken.
std::string flat(std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    std::string out;
    for (const char c : text)
        if (c != ' ' || (!out.empty() && out.back() != ' '))
            out += c;
    return out;
}

} // namespace

TEST_CASE("The sums of the day end where the plan's totals stand", "[sheet]") {
    for (const char* name : {"first-sprint", "hot-standard", "hilly-middle", "long-special-needs"}) {
        const Plan plan = sample(name);
        REQUIRE_FALSE(plan.day_sums.empty());
        const DayPoint& end = plan.day_sums.back();
        CHECK(end.carb_g == Approx(plan.totals.carb_g));
        CHECK(end.fluid_ml == Approx(plan.totals.fluid_ml));
        CHECK(end.sweat_ml == Approx(plan.totals.sweat_ml));
        double seconds = 0, need_g = 0;
        for (std::size_t i = 0; i < plan.durations.size(); ++i) {
            CHECK(plan.durations[i].starts_s == Approx(seconds).margin(1e-9));
            seconds += plan.durations[i].time.p50_s;
            need_g += plan.needs[i].carb_g_per_h * plan.durations[i].time.p50_s / 3600;
        }
        CHECK(end.at_s == Approx(seconds));
        CHECK(end.carb_need_g == Approx(need_g));
        CHECK(std::is_sorted(plan.day_sums.begin(), plan.day_sums.end(), [](const auto& a, const auto& b) {
            return a.at_s < b.at_s || a.carb_g < b.carb_g || a.fluid_ml < b.fluid_ml;
        }));
    }
}

TEST_CASE("The sheet says everything that the plan does", "[sheet]") {
    for (const char* name :
         {"first-sprint", "hot-standard", "hilly-middle", "brick-rehearsal", "long-special-needs"}) {
        const Plan plan = sample(name);
        const SheetContent content = sheet_content(plan);
        const Fonts fonts;
        for (const std::string& text : {flat(words(sheet_pages(content, {}, fonts))),
                                        flat(sheet_text(content)), flat(sheet_html(content))}) {
            CHECK_THAT(text, Contains(plan.event_name) && Contains(plan.version));
            for (const auto* cautions : {&plan.cautions, &plan.assumptions})
                for (const std::string& caution : *cautions)
                    CHECK_THAT(text, Contains(caution));
            for (const Line& line : plan.lines)
                CHECK_THAT(text, Contains(say::what(line)));
            for (const Mix& mix : plan.mix)
                CHECK_THAT(text, Contains(mix.text));
            for (const CarryItem& item : plan.carry)
                CHECK_THAT(text, Contains(item.text));
            for (const auto* moments : {&plan.before, &plan.after})
                for (const Moment& moment : *moments)
                    CHECK_THAT(text, Contains(moment.text) && Contains(moment.clock));
            for (const Warning& warning : plan.warnings)
                CHECK_THAT(text, Contains(warning.text));
        }
    }
}

TEST_CASE("Every reason of every number stands in the back", "[sheet]") {
    // What was given, sums of what stands on the sheet, families, and tables for the screen.
    const auto left_out = [](const TraceKey& key) {
        for (const auto part : {PlanPart::inputs, PlanPart::weather, PlanPart::shopping, PlanPart::day_sums,
                                PlanPart::needs, PlanPart::durations})
            if (key == TraceKey{part})
                return true;
        return key.field == PlanField::heat;
    };
    const Plan plan = sample("hilly-middle");
    const SheetContent content = sheet_content(plan);
    const Fonts fonts;
    const std::string text = flat(words(sheet_pages(content, {}, fonts)));
    for (const Trace& trace : plan.traces)
        if (!left_out(trace.key))
            for (const Reason& reason : trace.because)
                CHECK_THAT(text, Contains(flat(reason.text + " [" + reason.source + "]")));
}

TEST_CASE("As many pages as the race is worth, no text over another and none off the paper", "[sheet]") {
    const Fonts fonts;
    constexpr double descender_caps = 0.308; // of Liberation, measured
    for (const char* paper : {"a4", "letter"})
        for (const char* name : {"first-sprint", "hot-standard", "hilly-middle", "long-special-needs"}) {
            SheetOptions options;
            options.paper = paper_of(paper);
            const auto pages = sheet_pages(sheet_content(sample(name)), options, fonts);
            const std::string race = name; // contract
            CHECK(pages.size() == (race == "first-sprint" || race == "hot-standard" ? 2u : 4u));
            for (const pdf::Page& page : pages) {
                struct Ink {
                    double left, top, right, bottom;
                };
                std::vector<Ink> inks;
                for (const pdf::Text& text : page.texts) {
                    inks.push_back({text.x_mm, text.baseline_mm - text.cap_mm,
                                    text.x_mm + fonts.width_mm(text.face, text.cap_mm, text.utf8),
                                    text.baseline_mm + descender_caps * text.cap_mm});
                    INFO(text.utf8);
                    CHECK(inks.back().left >= 10);
                    CHECK(inks.back().right <= page.width_mm - 10);
                    CHECK(inks.back().bottom <= page.height_mm - 5);
                    // Read at 350 mm, nothing is smaller than 12 minutes of arc (ISO 15008, from memory):
                    // 2 x 350 x tan(6') = 1.22 mm.
                    CHECK(text.cap_mm >= 1.22);
                }
                for (std::size_t a = 0; a < inks.size(); ++a)
                    for (std::size_t b = a + 1; b < inks.size(); ++b) {
                        INFO(page.texts[a].utf8 << " / " << page.texts[b].utf8);
                        CHECK_FALSE(
                            (inks[a].left < inks[b].right - 0.01 && inks[b].left < inks[a].right - 0.01 &&
                             inks[a].top < inks[b].bottom - 0.01 && inks[b].top < inks[a].bottom - 0.01));
                    }
            }
        }
}

TEST_CASE("No percentages of body mass for somebody who must not see them", "[sheet]") {
    auto input = io::read_event(std::string(places::samples()) + "/hilly-middle.json");
    input.event.days = 200;
    input.athlete.health.past_eating_disorder = true;
    const Plan plan = compose_plan(input.athlete, input.event, io::load_pantry(places::foods()));
    const SheetContent content = sheet_content(plan);
    for (const std::string& text : {sheet_text(content), sheet_html(content)})
        CHECK_THAT(text,
                   !Contains("body mass, %") && !Contains("of mass") && !Contains("eating disorder on"));
}

TEST_CASE("A cancelled swim has its own lines, or says that nothing changes", "[sheet]") {
    const Plan plan = sample("hot-standard");
    Plan same = plan;
    CHECK_THAT(sheet_text(sheet_content(plan, &same)), Contains("Every line stands as it is"));
    same.lines.erase(std::remove_if(same.lines.begin(), same.lines.end(),
                                    [](const Line& line) { return line.leg == LegKind::run; }),
                     same.lines.end());
    CHECK_THAT(sheet_text(sheet_content(plan, &same)), Contains("These lines instead"));
    CHECK_THAT(sheet_text(sheet_content(plan)), !Contains("If the swim is cancelled"));
}

TEST_CASE("Text of the input cannot become markup", "[sheet]") {
    Plan plan = sample("first-sprint");
    plan.event_name = "<script>alert(1)</script> & \"Co\"";
    const std::string html = sheet_html(sheet_content(plan));
    CHECK_THAT(html, !Contains("<script>") && Contains("&lt;script&gt;") && Contains("&amp; &quot;Co&quot;"));
    plan.athlete_name = "a\x1B[31m";
    CHECK_THROWS_WITH(sheet_content(plan), Contains("athlete name"));
}

TEST_CASE("The same sheet gives the same bytes", "[sheet]") {
    const SheetContent content = sheet_content(sample("first-sprint"));
    CHECK(sheet_pdf(content) == sheet_pdf(content));
}
