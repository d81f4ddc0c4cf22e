// From the options of a command to a composed plan.
#pragma once

#include "card/card.hpp"
#include "io/options.hpp"
#include "tuck/diary.hpp"
#include "tuck/plan.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::cli {

/// Changes to what was asked, to see another plan: none is kept in a file.
struct Edits {
    std::vector<std::string> without, only; // foods or groups
    std::string bike_rhythm;                // "10min", "15min" or "20min"
    std::string swim;                       // "cancelled"
    std::string delay;                      // of the start: "45min"
    std::vector<std::string> pins;          // "0:40=gel_25", "6km=gel_25"
};

struct Request {
    std::string event_file; // empty: options alone
    io::PlanOptions options;
    std::string foods;                  // folder of the pantry; empty: found
    std::vector<std::string> own_foods; // files of own foods
    std::string diary;                  // file; empty: none
    Edits edits;
    std::optional<faces::CardOptions> card; // its plan has no more lines than the card holds
};

/// What a request says, read and checked.
struct Asked {
    Athlete athlete; // with what the diary has taught; what was typed outranks it
    Event event;
    Pantry pantry;
    Learned learned;
};
Asked asked_by(const Request& request);

/// Reads, checks every name against the pantry, and composes. Throws io::InputError.
Plan plan_of(const Request& request);

/// The scheduling problem of that plan in the CPLEX LP format. Throws InputError where nothing is scheduled.
std::string lp_of(const Request& request);

/// The plan and, where the day begins with a swim and goes on after it, the same day without swim and T1.
struct PlanPair {
    Plan plan;
    std::optional<Plan> no_swim;
};
PlanPair plans_of(const Request& request);

/// The day when its swim is cancelled; nothing when it has none, or nothing else.
std::optional<Event> without_swim(Event event);

} // namespace tuck::cli
