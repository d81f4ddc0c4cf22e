#include "io/food_check.hpp"

#include "base/utf8.hpp"
#include "io/food_fields.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <set>

namespace tuck::io {

namespace {

// Tables print grams to 0.01-0.1: the rounding that a sum of two of them may carry.
constexpr double rounding_g = 0.05;
// Foods of the USDA table reach 11 % against the general factors (dates, raisins, melons), none more.
constexpr double energy_tolerance = 0.12;
constexpr double energy_tolerance_kcal = 12;
// A composed table may sum to 102.1 % (gingerbread); nothing measured reaches 105 %.
constexpr double sum_usual_low = 0.94, sum_usual_high = 1.02, sum_possible_high = 1.05;
constexpr double caffeine_single_dose_mg = 200; // EFSA 2015: up to this at a time raises no concern
constexpr double salt_per_sodium = 2.5;         // EU 1169/2011, Annex I

template <auto amount>
constexpr double read(const Food& food) {
    return food.*amount;
}

/// What one serving of a form usually holds.
struct UsualRange {
    Form form;
    const char* key;
    double (*value)(const Food&);
    double low, high;
    const char* unit;
    const char* source;
};

constexpr char zhang[] = "Zhang 2015";
constexpr char practice[] = "common practice, no source";
constexpr UsualRange usual_ranges[] = {
    {Form::gel, "serving_g", read<&Food::serving_g>, 29, 120, "g", zhang},
    {Form::gel, "carb_g", read<&Food::carb_g>, 18, 51, "g", zhang},
    {Form::gel, "energy_kcal", read<&Food::energy_kcal>, 78, 204, "kcal", zhang},
    {Form::gel, "sugars_g", read<&Food::sugars_g>, 0.6, 26.8, "g", zhang},
    {Form::gel, "sodium_mg", read<&Food::sodium_mg>, 0, 200, "mg", practice},
    {Form::chew, "serving_g", read<&Food::serving_g>, 4, 60, "g", practice},
    {Form::chew, "sodium_mg", read<&Food::sodium_mg>, 0, 200, "mg", practice},
    {Form::bar, "serving_g", read<&Food::serving_g>, 20, 90, "g", practice},
    {Form::bar, "sodium_mg", read<&Food::sodium_mg>, 0, 250, "mg", practice},
    {Form::tablet, "sodium_mg", read<&Food::sodium_mg>, 0, 700, "mg", practice},
    {Form::tablet, "serving_g", read<&Food::serving_g>, 0.1, 10, "g", practice},
    {Form::capsule, "sodium_mg", read<&Food::sodium_mg>, 0, 500, "mg", practice},
    {Form::capsule, "serving_g", read<&Food::serving_g>, 0.1, 3, "g", practice},
};

// A drink, ready or made up: up to 16 % carbohydrate (strong, common practice) and 75 mmol/L sodium (oral
// rehydration solution, WHO/UNICEF 2006).
constexpr double drink_carb_high_g_per_l = 200, drink_sodium_high_mg_per_l = 1725;

class Judge {
public:
    Judge(const Food& food, std::string file, std::string pointer)
        : food_(food), file_(std::move(file)), pointer_(std::move(pointer)) {}

    FoodCheck run() {
        words();
        if (food_.serving_g <= 0)
            fault("serving_g", "must be above 0 g");
        else if (signs()) {
            sums();
            energy();
            volumes();
            sodium();
            caffeine();
            ranges();
        }
        return std::move(out_);
    }

private:
    void fault(const std::string& key, std::string text) {
        out_.faults.push_back({file_, pointer_ + "/" + key, std::move(text)});
    }
    void note(const std::string& key, std::string text) {
        out_.notes.push_back({file_, pointer_ + "/" + key, std::move(text)});
    }

