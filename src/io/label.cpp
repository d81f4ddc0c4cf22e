#include "io/label.hpp"

#include "io/fault.hpp"
#include "io/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::io {

namespace {

constexpr double salt_per_sodium = 2.5; // EU 1169/2011, Annex I
constexpr double kj_per_kcal = 4.184;
// 1 g of sugar in solution takes 0.62 ml of the water's place (partial volume, from memory; cola with 103 g/l
// then weighs 1.037 g/ml, the USDA table gives 1.038).
constexpr double water_g_per_ml = 0.998, gain_g_per_g_carb = 0.38;

/// The label's amounts turned into those of one serving.
class Reader {
public:
    explicit Reader(const Label& label) : label_(label) {}

    LabelFood run() {
        require();
        if (!faults_.empty())
            throw InputError(std::move(faults_));
        words();
        serving();
        energy();
        parts();
        sodium();
        split();
        water();
        out_.food.source = "label of the packet";
        out_.food.provenance = "read";
        out_.food.locator = locator();
        return std::move(out_);
    }

private:
    bool us() const { return label_.style == LabelStyle::us; }

    void miss(const char* option, const std::string& text) { faults_.push_back({option, "", text}); }
    void assume(std::string text) { out_.assumptions.push_back(std::move(text)); }

    void require() {
        const std::string missing = "is missing; the label gives it";
        if (!label_.serving_g && !(label_.serving_ml && label_.form == Form::drink))
            miss("--serving",
                 label_.serving_ml
                     ? "a volume is enough for a drink only; give the mass, and the volume as --volume"
                     : "is missing; give the mass of a serving, 40g (a drink: its volume, 500ml)");
        if (label_.per == LabelPer::hundred_ml && !label_.serving_ml)
            miss("--per", "100ml needs the volume of a serving: --volume 60ml");
        if (!label_.energy_kcal && !label_.energy_kj)
            miss("--energy", missing);
        if (!label_.carbohydrate_g)
            miss("--carbohydrate", missing);
        if (!label_.sugars_g)
            miss("--sugars", missing);
        if (!label_.fat_g)
            miss("--fat", missing);
        if (!label_.protein_g)
            miss("--protein", missing);
        if (us() && !label_.fibre_g)
            miss("--fibre", "is missing; a US label counts it in the total carbohydrate");
        if (us() && label_.fibre_g && label_.carbohydrate_g && *label_.fibre_g > *label_.carbohydrate_g)
            miss("--fibre",
                 fmt::format("{:g} g is more than the total carbohydrate of {:g} g, of which it is a part",
                             *label_.fibre_g, *label_.carbohydrate_g));
        if (label_.salt_g && label_.sodium_mg)
            miss("--salt", "and --sodium say the same thing; give one");
        if (!label_.salt_g && !label_.sodium_mg)
            miss(us() ? "--sodium" : "--salt", missing);
        if (label_.glucose_g && !label_.fructose_g)
            miss("--fructose", "is missing; --glucose alone does not split the carbohydrate");
        if (us() && label_.per != LabelPer::serving)
            miss("--per", "a US label is per serving; give --per serving, or --style eu");
        if (us() && label_.energy_kj)
            miss("--energy", "a US label gives Calories; give them as kcal");
    }

    void words() {
        auto& food = out_.food;
        if (label_.allergens.empty())
            assume("NO ALLERGENS given: counted as free of all 14 groups; read the packet and add them with "
                   "--allergen");
        const bool bite = label_.form == Form::bar || label_.form == Form::solid;
        food.id = label_.id;
        food.name = label_.name;
        food.group = label_.group;
        food.form = label_.form;
        food.label = !label_.label.empty()        ? label_.label
                     : label_.form == Form::solid ? std::string("food")
                                                  : std::string(to_string(label_.form));
        food.solid = bite || label_.form == Form::chew;
        food.melts = label_.melts;
        food.vegan = label_.vegan;
        food.allergens = label_.allergens;
        food.smallest = label_.smallest.value_or(bite ? 0.5 : 1);
        food.needs_water = label_.needs_water.value_or(label_.form == Form::gel);
        food.fits = label_.fits.empty() ? usual_fits() : label_.fits;
        if (!label_.needs_water && food.needs_water)
            assume("a gel is taken with water (an isotonic gel: --needs-water no)");
    }

