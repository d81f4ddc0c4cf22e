// The one door for programs: documents, options and edits in; a plan out. What outranks what is decided here
// and nowhere else: what is typed outranks the diary, the diary outranks the files, and what stands in the
// place of what a file says is told.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/diary.hpp"
#include "tuck/document.hpp"
#include "tuck/error.hpp"
#include "tuck/event.hpp"
#include "tuck/food.hpp"
#include "tuck/named_files.hpp"
#include "tuck/plan.hpp"
#include "tuck/rehearsal.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace tuck {

/// Changes to what was asked, to see another plan; no document keeps them. Each as it is typed, empty: none.
struct Edits {
    std::vector<std::string> without, only; // ids or groups of foods
    std::string bike_rhythm;                // "10min", "15min" or "20min"
    std::string swim;                       // "cancelled"
    std::string delay;                      // of the start, up to 6 h: "45min"
    std::vector<std::string> pins;          // "0:40=gel_25" on the bike, "6km=gel_25" on the run
};

/// How many lines a card holds on one side; 0: no limit. The card itself tells.
struct CardLimits {
    int bike_lines = 0, run_lines = 0;
};

/// What a program asks.
struct Ask {
    std::optional<Document> event;           // "tuck.event/1"; empty: options alone
    std::shared_ptr<const NamedFiles> files; // files that documents name; empty: they lie on the disk
    Typed options;      // those of `tuck plan` that describe athlete and event: {"--mass", {"68kg"}}
    std::string pantry; // folder of foods; empty: the installed one
    std::shared_ptr<const Pantry> known_pantry; // what that folder holds, where it has been read already
    std::vector<Document> own_foods;
    std::optional<Document> diary;   // "tuck.diary/1", JSON Lines
    std::optional<Document> profile; // "tuck.athlete/1": who it is where neither event nor options say so
    Edits edits;
    CardLimits card;
};

/// What is known: read and checked, or filled in by the program.
struct Asked {
    Athlete athlete; // with what the diary has taught
    Event event;
    Pantry pantry;
    Learned learned;                  // from the diary
    std::vector<std::string> notes;   // on documents that are not whole, for the user
    std::vector<std::string> instead; // what was typed in the place of what a file says
};

/// Reads and checks everything. Throws Error with every fault.
Asked read_ask(const Ask& ask);

/// What may come with a plan.
struct Want {
    bool no_swim = false; // the same day with its swim cancelled
    bool lp = false;      // the scheduling problem in the CPLEX LP format, for other solvers
    bool help = true;     // what is missing and what would help; without it, an answer at once
};

struct Answer {
    Plan plan;
    std::optional<Plan> no_swim; // empty where the day has no swim in front, or nothing after it
    std::string lp;              // empty where nothing is scheduled
};

/// Pure: the same input gives the same answer to the last byte. One solve serves plan and LP.
/// `asked.event` needs at least one leg. Throws OwnFault where the plan breaks a rule of its own.
Answer answer(const Asked& asked, const Want& want = {});

/// For a simpler plan: no more lines on a leg than its side of the card holds.
void limit_lines(const CardLimits& card, Event& event);

/// The day when its swim is cancelled: without the swim and the transition after it. Empty where it has none
/// in front, or nothing after it.
std::optional<Event> without_swim(Event event);

/// A session that rehearses the race. Beside an event document the temperature, humidity, date and start
/// among the options are those of the session.
struct RehearsalWords {
    std::optional<std::string> ride, run; // lengths as typed, "150min"; 0min for none
};
struct RehearsalSession {
    Rehearsal rehearsal;
    std::optional<Plan> plan; // empty where the rehearsal is refused
    std::optional<Plan> race; // that it rehearses; empty likewise
};
struct RehearsalAnswer {
    Asked race;
    RehearsalAsk session;
    std::optional<std::string> days; // of the week, as typed: "sat,wed"
    RehearsalSession session_answer;
};
/// The session for what is known: the plan of the race at its rate, laid on its length. Pure.
RehearsalSession rehearse_race(const Asked& asked, const RehearsalAsk& session);

/// Rehearsals until the race. Each as typed.
struct SeriesWords {
    std::optional<std::string> weeks, race_date; // "6", "2027-06-13"
};
struct SeriesAnswer {
    std::string race_date;
    RehearsalSeries series;
    std::vector<RehearsalSession> sessions; // one for each day, if every one before it goes well
};
SeriesAnswer rehearse_until_the_race(const RehearsalAnswer& answer, const SeriesWords& words);
RehearsalAnswer rehearse(const Ask& ask, const RehearsalWords& words);

} // namespace tuck