    void words() {
        const auto& id = food_.id;
        const bool plain = std::all_of(id.begin(), id.end(), [](unsigned char c) {
            return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
        });
        if (id.empty() || id.size() > 40 || !plain || !(id[0] >= 'a' && id[0] <= 'z'))
            fault("id", fmt::format("\"{}\" cannot be an id; allowed: a small letter, then small letters, "
                                    "digits and _, at most 40",
                                    id));
        if (food_.name.empty())
            fault("name", "is empty");
        const auto length = characters(food_.label);
        if (length < 1 || length > longest_label)
            fault("label", fmt::format("has {} characters; allowed 1 to {} (it goes on the card)", length,
                                       longest_label));
        known("fits", food_.fits, fit_names());
        known("allergens", food_.allergens, allergen_names());
        if (food_.source.empty())
            fault("source", "is empty; say who gives the numbers");
        if (food_.provenance != "read" && food_.provenance != "memory" && food_.provenance != "computed")
            fault("provenance",
                  fmt::format("\"{}\" is not known; allowed: read, memory, computed", food_.provenance));
        if (!(food_.smallest > 0 && food_.smallest <= 1))
            fault("smallest", fmt::format("{:g} is out of range; allowed above 0 and up to 1 (0.5: can be "
                                          "taken in halves)",
                                          food_.smallest));
    }

    void known(const std::string& key, const std::vector<std::string>& words,
               const std::vector<std::string>& names) {
        std::set<std::string> seen;
        for (const auto& word : words) {
            if (!seen.insert(word).second)
                fault(key, fmt::format("\"{}\" stands twice", word));
            if (std::find(names.begin(), names.end(), word) != names.end())
                continue;
            const auto near = nearest_word(word, names);
            fault(key, near.empty()
                           ? fmt::format("\"{}\" is not known; allowed: {}", word, fmt::join(names, ", "))
                           : fmt::format("\"{}\" is not known; did you mean \"{}\"?", word, near));
        }
    }

    bool signs() {
        const std::pair<const char*, double> values[] = {{"energy_kcal", food_.energy_kcal},
                                                         {"carb_g", food_.carb_g},
                                                         {"sugars_g", food_.sugars_g},
                                                         {"glucose_g", food_.glucose_g},
                                                         {"fructose_g", food_.fructose_g},
                                                         {"fibre_g", food_.fibre_g},
                                                         {"fat_g", food_.fat_g},
                                                         {"protein_g", food_.protein_g},
                                                         {"sodium_mg", food_.sodium_mg},
                                                         {"caffeine_mg", food_.caffeine_mg},
                                                         {"water_g", food_.water_g}};
        bool good = true;
        for (const auto& [key, value] : values) {
            if (value >= 0 && std::isfinite(value))
                continue;
            fault(key, fmt::format("{:g} is not an amount; allowed 0 and more", value));
            good = false;
        }
        return good;
    }

    void sums() {
        if (food_.sugars_g > food_.carb_g + rounding_g)
            fault("sugars_g", fmt::format("{:g} g is above the carbohydrate of {:g} g, of which it is a part",
                                          food_.sugars_g, food_.carb_g));
        if (food_.glucose_g + food_.fructose_g > food_.carb_g + rounding_g)
            fault("glucose_g",
                  fmt::format("glucose {:g} g and fructose {:g} g are more than the carbohydrate of {:g} g",
                              food_.glucose_g, food_.fructose_g, food_.carb_g));
        const double sum = food_.carb_g + food_.fibre_g + food_.fat_g + food_.protein_g + food_.water_g;
        const double share = sum / food_.serving_g;
        const auto text = fmt::format("carbohydrate, fibre, fat, protein and water come to {:.4g} g of a "
                                      "serving of {:g} g",
                                      sum, food_.serving_g);
        const bool mostly_salts =
            food_.form == Form::powder || food_.form == Form::tablet || food_.form == Form::capsule;
        if (share > sum_possible_high)
            fault("serving_g", text + "; are they per 100 g?");
        else if (share > sum_usual_high || (share < sum_usual_low && !mostly_salts))
            note("serving_g", fmt::format("{}; usual are {:g} to {:g} %", text, 100 * sum_usual_low,
                                          100 * sum_usual_high));
    }

    void energy() {
        const double expected = label_energy_kcal(food_.carb_g, food_.fat_g, food_.protein_g, food_.fibre_g);
        const double given = food_.energy_kcal;
        if (std::abs(given - expected) <= std::max(energy_tolerance_kcal, energy_tolerance * expected))
            return;
        const double kj = label_energy_kj(food_.carb_g, food_.fat_g, food_.protein_g, food_.fibre_g);
        if (std::abs(given - kj) <= energy_tolerance * kj)
            fault("energy_kcal",
                  fmt::format("{:g} looks like kilojoules; give kcal (about {:.0f})", given, expected));
        else
            fault("energy_kcal",
                  fmt::format("{:g} kcal does not follow from the parts: 4 x carbohydrate + 9 x "
                              "fat + 4 x protein + 2 x fibre is {:.0f} kcal (12 % or 12 kcal "
                              "are allowed)",
                              given, expected));
    }

