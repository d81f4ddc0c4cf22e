#include "text/diary_text.hpp"

#include "say/plan_words.hpp"
#include "text/page.hpp"
#include "text/plan_text.hpp"

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

std::string diary_list_text(const std::vector<DiaryEntry>& entries) {
    std::set<int> replaced;
    for (const auto& entry : entries)
        if (entry.corrects)
            replaced.insert(*entry.corrects);
    TextPage page;
    for (const auto& entry : entries) {
        auto text = entry.withdrawn ? fmt::format("withdraws line {}", *entry.corrects)
                                    : std::visit([](const auto& what) { return summary(what); }, entry.what);
        if (entry.corrects && !entry.withdrawn)
            text += fmt::format(" (corrects line {})", *entry.corrects);
        if (replaced.count(entry.id))
            text += " (no longer counts)";
        if (!entry.note.empty())
            text += ": " + entry.note;
        page.item(fmt::format("{:>4}  {}  ", entry.id, entry.date), text);
    }
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

std::string race_text(const RaceRecord& race, const std::vector<std::string>& changes) {
    TextPage page;
    page.head(fmt::format("{:<10}{:>10}{:>12}", "RACE", "planned", "happened"));
    for (const auto& leg : race.legs)
        write_leg(leg, page);
    const auto row = [&page](const char* what, double planned, double happened, const char* unit) {
        page.line(fmt::format("  {:<8}{:>10}{:>12}", what,
                              planned > 0 ? fmt::format("{:.0f} {}", planned, unit) : "-",
                              fmt::format("{:.0f} {}", happened, unit)));
    };
    row("food", race.planned_carb_g, race.bike.carb_g + race.run.carb_g, "g");
    row("drink", race.planned_fluid_ml, race.bike.fluid_ml + race.run.fluid_ml, "ml");
    if (race.planned_temperature_c)
        page.line(fmt::format("  {:<8}{:>8.0f} C{:>10.0f} C", "air", *race.planned_temperature_c,
                              race.temperature_c));
    page.list("WHAT CHANGES", changes);
    return page.text();
}

} // namespace tuck::faces
