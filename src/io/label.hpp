// From the nutrition label on a packet to a food of the pantry.
#pragma once

#include "tuck/food.hpp"

#include <optional>
#include <string>
#include <vector>

namespace tuck::io {

/// eu: EU Regulation 1169/2011 (carbohydrate without fibre, salt). us: 21 CFR 101.9 (total carbohydrate with
/// fibre, sodium, rounded per serving; a 0 means "less than").
enum class LabelStyle { eu, us };
enum class LabelPer { hundred_g, hundred_ml, serving };

/// What the user read off the packet. Masses in g, sodium and caffeine in mg, volumes in ml; absent: not
/// given.
struct Label {
    LabelStyle style = LabelStyle::eu;
    LabelPer per = LabelPer::hundred_g; // what the amounts below are for
    std::optional<double> serving_g, serving_ml, makes_ml;
    std::optional<double> energy_kcal, energy_kj;
    std::optional<double> carbohydrate_g, sugars_g, fibre_g, fat_g, protein_g;
    std::optional<double> salt_g, sodium_mg, caffeine_mg;
    std::optional<double> glucose_g, fructose_g; // the two sugar paths, if the packet tells them

    std::string id, name, label; // label empty: a word for the form
    std::string group;
    Form form = Form::gel;
    std::vector<std::string> fits; // empty: what suits the form
    std::vector<std::string> allergens;
    std::optional<bool> needs_water; // absent: yes for a gel
    std::optional<double> smallest;  // absent: halves for bars and solids
    bool melts = false, vegan = false;
};

struct LabelFood {
    Food food;
    std::vector<std::string> assumptions; // what the label does not say and we took, in plain sentences
};

/// One serving of the food on the label. Throws InputError, one fault per option, for what a label must give
/// and is missing, for salt and sodium together, and for parts of the sugar split given alone. Does not judge
/// the numbers: see food_check.hpp.
LabelFood food_from_label(const Label& label);

/// A text of the label by one of the readers of io/units.hpp, between 0 and `high`. Throws InputError with
/// the option's name.
double label_amount(const std::string& text, double (*read)(const std::string&), const std::string& option,
                    double high, const char* unit);
/// "40g", "120mg" in g; "500ml", "0.5l" in ml; with the measures of US labels where the style is theirs.
double label_mass_g(const std::string& text, LabelStyle style, const std::string& option, double high);
double label_volume_ml(const std::string& text, LabelStyle style, const std::string& option, double high);
/// True when the text is a volume.
bool is_label_volume(const std::string& text, LabelStyle style);

} // namespace tuck::io