    void volumes() {
        if (!food_.serving_ml)
            return;
        const double density = food_.serving_g / *food_.serving_ml;
        if (density < 0.9 || density > 1.6)
            fault("serving_ml",
                  fmt::format("{:g} g in {:g} ml is {:.2f} g/ml; foods that flow have 0.9 to 1.6",
                              food_.serving_g, *food_.serving_ml, density));
    }

    void sodium() {
        const double mg = food_.sodium_mg;
        // Fruit and honey do hold less than 1 mg; nothing that is made for sport does.
        if (mg > 0 && mg < 1 && food_.form != Form::solid) {
            fault("sodium_mg",
                  fmt::format("{:g} mg looks like grams; give mg ({:g}), or 0 for none", mg, 1000 * mg));
            return;
        }
        const double salt_g = mg * salt_per_sodium / 1000;
        if (salt_g > 1.05 * food_.serving_g)
            fault("sodium_mg",
                  fmt::format("{:g} mg is more than pure salt holds in {:g} g; is it salt (divide "
                              "by 2.5)?",
                              mg, food_.serving_g));
    }

    void caffeine() {
        const double mg = food_.caffeine_mg;
        if (mg > caffeine_most_mg)
            fault("caffeine_mg", fmt::format("{:g} mg in a serving is out of range; allowed 0 to {:g} mg", mg,
                                             caffeine_most_mg));
        else if (mg > caffeine_single_dose_mg)
            note("caffeine_mg",
                 fmt::format("{:g} mg is above the {:g} mg that EFSA 2015 takes as a safe single dose for "
                             "adults",
                             mg, caffeine_single_dose_mg));
        else if (mg > 0 && mg < 0.5 && food_.form != Form::solid)
            fault("caffeine_mg",
                  fmt::format("{:g} mg looks like grams; give mg ({:g}), or 0 for none", mg, 1000 * mg));
    }

    void ranges() {
        for (const auto& range : usual_ranges) {
            const double value = range.value(food_);
            if (range.form != food_.form || (value >= range.low && value <= range.high))
                continue;
            note(range.key, fmt::format("{:g} {} is unusual for a {}; usual are {:g} to {:g} ({}){}", value,
                                        range.unit, to_string(food_.form), range.low, range.high,
                                        range.source, salt_hint(range, value)));
        }
        drink_ranges();
    }

    static std::string salt_hint(const UsualRange& range, double value) {
        if (range.value != read<&Food::sodium_mg> || value / salt_per_sodium > range.high)
            return "";
        return fmt::format("; if it is salt, give {:.0f}", value / salt_per_sodium);
    }

    void drink_ranges() {
        const auto ml = food_.form == Form::drink ? food_.serving_ml : food_.makes_ml;
        if (!ml)
            return;
        const double carb = 1000 * food_.carb_g / *ml, sodium = 1000 * food_.sodium_mg / *ml;
        if (carb > drink_carb_high_g_per_l)
            note("carb_g", fmt::format("makes {:.0f} g carbohydrate a litre; usual are up to {:g}", carb,
                                       drink_carb_high_g_per_l));
        if (sodium > drink_sodium_high_mg_per_l)
            note("sodium_mg",
                 fmt::format(
                     "makes {:.0f} mg sodium a litre, more than an oral rehydration solution; if it is "
                     "salt, give {:.0f}",
                     sodium, food_.sodium_mg / salt_per_sodium));
    }

    const Food& food_;
    std::string file_, pointer_;
    FoodCheck out_;
};

} // namespace

FoodCheck check_food(const Food& food, const std::string& file, const std::string& pointer) {
    return Judge(food, file, pointer).run();
}

double label_energy_kcal(double carb_g, double fat_g, double protein_g, double fibre_g) {
    return 4 * carb_g + 9 * fat_g + 4 * protein_g + 2 * fibre_g;
}

double label_energy_kj(double carb_g, double fat_g, double protein_g, double fibre_g) {
    return 17 * carb_g + 37 * fat_g + 17 * protein_g + 8 * fibre_g;
}

const std::vector<std::string>& fit_names() {
    static const std::vector<std::string> names{"bike", "run", "before", "after"};
    return names;
}

} // namespace tuck::io
