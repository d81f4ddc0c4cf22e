#include "cli/label_options.hpp"

#include "io/fault.hpp"
#include "io/files.hpp"
#include "io/label_paste.hpp"
#include "io/units.hpp"

#include <fmt/format.h>

namespace tuck::cli {

namespace {

using io::Fault;
using io::InputError;

constexpr const char* forms = "solid, bar, gel, chew, drink, powder, tablet, capsule";

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

void read_amounts(const LabelWords& options, io::Label& label) {
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

/// What was typed, over what stands.
void lay_over(const LabelWords& words, io::Label& label) {
    const auto lay = [](std::string& place, const std::string& word) { place = word.empty() ? place : word; };
    lay(label.name, words.name);
    lay(label.label, words.label);
    label.form = words.form.empty() ? label.form : form_from(words.form).value_or(Form::solid);
    if (!words.fits.empty())
        label.fits = words.fits;
    if (!words.allergens.empty())
        label.allergens = words.allergens;
    if (!words.needs_water.empty())
        label.needs_water = words.needs_water == "yes";
    if (words.smallest)
        label.smallest = words.smallest;
    label.melts = label.melts || words.melts;
    label.vegan = label.vegan || words.vegan;
    read_amounts(words, label);
}

/// The amounts of a pasted text, where nothing else was typed.
void paste_into(LabelWords& words, ReadLabel& out) {
    const auto pasted = io::read_pasted_label(io::read_file(words.paste), words.paste);
    const std::pair<const char*, std::string*> places[] = {
        {"--energy", &words.energy},     {"--carbohydrate", &words.carbohydrate},
        {"--sugars", &words.sugars},     {"--fat", &words.fat},
        {"--fibre", &words.fibre},       {"--protein", &words.protein},
        {"--salt", &words.salt},         {"--sodium", &words.sodium},
        {"--caffeine", &words.caffeine}, {"--fructose", &words.fructose},
        {"--serving", &words.serving}};
    const bool salted = !words.salt.empty() || !words.sodium.empty();
    std::string read;
    for (const auto& [option, place] : places) {
        const auto amount = pasted.amounts.find(option);
        if (amount == pasted.amounts.end() || !place->empty() ||
            (salted && (place == &words.salt || place == &words.sodium)))
            continue;
        *place = amount->second;
        read += fmt::format("{}{} {}", read.empty() ? "" : ", ", option + 2, amount->second);
    }
    if (words.style.empty())
        words.style = pasted.style == io::LabelStyle::us ? "us" : "eu";
    if (words.per.empty())
        words.per = pasted.per == io::LabelPer::hundred_g    ? "100g"
                    : pasted.per == io::LabelPer::hundred_ml ? "100ml"
                                                             : "serving";
    out.notes = pasted.notes;
    out.notes.insert(out.notes.begin(), fmt::format("read from the text, per {}: {}", words.per, read));
}

} // namespace

ReadLabel label_of(LabelWords words, const std::string& group) {
    ReadLabel out;
    if (!words.paste.empty())
        paste_into(words, out);
    if (words.per.empty())
        throw InputError("--per", "",
                         "is missing; allowed: 100g, 100ml, serving (or --paste the whole label)");
    auto& label = out.label;
    label.style = words.style == "us" ? io::LabelStyle::us : io::LabelStyle::eu;
    label.per = words.per == "100g"    ? io::LabelPer::hundred_g
                : words.per == "100ml" ? io::LabelPer::hundred_ml
                                       : io::LabelPer::serving;
    label.id = words.id;
    label.group = group;
    lay_over(words, label);
    return out;
}

io::Label edited_label(const Food& food, const LabelWords& words) {
    io::Label label;
    label.per = io::LabelPer::serving;
    label.id = food.id;
    label.name = food.name;
    label.label = food.label;
    label.group = food.group;
    label.form = food.form;
    label.fits = food.fits;
    label.allergens = food.allergens;
    label.needs_water = food.needs_water;
    label.smallest = food.smallest;
    label.melts = food.melts;
    label.vegan = food.vegan;
    label.serving_g = food.serving_g;
    label.serving_ml = food.serving_ml;
    label.makes_ml = food.makes_ml;
    if (words.energy.empty())
        label.energy_kcal = food.energy_kcal;
    label.carbohydrate_g = food.carb_g;
    label.sugars_g = food.sugars_g;
    label.fat_g = food.fat_g;
    label.fibre_g = food.fibre_g;
    label.protein_g = food.protein_g;
    label.caffeine_mg = food.caffeine_mg;
    if (words.salt.empty() && words.sodium.empty())
        label.sodium_mg = food.sodium_mg;
    if (words.carbohydrate.empty() && words.sugars.empty() && words.glucose.empty() &&
        words.fructose.empty()) {
        label.glucose_g = food.glucose_g;
        label.fructose_g = food.fructose_g;
    }
    lay_over(words, label);
    return label;
}

namespace {

OptionTable amount_options(LabelWords& o) {
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

OptionTable use_options(LabelWords& o) {
    return {
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
        {"--melts", &o.melts, "soft in warm weather"},
        {"--vegan", &o.vegan, "nothing from animals"},
        {"--json", &o.json, "the food as JSON"},
    };
}

} // namespace

OptionTable label_options(LabelWords& o) {
    const auto kind = required({
        {"--file", &o.file, "your file of foods (JSON); made if missing", "FILE.json"},
        {"--id", &o.id, "short name for plans: small letters, digits, _", "WORD"},
        {"--name", &o.name, "name in plain words"},
        {"--form", &o.form, "what it is", "WORD", forms},
    });
    const OptionTable size{
        {"--paste", &o.paste, "the label's words, copied or read off a photo (- for standard input)", "FILE"},
        {"--per", &o.per, "what the amounts are for", "WORD", "100g, 100ml, serving"},
        {"--serving", &o.serving, "one serving: 40g; a drink may say 500ml", "MASS"},
        {"--style", &o.style,
         "eu (the default): carbohydrate without fibre, salt; us: total carbohydrate, sodium", "WORD",
         "eu, us"},
        {"--volume", &o.volume, "volume of a serving, for what flows: 60ml", "VOLUME"},
        {"--makes", &o.makes, "drink that one serving of powder or one tablet makes: 500ml", "VOLUME"},
    };
    return kind + size + amount_options(o) + use_options(o) +
           OptionTable{{"--group", &o.group, "group of a new file", "WORD"}};
}

OptionTable edit_options(LabelWords& o) {
    return OptionTable{
               {.name = "id", .target = &o.id, .help = "id of the food", .kind = "ID", .required = true},
               {.name = "--file",
                .target = &o.file,
                .help = "your file of foods (JSON)",
                .kind = "FILE.json",
                .required = true},
               {"--name", &o.name, "name in plain words"},
               {"--form", &o.form, "what it is", "WORD", forms},
               {"--serving", &o.serving, "one serving: 40g", "MASS"},
               {"--volume", &o.volume, "volume of a serving: 60ml", "VOLUME"},
               {"--makes", &o.makes, "drink that one serving makes: 500ml", "VOLUME"}} +
           amount_options(o) + use_options(o);
}

} // namespace tuck::cli
