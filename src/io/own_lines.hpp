// The athlete's own plan, line by line, from words.
#pragma once

#include "tuck/event.hpp"

#include <cstddef>
#include <string>

namespace tuck::io {

inline constexpr std::size_t most_own_lines = 40;

/// Reads one line into the event:
///
///     bike every 15min: 3 swallows iso          run each station: 1 cup water
///     bike every 20' from 0:40 to 2:00: 1/2 bar run every 2nd station from km 4: gel
///     bike 1:10 1:50: gel_25 + 3 swallows B1    run km 5 10: gel
///     in T2: gel                                B1: water
///     B1: 45 g iso drink + 0.5 g salt           B2 (750 ml bottle): 25 g iso drink, then water to 375 ml
///
/// These are the words in which a plan prints its own lines, with the leg before them ("bike 2" for the
/// second ride of a day); a note in brackets, "(not at 1:00: ...; 0:44 before the descent at km 20)" or
/// "(stop 20 s, ...)", is read as well. Foods go by id or short name; whether the pantry has them is not
/// looked at here. Throws std::invalid_argument: what is wrong, what is allowed.
void add_own_line(const std::string& text, Event& event);

} // namespace tuck::io
