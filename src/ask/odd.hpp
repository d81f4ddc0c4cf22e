// Inputs that are allowed and yet most likely slips: told, never refused.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/event.hpp"

#include <string>
#include <vector>

namespace tuck::ask {

/// A mass that looks like pounds, and given times that nobody rides, runs or swims so slowly.
std::vector<std::string> odd_notes(const Athlete& athlete, const Event& event);

/// The event's day lies before `today`, both as in ISO 8601. Empty: it does not.
std::string past_note(const Event& event, const std::string& today);

} // namespace tuck::ask
