#include "cli/command.hpp"
#include "cli/foods_text.hpp"
#include "io/food_check.hpp"
#include "io/label.hpp"
#include "io/outputs.hpp"
#include "io/pantry.hpp"
#include "io/units.hpp"

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
    bool json = false;
};

struct ShowOptions {
    std::string id;
    bool json = false;
};

/// The command line of `foods add`, as typed.
struct AddOptions {
    std::string file, id, name, label, group, form, style = "eu", per;
    std::string serving, volume, makes, needs_water;
    std::string energy, carbohydrate, sugars, fat, fibre, protein, salt, sodium, caffeine, glucose, fructose;
    std::vector<std::string> fits, allergens;
    std::optional<double> smallest;
    bool melts = false, vegan = false;
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

int list_foods(const std::string& folder, const ListOptions& options) {
    const auto pantry = io::load_pantry(io::pantry_folder(folder));
    const auto foods = foods_of(pantry, options.group);
    fmt::print("{}", options.json ? list_json(foods) : list_text(foods));
    return 0;
}

int show_food(const std::string& folder, const ShowOptions& options) {
    const auto pantry = io::load_pantry(io::pantry_folder(folder));
    const auto* food = pantry.find(options.id);
    if (!food) {
        std::vector<std::string> ids;
        for (const auto& [id, known] : pantry.foods)
            ids.push_back(id);
        throw InputError("foods show", "", unknown_text(options.id, ids));
    }
    fmt::print("{}", options.json ? io::food_text(*food, 0, true) + "\n" : show_text(*food));
    return 0;
}

int check_foods(const std::string& folder, std::vector<std::string> files) {
    if (files.empty())
        files = io::food_files(io::pantry_folder(folder));
    std::vector<Fault> faults, notes;
    const auto foods = io::check_files(files, faults, notes);
    for (const auto& note : notes)
        fmt::print("note: {}\n", io::line_of(note));
    fmt::print("{}\n", check_summary(foods, files.size(), faults.size(), notes.size()));
    if (!faults.empty())
        throw InputError(std::move(faults));
    return 0;
}

/// Reads the amounts that were typed; every one that is not understood adds its faults.
class Amounts {
public:
    explicit Amounts(io::LabelStyle style) : style_(style) {}

    template <typename Read>
    void read(Read take) {
        try {
            take();
        } catch (const InputError& error) {
            faults.insert(faults.end(), error.faults.begin(), error.faults.end());
        }
    }
    void grams(std::optional<double>& out, const std::string& text, const char* option, double high) {
        if (!text.empty())
            read([&] { out = io::label_mass_g(text, style_, option, high); });
    }
    void milligrams(std::optional<double>& out, const std::string& text, const char* option, double high) {
        if (!text.empty())
            read([&] { out = io::label_amount(text, io::milligrams, option, high, "mg"); });
    }
    void millilitres(std::optional<double>& out, const std::string& text, const char* option) {
        if (!text.empty())
            read([&] { out = io::label_volume_ml(text, style_, option, 2000); });
    }

