// The rows of the card: when on the left, what and how much on the right, in words.
#pragma once

#include "tuck/plan.hpp"

#include <string>
#include <vector>

namespace tuck::faces {

/// One row: "every 30'", "½ bar". Around it stands what there is: a dial, a window, bottles.
struct CardRow {
    std::string when, what;
    std::string window = {}; // "from 0:30 to 2:00"
    std::string from = {};   // the bottles of its drink: "B1", or "B1, then B2"
    std::vector<int> minutes =
        {};                // where the minute hand stands at its beats, if that is the same every hour
    bool swallows = false; // something of it is counted in swallows
};

/// How an amount of drink is said: "4 swallows", or "4 sw" with its key on the same side; and every so many
/// stations: "every 3rd station", or "every 3rd". In the shortest form the one bottle of all swallows stands
/// in the key. Nothing else is shortened.
enum class RowForm { words, short_words, shortest };

struct LegRows {
    std::vector<CardRow> rows; // rhythms from the first beat on, then by when they begin
    std::string key;           // "sw = swallow"; empty where nothing is shortened
};

/// The rows of one leg: one for each line of the plan. Moments of a line are a list.
LegRows leg_rows(const Plan& plan, int leg_index, RowForm form = RowForm::words);

} // namespace tuck::faces
