#include "ask/edits.hpp"

#include "base/words.hpp"
#include "io/units.hpp"

#include <algorithm>
#include <map>
#include <stdexcept>

namespace tuck::ask {

namespace {

std::string hint(const std::string& word, const Pantry& pantry) {
    std::vector<std::string> known;
    for (const auto& [id, food] : pantry.foods) {
        known.push_back(id);
        if (std::find(known.begin(), known.end(), food.group) == known.end())
            known.push_back(food.group);
    }
    const auto near = hint_for(word, known);
    return near.empty() ? "; see tuck foods list" : near;
}

void require_known(const char* option, const std::vector<std::string>& words, const Pantry& pantry) {
    for (const auto& word : words) {
        const bool there = std::any_of(pantry.foods.begin(), pantry.foods.end(), [&word](const auto& entry) {
            return entry.first == word || entry.second.group == word;
        });
        if (!there)
            throw Error(option, "",
                        "\"" + word + "\" is no food and no group of the pantry" + hint(word, pantry));
    }
}

bool rides(const Event& event) {
    return std::any_of(event.legs.begin(), event.legs.end(),
                       [](const Leg& leg) { return leg.kind == LegKind::bike; });
}

/// "0:40=gel_25" or "6km=gel_25".
Pin pin_of(const std::string& text, const Asked& asked) {
    const auto wrong = [&text](const std::string& what) {
        return Error("--pin", "", "\"" + text + "\": " + what);
    };
    const auto sign = text.find('=');
    if (sign == std::string::npos)
        throw wrong("allowed: TIME=FOOD (0:40=gel_25) or KILOMETRE=FOOD (6km=gel_25)");
    const std::string when = text.substr(0, sign);
    Pin pin{LegKind::run, {}, {}, text.substr(sign + 1), text};
    try {
        if (when.find(':') == std::string::npos) {
            pin.km = io::distance_m(when) / 1000;
        } else {
            pin.leg = rides(asked.event) ? LegKind::bike : LegKind::run;
            pin.at_s = 60.0 * io::clock_min(when);
        }
    } catch (const std::invalid_argument& fault) {
        throw wrong(fault.what());
    }
    const Food* food = asked.pantry.find(pin.food);
    if (!food)
        throw wrong("\"" + pin.food + "\" is no food of the pantry" + hint(pin.food, asked.pantry));
    if (food->form != Form::gel && food->form != Form::bar && food->form != Form::chew &&
        food->form != Form::solid)
        throw wrong("allowed: something to eat; drink and salt have lines of their own");
    return pin;
}

double delay_min_of(const std::string& text) {
    constexpr double longest_min = 360;
    double minutes = 0;
    try {
        minutes = io::duration_s(text) / 60;
    } catch (const std::invalid_argument& fault) {
        throw Error("--delay", "", fault.what());
    }
    if (minutes > longest_min)
        throw Error("--delay", "", "\"" + text + "\": allowed: up to 6h");
    return minutes;
}

} // namespace

void apply(const Edits& edits, Asked& asked) {
    require_known("--without", edits.without, asked.pantry);
    require_known("--only", edits.only, asked.pantry);
    auto& avoid = asked.athlete.avoid;
    avoid.insert(avoid.end(), edits.without.begin(), edits.without.end());
    asked.athlete.only = edits.only;
    if (!edits.bike_rhythm.empty()) {
        const std::map<std::string, int> rhythms{{"10min", 600}, {"15min", 900}, {"20min", 1200}};
        const auto rhythm = rhythms.find(edits.bike_rhythm);
        if (rhythm == rhythms.end())
            throw Error("--bike-rhythm", "", "\"" + edits.bike_rhythm + "\": allowed: 10min, 15min, 20min");
        asked.event.bike_rhythm_s = rhythm->second;
    }
    if (!edits.delay.empty())
        asked.event.delay_min = delay_min_of(edits.delay);
    for (const auto& pin : edits.pins)
        asked.event.pins.push_back(pin_of(pin, asked));
    if (edits.swim.empty())
        return;
    if (edits.swim != "cancelled")
        throw Error("--swim", "", "\"" + edits.swim + "\": allowed: cancelled");
    const auto dry = without_swim(asked.event);
    if (!dry)
        throw Error("--swim", "", "this day does not begin with a swim and go on after it");
    asked.event = *dry;
}

} // namespace tuck::ask