    std::vector<std::string> usual_fits() {
        std::vector<std::string> fits =
            label_.form == Form::solid ? std::vector<std::string>{"before", "after"}
            : label_.form == Form::bar ? std::vector<std::string>{"bike", "before"}
                                       : std::vector<std::string>{"bike", "run"};
        assume(fmt::format("used for: {} (else --fits)", fmt::join(fits, ", ")));
        return fits;
    }

    void serving() {
        auto& food = out_.food;
        food.serving_ml = label_.serving_ml;
        food.makes_ml = label_.makes_ml;
        if (label_.serving_g) {
            food.serving_g = *label_.serving_g;
        } else {
            const double ml = *label_.serving_ml;
            const double share = label_.per == LabelPer::serving      ? 1
                                 : label_.per == LabelPer::hundred_ml ? ml / 100
                                                                      : water_g_per_ml * ml / 100;
            food.serving_g =
                rounded(water_g_per_ml * ml + gain_g_per_g_carb * share * *label_.carbohydrate_g, 1);
            assume(fmt::format("{:g} ml weigh {:g} g: water with the sugar dissolved in it", ml,
                               food.serving_g));
        }
        factor_ = label_.per == LabelPer::serving     ? 1
                  : label_.per == LabelPer::hundred_g ? food.serving_g.count() / 100
                                                      : *label_.serving_ml / 100;
    }

    static double rounded(double value, int digits) {
        const double scale = std::pow(10.0, digits);
        return std::round(value * scale) / scale;
    }
    double per_serving(double value, int digits = 2) const { return rounded(value * factor_, digits); }

    void energy() {
        if (label_.energy_kcal) {
            out_.food.energy_kcal = per_serving(*label_.energy_kcal, 1);
            return;
        }
        out_.food.energy_kcal = per_serving(*label_.energy_kj / kj_per_kcal, 1);
        assume(fmt::format("{:g} kJ taken as {:g} kcal (4.184 kJ each)", *label_.energy_kj,
                           rounded(*label_.energy_kj / kj_per_kcal, 1)));
    }

    void parts() {
        auto& food = out_.food;
        const double fibre_g = label_.fibre_g.value_or(0);
        food.fibre_g = per_serving(fibre_g);
        food.carb_g = per_serving(*label_.carbohydrate_g - (us() ? fibre_g : 0));
        food.sugars_g = per_serving(*label_.sugars_g);
        food.fat_g = per_serving(*label_.fat_g);
        food.protein_g = per_serving(*label_.protein_g);
        food.caffeine_mg = per_serving(label_.caffeine_mg.value_or(0), 1);
        if (us())
            assume(fmt::format("{:g} g total carbohydrate less {:g} g fibre is {:g} g carbohydrate",
                               *label_.carbohydrate_g, fibre_g, food.carb_g));
        if (!label_.fibre_g)
            assume("no fibre on the label: counted as 0 g");
        if (!label_.caffeine_mg)
            assume("no caffeine given: counted as 0 mg; a packet with caffeine says so");
        zeros();
        round_sugars();
    }

    /// Total carbohydrate, fibre and sugars are each rounded to 1 g (21 CFR 101.9(c)(6)): their difference
    /// can be up to 1.5 g short of the sugars.
    void round_sugars() {
        auto& food = out_.food;
        constexpr double rounding_g = 1.5;
        if (!us() || food.sugars_g <= food.carb_g || food.sugars_g > food.carb_g + rounding_g)
            return;
        food.sugars_g = food.carb_g;
        assume(fmt::format("sugars counted as {:g} g, all of the carbohydrate: the label is rounded",
                           food.sugars_g));
    }

