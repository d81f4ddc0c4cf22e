// A rehearsal as text for people, at most 80 columns.
#pragma once

#include "tuck/plan.hpp"
#include "tuck/rehearsal.hpp"

#include <string>

namespace tuck::faces {

/// "REHEARSAL   66 g/h on the bike, a step towards 90 g/h": what the session gives, not what it was asked.
std::string rehearsal_title(const Rehearsal& rehearsal);
/// What is rehearsed, why at this rate, and what to do; the plan comes after it.
std::string rehearsal_text(const Rehearsal& rehearsal);
std::string series_text(const RehearsalSeries& series);
/// The session for a calendar's entry: what to take, mix and pack, line by line.
std::string session_note(const Rehearsal& rehearsal, const Plan& plan);
/// The command that puts the session into a diary, complete but for the symptoms.
std::string log_command(const Rehearsal& rehearsal, const Plan& plan);
/// The same for a terminal of 80 columns, with what a shell needs at the end of a row.
std::string log_command_rows(const Rehearsal& rehearsal, const Plan& plan);

} // namespace tuck::faces
