#include "card/card_text.hpp"

#include "card/card_content.hpp"
#include "paper/text_fit.hpp"

namespace tuck::faces {
namespace {

constexpr double width = 60;

/// Adds wrapped lines; those after the first are indented, so that a new item can be heard and seen.
void add(std::string& out, const std::string& text, const std::string& indent = "") {
    bool first = true;
    for (const std::string& line : wrap(text, width - columns(indent), columns)) {
        out += (first ? "" : indent) + line + "\n";
        first = false;
    }
}

void add_section(std::string& out, const CardSection& section) {
    out += "\n" + section.heading + "\n";
    for (const CardNote& note : section.notes_before)
        add(out, note.text);
    for (const CardRow& row : section.lines)
        add(out, "- " + row.when + ": " + row.what, "  ");
    for (const CardNote& note : section.notes_after)
        add(out, note.text);
}

} // namespace

std::string card_text(const Plan& plan) {
    const CardContent card = card_content(plan);
    std::string out;
    add(out, card.race);
    add(out, card.athlete);
    for (const std::string& fact :
         {card.date, card.wave, card.bib.empty() ? "" : "bib " + card.bib, card.version})
        add(out, fact);
    if (!card.headline.empty()) {
        out += "\n";
        add(out, card.headline + " " + card.headline_detail);
        for (const std::string& text : card.still_matters)
            add(out, "- " + text, "  ");
    }
    for (const CardSection& section : card.sections)
        add_section(out, section);
    for (const std::string& note : card.loose_notes)
        add(out, note);
    if (!card.if_then.empty())
        out += "\nIF\n";
    for (const CardHelp& help : card.if_then)
        add(out, "- " + help.when + " " + help.text, "  ");
    out += "\n";
    add(out, card.stop.when + " " + card.stop.text);
    out += "\nOne athlete's plan for one day, not medical advice.\n";
    for (const std::string& caution : card.cautions)
        add(out, "- " + caution, "  ");
    return out;
}

} // namespace tuck::faces