    /// 21 CFR 101.9(c): what is printed as 0 may be up to just below the first step of rounding.
    void zeros() {
        if (!us())
            return;
        std::vector<std::string> less;
        const auto note = [&](const std::optional<double>& value, const char* text) {
            if (value && *value == 0)
                less.emplace_back(text);
        };
        note(label_.energy_kcal, "energy below 5 kcal");
        note(label_.fat_g, "fat below 0.5 g");
        note(label_.carbohydrate_g, "carbohydrate below 0.5 g");
        note(label_.fibre_g, "fibre below 0.5 g");
        note(label_.sugars_g, "sugars below 0.5 g");
        note(label_.protein_g, "protein below 0.5 g");
        note(label_.sodium_mg, "sodium below 5 mg");
        if (!less.empty())
            assume(fmt::format("a 0 on a US label means less: {}; counted as 0", fmt::join(less, ", ")));
    }

    void sodium() {
        const double mg = label_.sodium_mg ? *label_.sodium_mg : *label_.salt_g * 1000 / salt_per_sodium;
        out_.food.sodium_mg = per_serving(mg, 1);
        if (label_.salt_g)
            assume(fmt::format("{:g} g salt is {:g} mg sodium (salt = sodium x 2.5)", *label_.salt_g,
                               rounded(mg, 1)));
    }

    void split() {
        auto& food = out_.food;
        if (label_.fructose_g) {
            food.fructose_g = per_serving(*label_.fructose_g);
            food.glucose_g = label_.glucose_g
                                 ? per_serving(*label_.glucose_g)
                                 : rounded(std::max<double>(0, food.carb_g - food.fructose_g), 2);
            if (!label_.glucose_g)
                assume("everything that is not fructose counted as glucose");
            return;
        }
        food.fructose_g = rounded(food.sugars_g / 2, 2);
        food.glucose_g = rounded(std::max<double>(0, food.carb_g - food.fructose_g), 2);
        assume("sugars counted half as fructose, the rest of the carbohydrate as glucose: an estimate, 25 % "
               "either way");
    }

    void water() {
        auto& food = out_.food;
        if (food.form == Form::powder || food.form == Form::tablet || food.form == Form::capsule)
            return;
        const double salt_g = food.sodium_mg * salt_per_sodium / 1000;
        const double dry_g = food.carb_g + food.fibre_g + food.fat_g + food.protein_g + salt_g;
        food.water_g = rounded(std::max(0.0, food.serving_g - dry_g), 2);
        assume(fmt::format("what is left of the serving counted as water: {:g} g", food.water_g));
    }

    std::string locator() const {
        std::string text = us()                                 ? "US label per serving"
                           : label_.per == LabelPer::serving    ? "EU label per serving"
                           : label_.per == LabelPer::hundred_ml ? "EU label per 100 ml"
                                                                : "EU label per 100 g";
        if (!label_.fructose_g)
            text += "; fructose assumed half of the sugars";
        else if (!label_.glucose_g)
            text += "; all but the fructose counted as glucose";
        if (!label_.fibre_g)
            text += "; no fibre given, counted as 0";
        if (!label_.caffeine_mg)
            text += "; no caffeine given, counted as 0";
        if (label_.allergens.empty())
            text += "; no allergens given";
        if (out_.food.water_g > 0)
            text += "; water by difference";
        return text;
    }

    const Label& label_;
    double factor_ = 1;
    LabelFood out_;
    std::vector<Fault> faults_;
};

} // namespace

LabelFood food_from_label(const Label& label) {
    return Reader(label).run();
}

double label_amount(const std::string& text, double (*read)(const std::string&), const std::string& option,
                    double high, const char* unit) {
    try {
        const double value = read(text);
        if (value <= high)
            return value;
    } catch (const std::invalid_argument& error) {
        throw InputError(option, "", error.what());
    }
    throw InputError(option, "", fmt::format("{} is out of range; allowed 0 to {:g} {}", text, high, unit));
}

double label_mass_g(const std::string& text, LabelStyle style, const std::string& option, double high) {
    return label_amount(text, style == LabelStyle::us ? us_label_grams : grams, option, high, "g");
}

double label_volume_ml(const std::string& text, LabelStyle style, const std::string& option, double high) {
    return label_amount(text, style == LabelStyle::us ? us_label_volume_ml : volume_ml, option, high, "ml");
}

bool is_label_volume(const std::string& text, LabelStyle style) {
    try {
        label_volume_ml(text, style, "", 1e9);
        return true;
    } catch (const InputError&) {
        return false;
    }
}

} // namespace tuck::io
