// Every sentence of the program with its German, one table for each part of it. A further language is a
// column more.
#pragma once

#include <span>
#include <string_view>

namespace tuck::say {

/// "{}" stands for the same thing in both, in the same order.
struct Pair {
    std::string_view english, german;
};

/// A more special sentence stands before a more general one: the first that fits is taken.
std::span<const Pair> sentences_of_plans();
std::span<const Pair> sentences_of_the_diary();
std::span<const Pair> sentences_of_squads();
std::span<const Pair> sentences_of_faults();
std::span<const Pair> names_of_foods();

} // namespace tuck::say
