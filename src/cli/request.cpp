#include "cli/request.hpp"

#include "cli/plan_options.hpp"
#include "io/fault.hpp"
#include "io/pantry.hpp"
#include "tuck/compose.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <fmt/format.h>

namespace tuck::cli {

namespace {

/// Words that name a food or a group of the pantry.
class FoodNames {
public:
    FoodNames(const Pantry& pantry, std::string file) : file_(std::move(file)) {
        for (const auto& [id, food] : pantry.foods) {
            ids_.push_back(id);
            if (std::find(groups_.begin(), groups_.end(), food.group) == groups_.end())
                groups_.push_back(food.group);
        }
    }
    void need_food_or_group(const char* what, const std::vector<std::string>& words) {
        for (const auto& word : words)
            if (!has(ids_, word) && !has(groups_, word))
                unknown(what, word, "a food or a group of the pantry");
    }
    void need_food(const char* what, const std::vector<std::string>& words) {
        for (const auto& word : words)
            if (!has(ids_, word))
                unknown(what, word, "a food of the pantry");
    }
    void throw_if_any() const {
        if (!faults_.empty())
            throw io::InputError(faults_);
    }

private:
    static bool has(const std::vector<std::string>& list, const std::string& word) {
        return std::find(list.begin(), list.end(), word) != list.end();
    }
    void unknown(const char* what, const std::string& word, const char* allowed) {
        auto known = ids_;
        known.insert(known.end(), groups_.begin(), groups_.end());
        const auto near = io::nearest_word(word, known);
        faults_.push_back({file_, what,
                           fmt::format("\"{}\" is not {}; {}", word, allowed,
                                       near.empty() ? std::string("see tuck foods list")
                                                    : fmt::format("did you mean \"{}\"?", near))});
    }
    std::string file_;
    std::vector<std::string> ids_, groups_;
    std::vector<io::Fault> faults_;
};

void check_names(const io::EventInput& input, const Pantry& pantry, const std::string& file) {
    FoodNames names(pantry, file);
    names.need_food_or_group("like", input.athlete.like);
    names.need_food_or_group("avoid", input.athlete.avoid);
    for (const auto& leg : input.event.legs)
        for (const auto& station : leg.stations)
            names.need_food("serves", station.serves);
    names.throw_if_any();
}

} // namespace

void add_request(CLI::App& command, Request& request) {
    command.add_option("event", request.event_file, "event file (JSON)")->type_name("EVENT.json");
    command.add_option("--foods", request.foods, "folder of the pantry");
    command.add_option("--own-foods", request.own_foods, "file of your own foods (see tuck foods add)");
    add_plan_options(command, request.options);
}

Plan plan_of(const Request& request) {
    const auto file =
        request.event_file.empty() ? std::nullopt : std::optional<std::string>(request.event_file);
    const auto input = io::plan_input(file, request.options);
    auto pantry = io::load_pantry(io::pantry_folder(request.foods));
    for (const auto& path : request.own_foods)
        io::add_foods(pantry, path);
    check_names(input, pantry, file.value_or("options"));
    return compose_plan(input.athlete, input.event, pantry);
}

} // namespace tuck::cli
