// The words that lines and the three sentences are put together from: a table for each language. How they are
// put together stands in line_words.cpp and in_short.cpp, once.
#pragma once

#include "tuck/event.hpp"

#include <string>
#include <string_view>

namespace tuck::say {

enum class Language { english, german };

/// Places in braces are filled with fmt. A language that counts otherwise has its own functions.
struct Words {
    const char *every, *every_plain;            // {minutes}
    const char *each_station, *nth_station;     // {which}
    const char *at_moments, *at_station;        // {where}
    const char* mile;                           // of a place on the road, before its number
    const char *from, *to;                      // {moment}
    const char *in_t1, *in_t2;                  // of a line
    const char* then;                           // from one bottle to the next
    const char* drink_of;                       // {how much} {what}
    const char *stop, *replaced, *left_out;     // {clock}
    const char *before_stretch, *after_stretch; // {clock} {stretch} {km}
    const char* last_and;
    const char *bottle_of, *bottles_of; // {what}, {number} {what}
    const char *nothing_to_carry, *carry;
    const char *on_bike, *on_run, *on_swim, *at_t1, *at_t2; // {lines}
    const char *run_thirst, *run_nothing, *run_no_station;
    const char *iso, *ill, *missed;
    const char *no_food, *carry_water, *thirst_only, *no_amounts, *thirst;

    std::string (*ordinal)(int number);
    /// In a line "1/2 bar", "3 swallows", "gel"; in a sentence "half a bar", "a gel"; in a log "half a bar",
    /// "1 gel".
    std::string (*amount)(double amount, const std::string& of);
    std::string (*spoken)(double amount, const std::string& of);
    std::string (*logged)(double amount, const std::string& of);
    /// The name of a food as the pantry labels it; an own label stays as it is.
    std::string (*noun)(const std::string& label);
    std::string (*stretch)(const std::string& name);
    std::string (*leg_name)(LegKind leg);
};

const Words& words(Language language);

} // namespace tuck::say
