// The foods that an event and its athlete name, held against the pantry.
#include "io/event_document.hpp"
#include "io/event_file.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace tuck::io {

namespace {

class FoodWords {
public:
    FoodWords(const EventDocument& document, const Pantry& pantry) : document_(document) {
        std::set<std::string> groups;
        for (const auto& [id, food] : pantry.foods) {
            ids_.push_back(id);
            ids_.insert(ids_.end(), food.was.begin(), food.was.end());
            groups.insert(food.group);
        }
        ids_and_groups_ = ids_;
        ids_and_groups_.insert(ids_and_groups_.end(), groups.begin(), groups.end());
    }

    void check_tastes(const Json& athlete) {
        for (const char* key : {"like", "avoid"})
            if (athlete.contains(key))
                check(athlete[key], fmt::format("/athlete/{}", key), ids_and_groups_,
                      "a food or a group of foods");
    }

    void check_stations(const Json& leg, const std::string& at) {
        if (!leg.contains("stations"))
            return;
        for (size_t i = 0; i < leg["stations"].size(); ++i) {
            const auto& station = leg["stations"][i];
            if (station.contains("serves"))
                check(station["serves"], fmt::format("{}/stations/{}/serves", at, i), ids_, "a food");
        }
    }

    std::vector<Fault> faults;

private:
    void check(const Json& words, const std::string& at, const std::vector<std::string>& known,
               const char* what) {
        for (size_t i = 0; i < words.size(); ++i) {
            const auto word = words[i].get<std::string>();
            if (std::find(known.begin(), known.end(), word) != known.end())
                continue;
            const auto near = hint_for(word, known);
            const auto hint = near.empty() ? std::string("; see: tuck foods list") : near;
            const auto fault =
                document_.placed({"", fmt::format("{}/{}", at, i),
                                  fmt::format("\"{}\" is not {} of the pantry{}", word, what, hint)});
            const bool told = std::any_of(faults.begin(), faults.end(), [&](const Fault& other) {
                return line_of(other) == line_of(fault);
            });
            if (!told) // one word of the line may stand at many stations
                faults.push_back(fault);
        }
    }

    const EventDocument& document_;
    std::vector<std::string> ids_, ids_and_groups_;
};

void rename(std::vector<std::string>& words, const Pantry& pantry) {
    for (auto& word : words)
        for (const auto& [id, food] : pantry.foods)
            if (std::find(food.was.begin(), food.was.end(), word) != food.was.end())
                word = id;
}

} // namespace

void check_foods(EventInput& input, const Pantry& pantry) {
    FoodWords words(*input.document, pantry);
    const Json& event = input.document->json;
    if (event.contains("athlete"))
        words.check_tastes(event["athlete"]);
    if (event.contains("legs"))
        for (size_t i = 0; i < event["legs"].size(); ++i)
            words.check_stations(event["legs"][i], fmt::format("/legs/{}", i));
    if (event.contains("course"))
        for (const auto& [key, leg] : event["course"].items())
            words.check_stations(leg, "/course/" + key);
    if (!words.faults.empty())
        throw InputError(words.faults);
    for (auto* list : {&input.athlete.like, &input.athlete.avoid})
        rename(*list, pantry);
    for (auto& leg : input.event.legs)
        for (auto& station : leg.stations)
            rename(station.serves, pantry);
}

} // namespace tuck::io
