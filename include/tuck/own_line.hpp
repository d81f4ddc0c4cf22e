// What an athlete or coach typed as their own plan, as plain data.
#pragma once

#include "tuck/quantity.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck {

enum class LegKind;

/// One thing of an own line: 3 "swallow" of "B1", half of a "bar". `of` is a food's id or short name, a
/// bottle, or "iso" for the usual drink.
struct OwnPart {
    double amount = 1;
    std::string unit; // "swallow", "cup", or empty: something to eat
    std::string of;
};

/// "bike every 15min from 0:30: 3 swallows iso": taken as it stands.
struct OwnLine {
    enum class When { moments, every, stations };
    LegKind leg{};
    int which = 1; // of several legs of its kind, from 1
    When when = When::moments;
    bool stop = false;               // taken standing, in a safe place or at a station
    std::vector<double> at_s, at_km; // When::moments: one of the two; neither in a transition
    Seconds every_s = 0;             // When::every
    int step = 1;                    // When::stations
    std::optional<double> from_s, to_s, from_km, to_km;
    std::vector<double> left_out_s; // beats that are skipped
    std::vector<double> moved_s;    // moments that stand for the beat next to them
    std::vector<OwnPart> parts;
    std::string said;
};

/// So many grams of a food, by its id or short name.
struct OwnGrams {
    Grams grams = 0;
    std::string of;
};

/// "B1: water", or a recipe, "B1: 45 g iso drink + 0.5 g salt": what an own bottle holds; absent: the usual
/// drink, as on the packet.
struct OwnBottle {
    std::string name; // "B1", "flask", "T1 bottle"
    std::string of;   // empty: a recipe
    std::vector<OwnGrams> grams;
    std::optional<Millilitres> fill_ml; // of the recipe; absent: to the top
    std::string said;
};

} // namespace tuck
