#include "text/diary_text.hpp"

#include "say/plan_words.hpp"
#include "text/page.hpp"
#include "text/plan_text.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

namespace tuck::faces {

namespace {

/// No mass and no percentage: a list is read by others too.
std::string summary(const SweatTest& test) {
    return fmt::format("sweat test, {}, {:.0f} min at {:g} C, drank {:.0f} ml{}", to_string(test.sport),
                       test.minutes, test.temperature_c, test.drank_ml, test.sodium ? ", with sodium" : "");
}

std::string summary(const RehearsalRecord& r) {
    return fmt::format("rehearsal, bike {:.0f} min {:.0f} g/h {:.0f} ml/h, run {:.0f} min, worst symptom {}",
                       r.bike.minutes, r.bike.carb_g_per_h(), r.bike.fluid_ml_per_h(), r.run.minutes,
                       r.worst());
}

std::string summary(const RaceRecord& race) {
    double total_s = 0;
    for (const auto& leg : race.legs)
        total_s += leg.time_s;
    return fmt::format("race{}{}, {}", race.event_name.empty() ? "" : ", ", race.event_name,
                       time_text(total_s));
}

std::string range_text(const NextTest& next) {
    if (next.log_sd_now <= 0)
        return next.text;
    const auto more = [](double ml_per_h) { return 10 * std::round(ml_per_h / 10); };
    const double bike = more(next.more_bike_ml_per_h), run = more(next.more_run_ml_per_h);
    if (bike > 0 || run > 0)
        return fmt::format(
            "{} Over four hours it would let you drink about {}{}{}, if it finds what is expected.",
            next.text, bike > 0 ? fmt::format("{:.0f} ml/h more on the bike", bike) : "",
            bike > 0 && run > 0 ? " and " : "",
            run > 0 ? fmt::format("{:.0f} ml/h more on the run", run) : "");
    return fmt::format("{} It would narrow what is open from about {:.0f} % to {:.0f} %.", next.text,
                       100 * next.log_sd_now, 100 * next.log_sd_then);
}

void write_leg(const RacedLeg& leg, TextPage& page) {
    const auto planned = leg.planned_s > 0 ? time_text(leg.planned_s) : std::string("-");
    const auto late = leg.planned_s > 0 && leg.time_s > 0
                          ? fmt::format("  {:+.0f} %", 100 * (leg.time_s / leg.planned_s - 1))
                          : std::string();
    page.line(fmt::format("  {:<8}{:>10}{:>12}{}", to_string(leg.sport), planned,
                          leg.time_s > 0 ? time_text(leg.time_s) : "-", late));
}

} // namespace

std::vector<DiaryLine> diary_lines(const std::vector<DiaryEntry>& entries) {
    std::set<int> replaced;
    for (const auto& entry : entries)
        if (entry.corrects)
            replaced.insert(*entry.corrects);
    std::vector<DiaryLine> out;
    for (const auto& entry : entries) {
        auto text = entry.withdrawn ? fmt::format("withdraws line {}", *entry.corrects)
                                    : std::visit([](const auto& what) { return summary(what); }, entry.what);
        if (entry.corrects && !entry.withdrawn)
            text += fmt::format(" (corrects line {})", *entry.corrects);
        if (replaced.count(entry.id))
            text += " (no longer counts)";
        out.push_back({entry.id, entry.date, text, entry.note});
    }
    return out;
}

std::string diary_list_text(const std::vector<DiaryEntry>& entries) {
    TextPage page;
    for (const auto& line : diary_lines(entries))
        page.item(fmt::format("{:>4}  {}  ", line.id, line.date),
                  line.text + (line.note.empty() ? "" : ": " + line.note));
    return page.text();
}

std::string diary_known_text(const Learned& learned) {
    TextPage page;
    page.list("WHAT IS KNOWN", learned.sentences);
    std::vector<std::string> next;
    for (const auto& test : learned.next)
        next.push_back(range_text(test));
    page.list("WHAT WOULD TEACH MOST NEXT", next);
    if (!learned.warnings.empty())
        page.head("TAKE CARE");
    for (const auto& warning : learned.warnings)
        page.item(warning.severity == Severity::danger ? "  !! " : "  !  ", warning.text);
    page.item("\nGut: ",
              "up 5 to 10 g/h only after two good sessions at race effort with the run (worst "
              "symptom at most 3, 90 % taken); hold at 4 or 5; down at 6 or more; no new step in the "
              "last 10 days before a race (common practice, no source). Vomiting or blood: stop, see "
              "a doctor.");
    return page.text();
}

namespace {

/// "bike food  ################....  190 of 230 g": what was taken of what was planned; more than planned is
/// marked.
void write_bar(const std::string& what, double taken, double planned, const char* unit, TextPage& page) {
    if (planned <= 0)
        return;
    constexpr double widest = 30;
    const double share = taken / planned;
    const auto full = static_cast<std::size_t>(std::lround(widest * std::min(1.0, share)));
    const std::string bar =
        std::string(full, '#') + std::string(static_cast<std::size_t>(widest) - full, '.');
    page.line(fmt::format("  {:<11} {}{} {:.0f} of {:.0f} {}", what, bar, share > 1.005 ? "+" : " ", taken,
                          planned, unit));
}

} // namespace

std::string race_text(const RaceRecord& race, const std::vector<std::string>& changes, const Learned& after) {
    TextPage page;
    page.head("THE RACE");
    for (const auto& sentence : race_in_short(race))
        page.item("  ", sentence);
    page.head("TAKEN OF WHAT WAS PLANNED");
    write_bar("bike, food", race.bike.carb_g, race.bike.planned_carb_g, "g", page);
    write_bar("bike, drink", race.bike.fluid_ml, race.bike.planned_fluid_ml, "ml", page);
    write_bar("run, food", race.run.carb_g, race.run.planned_carb_g, "g", page);
    write_bar("run, drink", race.run.fluid_ml, race.run.planned_fluid_ml, "ml", page);
    page.head(fmt::format("  {:<8}{:>10}{:>12}", "", "planned", "happened"));
    for (const auto& leg : race.legs)
        write_leg(leg, page);
    if (race.planned_temperature_c)
        page.line(fmt::format("  {:<8}{:>8.0f} C{:>10.0f} C", "air", *race.planned_temperature_c,
                              race.temperature_c));
    page.list("WHAT CHANGES", changes);
    page.list("WHAT IS BELIEVED NOW", after.sentences);
    return page.text();
}

} // namespace tuck::faces
