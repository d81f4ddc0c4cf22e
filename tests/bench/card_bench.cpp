// What a squad costs: drawing against bare libharu, and planning on one and two threads. Run by hand:
//     ninja -C build card_bench && build/tests/card_bench [ATHLETES] [PLANS]
#include "card/card.hpp"
#include "cli/ordered.hpp"
#include "io/pantry.hpp"
#include "tuck/compose.hpp"

#include <hpdf.h>

#include <algorithm>
#include <chrono>
#include <fmt/format.h>
#include <functional>
#include <map>
#include <string>
#include <vector>

using namespace tuck;

namespace {

double seconds(const std::function<void()>& work) {
    const auto begun = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
}

/// Invented athletes: masses, levels and names in a row.
Athlete athlete(int number) {
    constexpr Level levels[] = {Level::beginner, Level::steady, Level::keen, Level::fast};
    Athlete out;
    out.name = fmt::format("Athlete {}", number);
    out.bib = std::to_string(number);
    out.mass_kg = 48 + number % 50;
    out.level = levels[number % 4];
    out.rehearsed.carb_g_per_h = number % 3 * 30;
    return out;
}

/// The same texts with bare libharu: fonts loaded once, one call for each run, nothing checked.
std::size_t draw_bare(const std::vector<faces::pdf::Page>& pages, const faces::Fonts& fonts) {
    const HPDF_Doc doc = HPDF_New(nullptr, nullptr);
    HPDF_UseUTFEncodings(doc);
    HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
    std::map<faces::Face, HPDF_Font> loaded;
    constexpr double points = 72 / 25.4;
    for (const auto& page : pages) {
        const HPDF_Page sheet = HPDF_AddPage(doc);
        HPDF_Page_SetWidth(sheet, static_cast<HPDF_REAL>(page.width_mm * points));
        HPDF_Page_SetHeight(sheet, static_cast<HPDF_REAL>(page.height_mm * points));
        for (const auto& text : page.texts) {
            HPDF_Font& font = loaded[text.face];
            if (!font)
                font = HPDF_GetFont(
                    doc, HPDF_LoadTTFontFromFile(doc, faces::font_file(text.face, "").c_str(), HPDF_TRUE),
                    "UTF-8");
            HPDF_Page_BeginText(sheet);
            HPDF_Page_SetFontAndSize(
                sheet, font, static_cast<HPDF_REAL>(text.cap_mm / fonts.cap_per_em(text.face) * points));
            HPDF_Page_TextOut(sheet, static_cast<HPDF_REAL>(text.x_mm * points),
                              static_cast<HPDF_REAL>((page.height_mm - text.baseline_mm) * points),
                              text.utf8.c_str());
            HPDF_Page_EndText(sheet);
        }
    }
    HPDF_SaveToStream(doc);
    const std::size_t size = HPDF_GetStreamSize(doc);
    HPDF_Free(doc);
    return size;
}

std::size_t draw_ours(const std::vector<faces::pdf::Page>& pages, const faces::Fonts& fonts) {
    faces::pdf::Writer writer("Cards", "bench", fonts);
    for (const auto& page : pages)
        writer.add(page);
    return writer.finish().size();
}

void bench_drawing(int athletes, const Event& event, const Pantry& pantry) {
    std::vector<Plan> plans;
    for (int i = 0; i < athletes; ++i)
        plans.push_back(compose_plan(athlete(i), event, pantry));
    const faces::Fonts fonts;
    std::vector<faces::pdf::Page> pages;
    const double setting_s = seconds([&] {
        for (const Plan& plan : plans)
            for (const auto& layout : faces::card_layouts(plan, {}, fonts))
                pages.push_back(faces::page_of(layout));
    });
    double ours_s = 1e9, bare_s = 1e9;
    std::size_t ours = 0, bare = 0;
    for (int i = 0; i < 5; ++i) {
        bare_s = std::min(bare_s, seconds([&] { bare = draw_bare(pages, fonts); }));
        ours_s = std::min(ours_s, seconds([&] { ours = draw_ours(pages, fonts); }));
    }
    fmt::print("{} cards, {} pages\n", athletes, pages.size());
    fmt::print("  setting type     {:.3f} s\n", setting_s);
    fmt::print("  drawing          {:.3f} s, {} bytes (lines, boxes and checks included)\n", ours_s, ours);
    fmt::print("  bare libharu     {:.3f} s, {} bytes (the same texts alone)\n", bare_s, bare);
    fmt::print("  drawing / bare   {:.2f} (aim: at most 1.5)\n", ours_s / bare_s);
}

double plan_all(int plans, unsigned threads, const Event& event, const Pantry& pantry) {
    int next = 0;
    double carb_g = 0;
    const std::vector<std::function<double(int&)>> workers(
        threads, [&](int& i) { return compose_plan(athlete(i), event, pantry).totals.carb_g; });
    return seconds([&] {
        cli::in_order<int, double>(
            64, workers,
            [&](int& i) {
                i = next++;
                return i < plans;
            },
            [&](double& g) { carb_g += g; });
    });
}

} // namespace

int main(int argc, char** argv) {
    const int athletes = argc > 1 ? std::stoi(argv[1]) : 3000, plans = argc > 2 ? std::stoi(argv[2]) : 400;
    Event event; // invented: a warm standard distance
    event.name = "Bench standard";
    event.legs = preset_legs("standard");
    event.weather.temperature_c = 26;
    const auto pantry = io::load_pantry(io::pantry_folder());
    const int days = event.days;
    event.days = 0;
    bench_drawing(athletes, event, pantry);
    event.days = days;
    const double one_s = plan_all(plans, 1, event, pantry), two_s = plan_all(plans, 2, event, pantry);
    fmt::print("{} plans, standard distance, {} days each\n", plans, event.days);
    fmt::print("  one thread       {:.0f} a second\n", plans / one_s);
    fmt::print("  two threads      {:.0f} a second (aim: at least 100)\n", plans / two_s);
    fmt::print("  speed-up         {:.2f} (aim: at least 1.8)\n", one_s / two_s);
    return 0;
}
