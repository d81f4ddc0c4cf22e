#include "card/card_content.hpp"

#include "paper/fonts.hpp"
#include "paper/text_fit.hpp"
#include "say/line_words.hpp"
#include "say/units.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

namespace tuck::faces {
namespace {

const char* heading_word(LegKind leg) {
    switch (leg) {
    case LegKind::swim:
        return "SWIM";
    case LegKind::t1:
        return "T1";
    case LegKind::bike:
        return "BIKE";
    case LegKind::t2:
        return "T2";
    case LegKind::run:
        return "RUN";
    }
    return "";
}

/// "RUN", or "RUN 2" where the day has two runs.
std::string heading(const Plan& plan, const Line& line) {
    int same = 0, before = 0;
    for (const LegEffort& duration : plan.durations) {
        same += duration.kind == line.leg;
        before += duration.kind == line.leg && duration.leg_index < line.leg_index;
    }
    const std::string word = heading_word(line.leg);
    return same > 1 ? fmt::format("{} {}", word, before + 1) : word;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// The road as a second clock for a rider whose own has stopped: "No clock: about every 7 km", or the
/// kilometres. Nothing where the road is not known.
std::optional<CardNote> by_kilometres(const Plan& plan, int leg_index) {
    constexpr std::size_t shown_at_most = 7;
    std::vector<double> marks;
    for (const PlanFeed& feed : plan.feeds)
        if (feed.leg_index == leg_index && feed.km > 0.5 && (marks.empty() || feed.km - marks.back() > 0.5))
            marks.push_back(feed.km);
    if (marks.empty())
        return std::nullopt;
    const double step = marks.back() / static_cast<double>(marks.size());
    bool even = marks.size() > 2;
    for (std::size_t i = 0; i < marks.size(); ++i)
        even = even && std::abs(marks[i] - step * static_cast<double>(i + 1)) < step / 3;
    const auto said = [&plan](const std::string& about, const std::string& road) {
        return CardNote{say::in_units("No clock: " + about + road, plan.units),
                        say::in_units("Else " + road, plan.units)};
    };
    if (even)
        return said("about ", fmt::format("every {:.0f} km.", step));
    if (marks.size() > shown_at_most)
        return said("", fmt::format("km {:.0f}, then about every {:.0f} km.", marks.front(),
                                    (marks.back() - marks.front()) / static_cast<double>(marks.size() - 1)));
    std::string road = "km";
    for (const double km : marks)
        road += fmt::format(" {:.0f}", km);
    return said("", road + ".");
}

void add_rows(const Plan& plan, RowForm form, CardSection& section) {
    LegRows rows = leg_rows(plan, section.leg_index, form);
    section.rows = std::move(rows.rows);
    section.key = std::move(rows.key);
}

/// A rhythm's moments that fall elsewhere; a row of moments says them by itself.
void add_exceptions(const Line& line, Units units, CardSection& section) {
    const bool by_rhythm = line.rhythm.kind == Rhythm::Kind::every ||
                           (line.rhythm.kind == Rhythm::Kind::stations && line.rhythm.step > 1);
    if (by_rhythm && !line.beside.empty())
        section.notes_after.push_back({say::what(line) + ": " + say::in_units(say::beside(line), units)});
}

/// Before the last bike leg has ended; a strip for the run leaves it out.
bool before_run(const Plan& plan, int leg_index) {
    return std::any_of(plan.durations.begin(), plan.durations.end(), [&](const LegEffort& duration) {
        return duration.kind == LegKind::bike && duration.leg_index >= leg_index;
    });
}

std::vector<CardSection> sections(const Plan& plan, bool run_only, RowForm form) {
    std::vector<CardSection> all;
    int leg_index = -1;
    for (const Line& line : plan.lines) {
        if (run_only && before_run(plan, line.leg_index))
            continue;
        if (all.empty() || line.leg_index != leg_index) {
            all.push_back({heading(plan, line), line.leg, line.leg_index, {}, {}, {}, {}});
            leg_index = line.leg_index;
            add_rows(plan, form, all.back());
        }
        add_exceptions(line, plan.units, all.back());
        all.back().lines.push_back({say::in_units(say::when(line), plan.units), say::what(line)});
        const bool timed = !line.by_km && line.rhythm.kind != Rhythm::Kind::stations;
        auto& notes = all.back().notes_before;
        if (timed && notes.empty())
            if (auto note = by_kilometres(plan, leg_index))
                notes.push_back(std::move(*note));
    }
    return all;
}

/// The clock and the bottles belong to the bike where there is one.
void add_notes(const Plan& plan, bool run_only, CardContent& card) {
    for (const BagStop& stop : plan.special_needs)
        for (CardSection& section : card.sections)
            if (section.leg_index == stop.leg_index)
                section.notes_after.push_back({stop.text});
    if (run_only && before_run(plan, 0))
        return;
    auto home = std::find_if(card.sections.begin(), card.sections.end(),
                             [](const CardSection& section) { return section.leg == LegKind::bike; });
    if (home == card.sections.end())
        home = card.sections.begin();
    const bool has_rows = home != card.sections.end();
    if (!plan.clock_note.empty() && has_rows)
        home->notes_before.insert(home->notes_before.begin(), CardNote{plan.clock_note});
    if (!plan.refill_note.empty() && has_rows)
        home->notes_after.push_back({plan.refill_note});
    else if (!plan.refill_note.empty())
        card.loose_notes.push_back(plan.refill_note);
}

void add_headline(const Plan& plan, bool run_only, CardContent& card) {
    if (!plan.fuelling_needed) {
        card.headline = "NO FOOD NEEDED";
        card.headline_detail = plan.race ? "on the course" : "in this session";
        card.still_matters = plan.still_matters;
    } else if (plan.lines.empty()) {
        card.headline = "NO AMOUNTS HERE";
        card.headline_detail = "Read the whole plan first.";
    } else if (run_only && card.sections.empty()) {
        card.headline = "NOTHING PLANNED";
        card.headline_detail = "on the run";
    }
}

/// "STOP" set apart from the signs, whether or not the line begins with the word.
CardHelp stop(const std::string& line) {
    std::string signs = line;
    if (line.starts_with("STOP") || line.starts_with("Stop")) {
        const std::size_t rest = line.find_first_not_of(" :.,", 4);
        if (rest != std::string::npos && rest > 4)
            signs = line.substr(rest);
    }
    if (!contains(signs, "marshal or medic"))
        signs += " Find a marshal or medic.";
    return {"STOP", signs};
}

std::string with_colon(const std::string& when) {
    const bool closed = when.empty() || when.find_last_of(":?.,") == when.size() - 1;
    return closed ? when : when + ":";
}

} // namespace

CardContent card_content(const Plan& given, bool run_only, RowForm form) {
    const Plan plan = say::in_own_units(given);
    if (plan.refused)
        throw std::runtime_error("no card: the plan is refused");
    if (plan.stop_line.empty())
        throw std::runtime_error("no card: the plan carries no STOP line");
    CardContent card;
    card.kind = plan.race ? "Race-day card" : "Training card";
    card.race = plan.event_name;
    card.athlete = plan.athlete_name;
    card.bib = plan.bib;
    card.bib_box = plan.race || !plan.bib.empty();
    card.date = plan.date;
    card.wave = plan.wave.empty() ? "" : "wave " + plan.wave;
    card.version = plan.version.empty() ? "" : "plan " + plan.version;
    card.sections = sections(plan, run_only, form);
    add_notes(plan, run_only, card);
    add_headline(plan, run_only, card);
    for (const IfThen& help : plan.if_then)
        if (!(run_only && help.of_the_bike))
            card.if_then.push_back({with_colon(help.when), help.text, help.brief, help.of_the_bike});
    card.stop = stop(plan.stop_line);
    card.stop_briefly = "Ill or confused: find a marshal or medic.";
    card.cautions = plan.cautions;
    for (const Mix& mix : plan.mix)
        card.bottles.push_back(mix.bottle);
    for_each_text(card, [](const std::string& text, const char* what) { require_printable(text, what); });
    return card;
}

namespace {

/// The notes of a leg together, as far as they leave room on a side for other help.
std::vector<CardHelp> asides_of(const CardSection& section) {
    constexpr std::size_t most_letters = 150;
    std::vector<CardHelp> asides;
    for (const auto* notes : {&section.notes_before, &section.notes_after})
        for (const auto& [text, behind] : *notes) {
            const bool more = !asides.empty() && asides.back().text.size() + text.size() <= most_letters;
            if (!more) // "BIKE:" before what does not say so itself
                asides.push_back({text.starts_with("Bike") ? "" : section.heading + ":", ""});
            asides.back().text +=
                (!more ? text : " " + (behind.empty() ? text : behind)) + (text.ends_with('.') ? "" : ".");
        }
    return asides;
}

} // namespace

CardContent in_brief(CardContent card) {
    for (CardHelp& help : card.if_then)
        if (!help.brief.empty())
            help.text = help.brief;
    card.stop.text =
        "Confused, vomiting, staggering, worse headache, swollen hands: find a marshal or medic. "
        "Do not force drink.";
    return card;
}

CardContent for_low_card(CardContent card) {
    card = in_brief(std::move(card));
    card.stop_briefly = "Ill: marshal or medic.";
    for (CardSection& section : card.sections) {
        section.asides = asides_of(section);
        section.notes_before.clear();
        section.notes_after.clear();
    }
    // What is for the run too stands last: it may come to stand on the run's side.
    std::stable_partition(card.if_then.begin(), card.if_then.end(),
                          [](const CardHelp& help) { return help.of_the_bike; });
    std::string day = card.date;
    if (!card.wave.empty())
        day += (day.empty() ? "" : ", ") + card.wave;
    if (!card.race.empty() || !day.empty())
        card.if_then.push_back(
            {with_colon(card.race.empty() ? card.kind : card.race), day.empty() ? "" : day + "."});
    return card;
}

void for_each_text(const CardContent& card,
                   const std::function<void(const std::string&, const char*)>& visit) {
    visit(card.race, "event name");
    visit(card.athlete, "athlete name");
    visit(card.bib, "bib");
    visit(card.date, "date");
    visit(card.wave, "wave");
    visit(card.version, "plan version");
    for (const CardSection& section : card.sections) {
        for (const CardRow& row : section.rows)
            visit(row.when + row.what + row.window + row.from, "plan line");
        for (const CardRow& line : section.lines)
            visit(line.when + line.what, "plan line");
        for (const auto* notes : {&section.notes_before, &section.notes_after})
            for (const CardNote& note : *notes)
                visit(note.text, "clock or refill note");
    }
    for (const auto* texts : {&card.still_matters, &card.loose_notes, &card.cautions})
        for (const std::string& text : *texts)
            visit(text, "note");
    for (const CardHelp& help : card.if_then)
        visit(help.when + help.text, "if-then line");
    visit(card.stop.text, "STOP line");
}

} // namespace tuck::faces
