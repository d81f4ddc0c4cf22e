// What the card says, in order, before anybody asks where it stands: shared by the paper and the plain text.
#pragma once

#include "card/card_rows.hpp"
#include "tuck/plan.hpp"

#include <functional>
#include <string>
#include <vector>

namespace tuck::faces {

/// One line of help: its occasion and what to do then.
struct CardHelp {
    std::string when, text;
    std::string brief = {}; // for a low card; empty: the text
    bool of_the_bike = false;
};

/// What stands around the rows of a leg.
struct CardNote {
    std::string text;
    std::string behind = {}; // words that suffice behind another note; empty: the text
};

/// The rows of one leg under its heading ("BIKE", "RUN 2"), with notes before and after them. `lines` say the
/// same in whole words.
struct CardSection {
    std::string heading;
    LegKind leg = LegKind::bike;
    int leg_index = 0;
    std::vector<CardNote> notes_before, notes_after;
    std::vector<CardRow> rows, lines;
    std::string key = {};              // what a short word in the rows means, on every side that holds them
    std::vector<CardHelp> asides = {}; // notes of a low card: a line below the rows that may begin a side
};

struct CardContent {
    std::string kind;                                    // "Race-day card" or "Training card"
    std::string race, athlete, bib, date, wave, version; // "wave 3", "plan 3f9a2c"; empty when unknown
    bool bib_box = true;                                 // false: a training session without a number
    std::string headline; // "NO FOOD NEEDED"; empty when there are rows to follow
    std::string headline_detail;
    std::vector<std::string> still_matters;
    std::vector<CardSection> sections;
    std::vector<std::string> loose_notes; // notes that belong to no section
    std::vector<CardHelp> if_then;
    CardHelp stop;            // "STOP" and its signs
    std::string stop_briefly; // for the other sides of a card that has no room for all the signs
    std::vector<std::string> cautions;
    std::vector<std::string> bottles; // names to write on them: "B1"
};

/// Throws std::runtime_error (one line) when the plan is refused, carries no STOP line, or holds text that
/// cannot be printed (bytes that are not UTF-8, control characters; see require_printable).
/// `run_only`: the legs after the last bike leg alone, for a strip that goes on in T2.
CardContent card_content(const Plan& plan, bool run_only = false, RowForm form = RowForm::words);

/// The same with help and STOP in their brief words.
CardContent in_brief(CardContent card);

/// The same, in brief, for a card so low that head and notes would crowd out the rows: the notes of a leg
/// stand below its rows in lines that may begin a side, race and day among the help.
CardContent for_low_card(CardContent card);

/// Visits every text that came with the plan, together with the name of its field for messages.
void for_each_text(const CardContent& card,
                   const std::function<void(const std::string&, const char*)>& visit);

} // namespace tuck::faces