    std::vector<Fault> faults;

private:
    io::LabelStyle style_;
};

void read_amounts(const AddOptions& options, io::Label& label) {
    Amounts amounts(label.style);
    if (io::is_label_volume(options.serving, label.style))
        amounts.millilitres(label.serving_ml, options.serving, "--serving");
    else
        amounts.grams(label.serving_g, options.serving, "--serving", 2000);
    amounts.millilitres(label.serving_ml, options.volume, "--volume");
    amounts.millilitres(label.makes_ml, options.makes, "--makes");
    amounts.grams(label.carbohydrate_g, options.carbohydrate, "--carbohydrate", 2000);
    amounts.grams(label.sugars_g, options.sugars, "--sugars", 2000);
    amounts.grams(label.fat_g, options.fat, "--fat", 2000);
    amounts.grams(label.fibre_g, options.fibre, "--fibre", 2000);
    amounts.grams(label.protein_g, options.protein, "--protein", 2000);
    amounts.grams(label.salt_g, options.salt, "--salt", 100);
    amounts.milligrams(label.sodium_mg, options.sodium, "--sodium", 100000);
    amounts.milligrams(label.caffeine_mg, options.caffeine, "--caffeine", 100000);
    amounts.grams(label.glucose_g, options.glucose, "--glucose", 2000);
    amounts.grams(label.fructose_g, options.fructose, "--fructose", 2000);
    if (!options.energy.empty())
        amounts.read([&] {
            io::label_amount(options.energy, io::energy_kcal, "--energy", 10000, "kcal");
            const auto energy = io::label_energy(options.energy);
            label.energy_kcal = energy.kcal;
            label.energy_kj = energy.kj;
        });
    if (!amounts.faults.empty())
        throw InputError(std::move(amounts.faults));
}

io::Label label_of(const AddOptions& options, const std::string& group) {
    io::Label label;
    label.style = options.style == "us" ? io::LabelStyle::us : io::LabelStyle::eu;
    label.per = options.per == "100g"    ? io::LabelPer::hundred_g
                : options.per == "100ml" ? io::LabelPer::hundred_ml
                                         : io::LabelPer::serving;
    label.id = options.id;
    label.name = options.name;
    label.label = options.label;
    label.group = group;
    label.form = form_from(options.form).value_or(Form::solid);
    label.fits = options.fits;
    label.allergens = options.allergens;
    if (!options.needs_water.empty())
        label.needs_water = options.needs_water == "yes";
    label.smallest = options.smallest;
    label.melts = options.melts;
    label.vegan = options.vegan;
    read_amounts(options, label);
    return label;
}

/// The user's file as it is, or an empty one with a group of its own.
io::FoodFile own_file(const AddOptions& options) {
    std::error_code ignored;
    if (!std::filesystem::exists(options.file, ignored))
        return {options.group.empty() ? "own" : options.group, "Foods of our own, from their labels.", {}};
    std::vector<Fault> faults;
    auto file = io::read_food_file(options.file, faults);
    if (!faults.empty())
        throw InputError(std::move(faults));
    if (!options.group.empty() && options.group != file.group)
        throw InputError(
            "--group", "",
            fmt::format("{} holds the group \"{}\"; one group a file", options.file, file.group));
    return file;
}

int add_food(const std::string& folder, const AddOptions& options) {
    auto file = own_file(options);
    const auto read = io::food_from_label(label_of(options, file.group));
    auto check = io::check_food(read.food, options.id, "");
    auto known = io::load_pantry(io::pantry_folder(folder));
    for (const auto& food : file.foods)
        known.foods.emplace(food.id, food);
    if (const auto* other = known.find(options.id))
        check.faults.push_back({"--id", "",
                                fmt::format("\"{}\" stands already in the group \"{}\"; choose another",
                                            options.id, other->group)});
    if (!check.faults.empty())
        throw InputError(std::move(check.faults));
    file.foods.push_back(read.food);
    io::Outputs outputs;
    outputs.add(options.file, io::food_file_text(file));
    outputs.print(added_text(read.food, options.file, read.assumptions, check.notes));
    outputs.commit();
    return 0;
}

OptionTable amount_options(AddOptions& o) {
    return {
        {"--energy", &o.energy, "energy: 240kcal or 1004kJ", "ENERGY"},
        {"--carbohydrate", &o.carbohydrate, "carbohydrate: 60g (US style: total carbohydrate)", "MASS"},
        {"--sugars", &o.sugars, "sugars", "MASS"},
        {"--fat", &o.fat, "fat", "MASS"},
        {"--fibre", &o.fibre, "fibre", "MASS"},
        {"--protein", &o.protein, "protein", "MASS"},
        {"--salt", &o.salt, "salt: 0.3g (or --sodium)", "MASS"},
        {"--sodium", &o.sodium, "sodium: 120mg (or --salt)", "MASS"},
        {"--caffeine", &o.caffeine, "caffeine: 75mg", "MASS"},
        {"--glucose", &o.glucose, "all that goes the glucose way: glucose, half of sugar, starch", "MASS"},
        {"--fructose", &o.fructose, "all that goes the fructose way: fructose, half of sugar", "MASS"},
    };
}

OptionTable required(OptionTable options) {
    for (auto& option : options)
        option.required = true;
    return options;
}

OptionTable add_options(AddOptions& o) {
    const auto kind = required({
        {"--file", &o.file, "your file of foods (JSON); made if missing", "FILE.json"},
        {"--id", &o.id, "short name for plans: small letters, digits, _", "WORD"},
        {"--name", &o.name, "name in plain words"},
        {"--form", &o.form, "what it is", "WORD", "solid, bar, gel, chew, drink, powder, tablet, capsule"},
        {"--per", &o.per, "what the amounts are for", "WORD", "100g, 100ml, serving"},
        {"--serving", &o.serving, "one serving: 40g; a drink may say 500ml", "MASS"},
    });
    const OptionTable size{
        {"--style", &o.style,
         "eu (the default): carbohydrate without fibre, salt; us: total carbohydrate, sodium", "WORD",
         "eu, us"},
        {"--volume", &o.volume, "volume of a serving, for what flows: 60ml", "VOLUME"},
        {"--makes", &o.makes, "drink that one serving of powder or one tablet makes: 500ml", "VOLUME"},
    };
    const OptionTable use{
        {.name = "--allergen",
         .target = &o.allergens,
         .help = "EU allergen, may be repeated",
         .kind = "WORD",
         .commas = true},
        {.name = "--fits",
         .target = &o.fits,
         .help = "bike, run, before, after; may be repeated",
         .kind = "WORD",
         .commas = true},
        {"--needs-water", &o.needs_water, "taken with water (an ordinary gel)", "WORD", "yes, no"},
        {"--smallest", &o.smallest, "smallest part of a serving that can be taken: 0.5", "NUMBER"},
        {"--label", &o.label, "word for the card, at most 10 characters"},
        {"--group", &o.group, "group of a new file", "WORD"},
        {"--melts", &o.melts, "soft in warm weather"},
        {"--vegan", &o.vegan, "nothing from animals"},
    };
    return kind + size + amount_options(o) + use;
}

using Folder = std::shared_ptr<std::string>;

Command list_command(Folder folder) {
    auto o = std::make_shared<ListOptions>();
    return {.name = "list",
            .help = "List the foods",
            .options = {{"--group", &o->group, "only this group", "WORD"}, {"--json", &o->json, "as JSON"}},
            .run = [=] { return list_foods(*folder, *o); }};
}

Command show_command(Folder folder) {
    auto o = std::make_shared<ShowOptions>();
    return {.name = "show",
            .help = "Show one food with its source",
            .options = required({{"id", &o->id, "id of the food", "ID"}}) +
                       OptionTable{{"--json", &o->json, "as JSON"}},
            .run = [=] { return show_food(*folder, *o); }};
}

Command check_command(Folder folder) {
    auto files = std::make_shared<std::vector<std::string>>();
    return {.name = "check",
            .help = "Check files of foods; without one, the pantry",
            .options = {{"file", files.get(), "files of foods (JSON)", "FILE.json"}},
            .run = [=] { return check_foods(*folder, *files); }};
}

Command add_command(Folder folder) {
    auto o = std::make_shared<AddOptions>();
    return {.name = "add",
            .help = "Add a food from its label to a file of your own",
            .options = add_options(*o),
            .run = [=] { return add_food(*folder, *o); }};
}

} // namespace

Command foods_command() {
    auto folder = std::make_shared<std::string>();
    return {
        .name = "foods",
        .help = "The pantry: list, show and check foods, add your own",
        .options = {{"--foods", folder.get(), "folder of the pantry", "FOLDER"}},
        .commands = {list_command(folder), show_command(folder), check_command(folder), add_command(folder)}};
}

} // namespace tuck::cli
