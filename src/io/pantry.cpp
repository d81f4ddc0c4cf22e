#include "io/pantry.hpp"

#include "tuck/pantry.hpp"

#include "io/field_reader.hpp"
#include "io/files.hpp"
#include "io/food_check.hpp"
#include "io/food_fields.hpp"
#include "io/json_reader.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace tuck::io {

namespace {

namespace fs = std::filesystem;

Food read_food(Node& node, const std::string& group) {
    Food food;
    food.group = group;
    FieldReader reader(node);
    visit_fields(food, reader);
    node.finish();
    return food;
}

std::string pointer_of(size_t index) {
    return fmt::format("/foods/{}", index);
}

void append(std::vector<Fault>& to, const std::vector<Fault>& more) {
    to.insert(to.end(), more.begin(), more.end());
}

/// Reads and judges one file, and puts its foods into the pantry. Returns how many it holds.
size_t take_file(const Document& document, Pantry& pantry, std::vector<Fault>& faults,
                 std::vector<Fault>& notes) {
    const size_t before = faults.size();
    const std::string& path = document.name;
    const auto file = read_food_file(document, faults);
    // Numbers that could not be read stand as 0; judging them would only repeat the fault in other words.
    const bool readable = faults.size() == before;
    for (size_t i = 0; i < file.foods.size(); ++i) {
        const auto& food = file.foods[i];
        if (readable) {
            const auto check = check_food(food, path, pointer_of(i));
            append(faults, check.faults);
            append(notes, check.notes);
        }
        if (!pantry.foods.emplace(food.id, food).second && !food.id.empty())
            faults.push_back({path, pointer_of(i) + "/id",
                              fmt::format("\"{}\" stands already in the group \"{}\"; each id once", food.id,
                                          pantry.foods[food.id].group)});
    }
    return file.foods.size();
}

size_t take_files(const std::vector<std::string>& paths, Pantry& pantry, std::vector<Fault>& faults,
                  std::vector<Fault>& notes) {
    size_t foods = 0;
    for (const auto& path : paths) {
        try {
            foods += take_file(path, pantry, faults, notes);
        } catch (const InputError& error) {
            append(faults, error.faults);
        }
    }
    return foods;
}

std::string quoted(const std::string& text) {
    return Json(text).dump();
}

std::string list_text(const std::vector<std::string>& texts) {
    std::string out = "[";
    for (const auto& text : texts)
        out += (out.size() > 1 ? ", " : "") + quoted(text);
    return out + "]";
}

bool holds_foods(const fs::path& folder) {
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator(folder, ignored))
        if (entry.path().extension() == ".json")
            return true;
    return false;
}

} // namespace

std::string pantry_folder(const std::string& asked) {
    std::vector<std::string> places;
    if (!asked.empty()) {
        places.push_back(asked);
    } else {
        std::error_code none;
        const auto program = fs::read_symlink("/proc/self/exe", none);
        if (!none) {
            places.push_back((program.parent_path().parent_path() / "share/tuck/foods").string());
            places.push_back((program.parent_path() / "foods").string()); // not installed yet
        }
    }
    std::string tried;
    for (const auto& place : places) {
        if (holds_foods(place))
            return place;
        tried += (tried.empty() ? "" : ", ") + place;
    }
    throw InputError("foods", "", "no folder with food files (*.json) found; tried: " + tried);
}

FoodFile read_food_file(const Document& document, std::vector<Fault>& faults) {
    const auto json = read_json(document);
    Node node(json, document.name, "", faults);
    FoodFile file;
    file.group = node.required_text("group", 40);
    if (node.has("group") && file.group.empty())
        node.fault("group", "must be a name in 1 to 40 letters");
    file.about = node.text("about").value_or("");
    auto items = node.objects("foods", most_foods_in_a_file);
    if (!node.has("foods"))
        node.missing("foods");
    for (auto& item : items)
        file.foods.push_back(read_food(item, file.group));
    node.finish();
    return file;
}

