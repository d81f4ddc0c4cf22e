#include "text/rehearsal_text.hpp"

#include "text/page.hpp"

#include <fmt/format.h>

namespace tuck::faces {

std::string rehearsal_text(const Rehearsal& rehearsal) {
    TextPage page;
    const auto rate = fmt::format("{:.0f} g/h", rehearsal.session_carb_g_per_h);
    const auto aim = fmt::format(", a step towards {:.0f} g/h", rehearsal.race_carb_g_per_h);
    page.head("REHEARSAL   " + (rehearsal.session_carb_g_per_h <= 0 ? "no food of the race to rehearse"
                                : rehearsal.as_the_race             ? rate + ", as on race day"
                                                                    : rate + aim));
    for (const auto& reason : rehearsal.because)
        page.item("  ", fmt::format("{} [{}]", reason.text, reason.source));
    for (const auto& warning : rehearsal.warnings)
        page.item(warning.severity == Severity::danger ? "  !! " : "     ", warning.text);
    page.list("FIRST", rehearsal.before);
    page.list("ON THE WAY", rehearsal.during);
    page.list("AFTERWARDS", rehearsal.after);
    return page.text();
}

std::string series_text(const RehearsalSeries& series) {
    TextPage page;
    page.head("REHEARSALS UNTIL THE RACE");
    for (const auto& day : series.days)
        page.item(fmt::format("  {}  ", day.date), day.text);
    for (const auto& note : series.notes)
        page.item("  ", note);
    return page.text();
}

} // namespace tuck::faces
