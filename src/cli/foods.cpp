#include "cli/command.hpp"
#include "cli/foods_text.hpp"
#include "cli/label_options.hpp"
#include "cli/written.hpp"
#include "io/folder_lock.hpp"
#include "io/food_check.hpp"
#include "io/label.hpp"
#include "io/outputs.hpp"
#include "io/pantry.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <memory>

namespace tuck::cli {

namespace {

using io::Fault;
using io::InputError;

struct ListOptions {
    std::string group;
    std::vector<std::string> own_foods;
    bool json = false;
};

struct ShowOptions {
    std::string id;
    std::vector<std::string> own_foods;
    bool json = false;
};

std::vector<const Food*> foods_of(const Pantry& pantry, const std::string& group) {
    std::vector<const Food*> chosen;
    std::vector<std::string> groups;
    for (const auto& [id, food] : pantry.foods) {
        groups.push_back(food.group);
        if (group.empty() || food.group == group)
            chosen.push_back(&food);
    }
    if (chosen.empty())
        throw InputError("--group", "", unknown_text(group, groups));
    std::stable_sort(chosen.begin(), chosen.end(),
                     [](const Food* a, const Food* b) { return a->group < b->group; });
    return chosen;
}

Pantry pantry_of(const std::string& folder, const std::vector<std::string>& own_foods) {
    auto pantry = io::load_pantry(io::pantry_folder(folder));
    for (const auto& file : own_foods)
        io::add_foods(pantry, file);
    return pantry;
}

int list_foods(const std::string& folder, const ListOptions& options) {
    const auto pantry = pantry_of(folder, options.own_foods);
    const auto foods = foods_of(pantry, options.group);
    io::say(options.json ? list_json(foods) : list_text(foods));
    return 0;
}

int show_food(const std::string& folder, const ShowOptions& options) {
    const auto pantry = pantry_of(folder, options.own_foods);
    const auto* food = pantry.find(options.id);
    if (!food) {
        std::vector<std::string> ids;
        for (const auto& [id, known] : pantry.foods)
            ids.push_back(id);
        throw InputError("foods show", "", unknown_text(options.id, ids));
    }
    io::say(options.json ? io::food_text(*food, 0, true) + "\n" : show_text(*food));
    return 0;
}

struct CheckOptions {
    std::vector<std::string> files;
    bool json = false;
};

int check_foods(const std::string& folder, const CheckOptions& options) {
    auto files = options.files;
    if (files.empty())
        files = io::food_files(io::pantry_folder(folder));
    std::vector<Fault> faults, notes;
    const auto foods = io::check_files(files, faults, notes);
    if (!options.json) {
        std::string text;
        for (const auto& note : notes)
            text += fmt::format("note: {}\n", io::line_of(note));
        io::say(text + check_summary(foods, files.size(), faults.size(), notes.size()) + "\n");
    } else if (faults.empty()) {
        nlohmann::ordered_json more{{"foods", foods}, {"notes", nlohmann::ordered_json::array()}};
        for (const auto& note : notes)
            more["notes"].push_back(io::line_of(note));
        io::say(written_json("foods check", files, more));
    }
    if (!faults.empty())
        throw InputError(std::move(faults));
    return 0;
}

/// The user's file as it is, or an empty one with a group of its own.
io::FoodFile own_file(const LabelWords& words) {
    std::error_code ignored;
    if (!std::filesystem::exists(words.file, ignored))
        return {words.group.empty() ? "own" : words.group, "Foods of our own, from their labels.", {}};
    std::vector<Fault> faults;
    auto file = io::read_food_file(words.file, faults);
    if (!faults.empty())
        throw InputError(std::move(faults));
    if (!words.group.empty() && words.group != file.group)
        throw InputError("--group", "",
                         fmt::format("{} holds the group \"{}\"; one group a file", words.file, file.group));
    return file;
}

int write_file(const LabelWords& words, const io::FoodFile& file, const Food& food, const std::string& text) {
    io::Outputs outputs;
    outputs.add(words.file, io::food_file_text(file));
    outputs.print(words.json ? io::food_text(food, 0, true) + "\n" : text);
    outputs.commit();
    return 0;
}

int add_food(const std::string& folder, const LabelWords& words) {
    const io::FolderLock lock(words.file);
    auto file = own_file(words);
    const auto label = label_of(words, file.group);
    auto read = io::food_from_label(label.label);
    read.assumptions.insert(read.assumptions.begin(), label.notes.begin(), label.notes.end());
    auto check = io::check_food(read.food, words.id, "");
    auto known = io::load_pantry(io::pantry_folder(folder));
    for (const auto& food : file.foods)
        known.foods.emplace(food.id, food);
    if (const auto* other = known.find(words.id))
        check.faults.push_back({"--id", "",
                                fmt::format("\"{}\" stands already in the group \"{}\"; choose another, or "
                                            "change it: tuck foods edit",
                                            words.id, other->group)});
    if (!check.faults.empty())
        throw InputError(std::move(check.faults));
    file.foods.push_back(read.food);
    return write_file(words, file, read.food,
                      added_text(read.food, words.file, read.assumptions, check.notes));
}

int edit_food(const LabelWords& words) {
    const io::FolderLock lock(words.file);
    std::vector<Fault> faults;
    auto file = io::read_food_file(words.file, faults);
    if (!faults.empty())
        throw InputError(std::move(faults));
    const auto food = std::find_if(file.foods.begin(), file.foods.end(),
                                   [&](const Food& each) { return each.id == words.id; });
    if (food == file.foods.end()) {
        std::vector<std::string> ids;
        for (const auto& each : file.foods)
            ids.push_back(each.id);
        throw InputError("foods edit", "", unknown_text(words.id, ids));
    }
    const auto read = io::food_from_label(edited_label(*food, words));
    auto check = io::check_food(read.food, words.id, "");
    if (!check.faults.empty())
        throw InputError(std::move(check.faults));
    *food = read.food;
    return write_file(words, file, read.food,
                      added_text(read.food, words.file, read.assumptions, check.notes));
}

using Folder = std::shared_ptr<std::string>;

Command list_command(Folder folder) {
    auto o = std::make_shared<ListOptions>();
    return {.name = "list",
            .help = "List the foods",
            .options = {{"--group", &o->group, "only this group", "WORD"},
                        {"--own-foods", &o->own_foods, "your own foods too", "FILE.json"},
                        {"--json", &o->json, "as JSON"}},
            .run = [=] { return list_foods(*folder, *o); }};
}

Command show_command(Folder folder) {
    auto o = std::make_shared<ShowOptions>();
    return {.name = "show",
            .help = "Show one food with its source",
            .options =
                {{.name = "id", .target = &o->id, .help = "id of the food", .kind = "ID", .required = true},
                 {"--own-foods", &o->own_foods, "look among your own foods too", "FILE.json"},
                 {"--json", &o->json, "as JSON"}},
            .run = [=] { return show_food(*folder, *o); }};
}

Command check_command(Folder folder) {
    auto o = std::make_shared<CheckOptions>();
    return {.name = "check",
            .help = "Check files of foods; without one, the pantry",
            .options = {{"file", &o->files, "files of foods (JSON)", "FILE.json"},
                        {"--json", &o->json, "as JSON (tuck.written/1)"}},
            .run = [=] { return check_foods(*folder, *o); }};
}

Command add_command(Folder folder) {
    auto o = std::make_shared<LabelWords>();
    return {.name = "add",
            .help = "Add a food from its label to a file of your own",
            .footer = "Example: tuck foods add --file mine.json --id my_gel --name \"My gel\" --form gel "
                      "--paste label.txt\n"
                      "  where label.txt holds the label as it stands, EU or US, with points or commas.",
            .options = label_options(*o),
            .run = [=] { return add_food(*folder, *o); }};
}

Command edit_command() {
    auto o = std::make_shared<LabelWords>();
    return {.name = "edit",
            .help = "Change a food of your own; amounts are those of one serving, as an EU label counts",
            .footer = "Example: tuck foods edit my_gel --file mine.json --salt 0.3g --needs-water no",
            .options = edit_options(*o),
            .run = [=] { return edit_food(*o); }};
}

} // namespace

Command foods_command() {
    auto folder = std::make_shared<std::string>();
    return {.name = "foods",
            .help = "The pantry: list, show and check foods, add and edit your own",
            .options = {{"--foods", folder.get(), "folder of the pantry", "FOLDER"}},
            .commands = {list_command(folder), show_command(folder), check_command(folder),
                         add_command(folder), edit_command()}};
}

} // namespace tuck::cli