std::vector<std::string> food_files(const std::string& folder) {
    std::vector<std::string> paths;
    std::error_code problem;
    for (const auto& entry : fs::directory_iterator(folder, problem))
        if (entry.path().extension() == ".json")
            paths.push_back(entry.path().string());
    if (problem)
        throw InputError(folder, "", "cannot be read: " + problem.message());
    if (paths.empty())
        throw InputError(folder, "", "holds no food files (*.json)");
    std::sort(paths.begin(), paths.end());
    return paths;
}

size_t check_files(const std::vector<std::string>& paths, std::vector<Fault>& faults,
                   std::vector<Fault>& notes) {
    Pantry pantry;
    return take_files(paths, pantry, faults, notes);
}

Pantry load_pantry(const std::string& folder) {
    Pantry pantry;
    std::vector<Fault> faults, notes;
    take_files(food_files(folder), pantry, faults, notes);
    if (!faults.empty())
        throw InputError(std::move(faults));
    return pantry;
}

void add_foods(Pantry& pantry, const Document& file) {
    Pantry grown = pantry;
    std::vector<Fault> faults, notes;
    take_file(file, grown, faults, notes);
    for (auto& [id, food] : grown.foods)
        food.own = food.own || !pantry.foods.count(id);
    if (!faults.empty())
        throw InputError(std::move(faults));
    pantry = std::move(grown);
}

std::string food_text(const Food& food, int indent, bool with_group) {
    const std::string pad(static_cast<size_t>(indent) + 2, ' ');
    const auto volume = [](const char* key, const std::optional<double>& ml) {
        return ml ? fmt::format(", \"{}\": {}", key, *ml) : std::string();
    };
    std::string out = "{\n";
    if (with_group)
        out += fmt::format("{}\"group\": {},\n", pad, quoted(food.group));
    out += fmt::format("{}\"id\": {}{}, \"name\": {}, \"label\": {}, \"form\": \"{}\",\n", pad,
                       quoted(food.id), food.was.empty() ? "" : ", \"was\": " + list_text(food.was),
                       quoted(food.name), quoted(food.label), to_string(food.form));
    out += fmt::format("{}\"serving_g\": {}{}{}, \"smallest\": {}, \"energy_kcal\": {},\n", pad,
                       food.serving_g, volume("serving_ml", food.serving_ml),
                       volume("makes_ml", food.makes_ml), food.smallest, food.energy_kcal);
    out += fmt::format("{}\"carb_g\": {}, \"sugars_g\": {}, \"glucose_g\": {}, \"fructose_g\": {}, "
                       "\"fibre_g\": {},\n",
                       pad, food.carb_g, food.sugars_g, food.glucose_g, food.fructose_g, food.fibre_g);
    out += fmt::format("{}\"fat_g\": {}, \"protein_g\": {}, \"sodium_mg\": {}, \"caffeine_mg\": {}, "
                       "\"water_g\": {},\n",
                       pad, food.fat_g, food.protein_g, food.sodium_mg, food.caffeine_mg, food.water_g);
    out += fmt::format("{}\"fits\": {}, \"allergens\": {},\n", pad, list_text(food.fits),
                       list_text(food.allergens));
    out += fmt::format("{}\"melts\": {}, \"needs_water\": {}, \"solid\": {}, \"vegan\": {},\n", pad,
                       food.melts, food.needs_water, food.solid, food.vegan);
    out += fmt::format("{}\"source\": {},\n{}\"locator\": {},\n{}\"provenance\": {}\n", pad,
                       quoted(food.source), pad, quoted(food.locator), pad, quoted(food.provenance));
    return out + std::string(static_cast<size_t>(indent), ' ') + "}";
}

std::string food_file_text(const FoodFile& file) {
    std::string out = fmt::format("{{\n  \"group\": {},\n  \"about\": {},\n  \"foods\": [",
                                  quoted(file.group), quoted(file.about));
    for (size_t i = 0; i < file.foods.size(); ++i)
        out += (i ? ",\n    " : "\n    ") + food_text(file.foods[i], 4);
    return out + "\n  ]\n}\n";
}

} // namespace tuck::io

namespace tuck {

Pantry load_pantry(const std::string& folder) {
    return io::load_pantry(folder);
}

} // namespace tuck
