// The results of one run of the stream, for the parts of the composer.
#pragma once

#include "tuck/plan.hpp"

#include <functional>

namespace tuck::plan {

struct Stages {
    const Athlete& athlete;
    const Event& event;
    Effort effort;
    Body body;
    Need need;
    Schedule schedule;
    PlanOutlook outlook;
    const Pantry* pantry = nullptr; // of the schedule; nullptr: no foods are named
};

/// The pure stream of all stages under given limits.
using Stream = std::function<Stages(const Limits&)>;
/// The plan of a stream: run again under stricter limits where the plan itself would harm, refused where it
/// still does.
Plan settle(const Stream& stream);

/// Loading, meals, drinks, clock times before the start.
std::vector<Moment> moments_before(const Stages& stages);
std::vector<Moment> moments_after(const Stages& stages);
/// Two plates of about so much carbohydrate that this athlete may eat, as a sentence; empty where there are
/// none.
std::string breakfast_examples(const Stages& stages, double wanted_g);

/// Where loading would be other advice on a fast day than on a slow one.
std::vector<Warning> loading_warnings(const Stages& stages);

/// Where less than half of the aim is planned for more than three hours: what would help.
std::vector<Warning> not_enough_warnings(const Stages& stages);

/// What to do when something goes wrong; the first three stand on the card.
std::vector<IfThen> if_then_lines(const Stages& stages);
/// Signs at which to stop.
const char* stop_line();
/// Always shown.
std::vector<std::string> cautions();

/// Warnings of the simulated days, each with the remedy that hangs on its cause.
std::vector<Warning> outlook_warnings(const PlanOutlook& outlook, bool percent_hidden);

/// The chain behind every number of the finished plan.
std::vector<Trace> traces_of(const Stages& stages, const Plan& plan);

/// What the plan stands on, for its readers. Nothing of the athlete's health, nor a body mass that is to be
/// hidden.
std::vector<PlanInput> inputs_of(const Athlete& athlete, const Event& event);

/// Four hexadecimal digits over all inputs, the hidden ones too, and what the athlete will do: two plans that
/// differ in any of it have other marks but for one pair in 65,536.
std::string mark_of(const Athlete& athlete, const Event& event, const Plan& plan);

/// Fills `day_sums` from durations, needs and feeds.
void add_day_sums(Plan& plan);

} // namespace tuck::plan
